package org.holdtrace.trace;

/** What the test line is doing. The labels are those of the machine-readable output. */
public enum Phase {
    /** Before pumping: no pressure; zero offset and noise are learned here. */
    REST("rest"),
    /** From the first stroke that raises pressure to the end of the last. */
    PUMP_UP("pump-up"),
    /** Inside pump-up: pumping goes on, pressure no longer rises. */
    PLATEAU("plateau"),
    /** After the last stroke, while heat of compression leaves the oil and the hose creeps. */
    SETTLING("settling"),
    /** The line is shut and pressure does what the component lets it. */
    HOLD("hold"),
    /** Pressure is let off. */
    BLEED_OFF("bleed-off");

    private final String label;

    Phase(String label) {
        this.label = label;
    }

    /** The word used in output and on screens. */
    public String label() {
        return label;
    }
}
