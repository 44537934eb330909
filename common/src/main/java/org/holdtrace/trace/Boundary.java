package org.holdtrace.trace;

/** Where one phase of a hold test ends and the next begins. The labels stand in files. */
public enum Boundary {
    /** The first stroke that raises pressure: rest ends. */
    PUMPING_STARTS("pumping starts"),
    /** Pressure no longer rises though pumping goes on. */
    PLATEAU_STARTS("plateau starts"),
    /** The end of the last stroke: settling begins. */
    PUMPING_ENDS("pumping ends"),
    /** Settling is over. */
    HOLD_STARTS("hold starts"),
    /** Pressure is let off, or the test is over. */
    HOLD_ENDS("hold ends");

    private final String label;

    Boundary(String label) {
        this.label = label;
    }

    /** The words used in files and on screens. */
    public String label() {
        return label;
    }
}
