package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Against traces made here, of which the truth is known: how they are made is the only source there is. */
class RestUnderPressureTest {
    private static final double PA_PER_BAR = 1e5;

    private static HoldTest.RestLevel rest(MadeTrace made) {
        return TraceSegmenter.segment(made.make()).get(0).rest();
    }

    @Test
    void pressureLeftInTheLineIsNoZeroWhereTheLetOffGoesBelowIt() {
        MadeTrace made = new MadeTrace(1);
        made.startBar = 2.5;
        HoldTest.RestLevel rest = rest(made);
        assertEquals(made.zeroBar, rest.zeroPa() / PA_PER_BAR, 0.02);
    }

    @Test
    void aLineThatWasAtRestKeepsTheZeroOfItsRest() {
        MadeTrace made = new MadeTrace(2);
        made.driftBarPerS = -0.002;
        HoldTest.RestLevel rest = rest(made);
        assertEquals(made.zeroBar + made.restS * made.driftBarPerS, rest.zeroPa() / PA_PER_BAR, 0.02);
    }

    @Test
    void whatWasNotLetOffAtTheEndIsPressure() {
        MadeTrace made = new MadeTrace(3);
        made.leftPart = 0.05;
        assertEquals(made.zeroBar, rest(made).zeroPa() / PA_PER_BAR, 0.02);
    }

    @Test
    void aTraceThatBeginsPumpedUpTakesItsZeroFromItsEnd() {
        MadeTrace made = MadeTrace.begunPumpedUp(4, 180);
        made.restS = 0;
        HoldTest.RestLevel rest = rest(made);
        assertTrue(rest.fromRest());
        assertEquals(made.zeroBar, rest.zeroPa() / PA_PER_BAR, 0.05);
    }

    @Test
    void butNotFromAnEndThatIsStillUnderPressure() {
        MadeTrace made = MadeTrace.begunPumpedUp(5, 180);
        made.restS = 0;
        made.leftPart = 0.1;
        assertFalse(rest(made).fromRest());
    }
}
