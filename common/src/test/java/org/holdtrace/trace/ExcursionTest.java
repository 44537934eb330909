package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Readings made here: what is a fault and what a line can do is common practice, no source. */
class ExcursionTest {
    private static final double LEAST = 0.1;

    private static double middle(double... values) {
        return Excursion.without(values, LEAST);
    }

    @Test
    void aFaultOfUpToThreeSamplesGivesWayToWhatIsAboutIt() {
        assertEquals(5.005, middle(5, 5.01, 5, 5, 9, 5.01, 5, 5, 5), 1e-9);
        assertEquals(5.005, middle(5, 5.01, 5, 2, 2, 5.01, 5, 5, 5), 1e-9);
        assertEquals(5.0, middle(5, 5, 9, 9, 9, 5, 5, 5, 5), 1e-9);
    }

    @Test
    void whatLastsLongerIsPressure() {
        assertEquals(9, middle(5, 9, 9, 9, 9, 5, 5, 5, 5), 0);
    }

    @Test
    void aStepIsPressure() {
        assertEquals(9, middle(5, 5, 5, 5, 9, 9, 9, 9, 9), 0);
        assertEquals(5, middle(5, 5, 5, 5, 5, 9, 9, 9, 9), 0);
    }

    @Test
    void thePeakOfASawToothIsPressure() {
        assertEquals(8, middle(4, 5, 6, 7, 8, 7, 6, 5, 4), 0);
        assertEquals(8, middle(0, 2, 4, 6, 8, 7, 6, 5, 4), 0);
    }

    @Test
    void whatNoiseMayDoIsLeftAlone() {
        assertEquals(5.05, middle(5, 5, 5, 5, 5.05, 5, 5, 5, 5), 0);
    }
}
