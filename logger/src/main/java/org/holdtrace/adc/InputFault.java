package org.holdtrace.adc;

/** What can be wrong with an input. The names are stable: they stand in recorded sessions. */
public enum InputFault {
    /** The converter or the bus to it does not answer, or lost its set-up. */
    BUS("adc.bus", false),
    /** The signal is where no transducer puts it: wire broken or shorted, or the transducer without supply. */
    WIRE("input.wire", false),
    /** The converter or the transducer is at its end: the true value may lie beyond. */
    SATURATED("input.saturated", false),
    /** The converter gives one code whatever it is asked. */
    STUCK("input.stuck", false),
    /** The signal is outside the range the transducer promises, yet no clear fault. */
    RANGE("input.range", true),
    /** The transducers' supply is too low. */
    SUPPLY_LOW("supply.low", false),
    /** The transducers' supply is another than that by which this session is calibrated. */
    SUPPLY_MOVED("supply.moved", true);

    private final String label;
    private final boolean doubt;

    InputFault(String label, boolean doubt) {
        this.label = label;
        this.doubt = doubt;
    }

    /** The stable name. */
    public String label() {
        return label;
    }

    /** Whether it is a doubt only: to be noted, not to be shown as a fault. */
    public boolean isDoubt() {
        return doubt;
    }
}
