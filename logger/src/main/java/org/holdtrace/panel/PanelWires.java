package org.holdtrace.panel;

/** Lamps, beeper and button as wires. None of it throws: what is absent does nothing. One thread. */
interface PanelWires extends AutoCloseable {
    /** Lights or darkens lamp {@code number}, 0 left to 2 right. */
    void lamp(int number, boolean lit);

    /** Sounds or silences the beeper. */
    void beep(boolean on);

    /** Whether the button is down at this instant, bouncing contacts and all. */
    boolean isDown();

    @Override
    void close();
}
