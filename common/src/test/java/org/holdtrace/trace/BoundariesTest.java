package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class BoundariesTest {
    private static final Trace TRACE = ramp();
    private static final HoldTest TEST = new HoldTest(
            1,
            List.of(
                    new PhaseSpan(Phase.REST, 0, 5),
                    new PhaseSpan(Phase.PUMP_UP, 5, 20),
                    new PhaseSpan(Phase.PLATEAU, 12, 20),
                    new PhaseSpan(Phase.SETTLING, 20, 25),
                    new PhaseSpan(Phase.HOLD, 25, 60),
                    new PhaseSpan(Phase.BLEED_OFF, 60, 62)),
            List.of(new Stroke(5, 6), new Stroke(12, 13), new Stroke(19, 20)),
            new HoldTest.RestLevel(1e5, 100, true),
            OptionalDouble.of(15e5));

    @Test
    void aMovedBoundaryMovesTheEndOfOnePhaseAndTheStartOfTheNext() {
        HoldTest moved = Boundaries.moved(TRACE, TEST, Boundary.HOLD_STARTS, 30);
        assertEquals(
                new PhaseSpan(Phase.SETTLING, 20, 30),
                moved.phase(Phase.SETTLING).orElseThrow());
        assertEquals(new PhaseSpan(Phase.HOLD, 30, 60), moved.phase(Phase.HOLD).orElseThrow());
        assertEquals(TEST, Boundaries.moved(TRACE, moved, Boundary.HOLD_STARTS, 25), "and back");
        HoldTest ended = Boundaries.moved(TRACE, TEST, Boundary.HOLD_ENDS, 50);
        assertEquals(
                new PhaseSpan(Phase.BLEED_OFF, 50, 62),
                ended.phase(Phase.BLEED_OFF).orElseThrow());
    }

    @Test
    void aStrokeIsCutAtTheEndOfPumpingOrLeftOutWhereLittleOfItRemains() {
        assertEquals(
                List.of(new Stroke(5, 6), new Stroke(12, 13), new Stroke(19, 19.8)),
                Boundaries.moved(TRACE, TEST, Boundary.PUMPING_ENDS, 19.8).strokes());
        assertEquals(
                2,
                Boundaries.moved(TRACE, TEST, Boundary.PUMPING_ENDS, 19.3)
                        .strokes()
                        .size());
        assertEquals(
                2,
                Boundaries.moved(TRACE, TEST, Boundary.PUMPING_STARTS, 8)
                        .strokes()
                        .size());
    }

    @Test
    void theMeanOfThePlateauIsTakenAnew() {
        HoldTest moved = Boundaries.moved(TRACE, TEST, Boundary.PLATEAU_STARTS, 16);
        assertEquals(18e5 - 1e5, moved.plateauMeanPa().orElseThrow(), 1e3, "the ramp is at 1 bar a second");
    }

    @Test
    void settlingMayBeTakenAwayAndMadeButNoPhaseTurnsRound() {
        HoldTest none = Boundaries.moved(TRACE, TEST, Boundary.HOLD_STARTS, 20);
        assertTrue(none.phase(Phase.SETTLING).isEmpty());
        assertEquals(
                new PhaseSpan(Phase.SETTLING, 20, 22),
                Boundaries.moved(TRACE, none, Boundary.HOLD_STARTS, 22)
                        .phase(Phase.SETTLING)
                        .orElseThrow());
        for (double wrong : new double[] {4, 61, Double.NaN}) {
            assertThrows(
                    IllegalArgumentException.class,
                    () -> Boundaries.moved(TRACE, TEST, Boundary.HOLD_STARTS, wrong),
                    "at " + wrong);
        }
        assertEquals(5.05, Boundaries.of(TEST).earliestS(Boundary.PLATEAU_STARTS), 1e-9);
        assertEquals(62, Boundaries.of(TEST).latestS(Boundary.HOLD_ENDS), 1e-9);
    }

    @Test
    void aTestThatBeginsPumpedUpHasNoBoundaryOfPumping() {
        HoldTest pumpedUp = new HoldTest(
                1,
                List.of(new PhaseSpan(Phase.HOLD, 3, 60)),
                List.of(),
                new HoldTest.RestLevel(0, 100, false),
                OptionalDouble.empty());
        assertEquals(OptionalDouble.empty(), Boundaries.of(pumpedUp).at(Boundary.PUMPING_ENDS));
        assertThrows(
                IllegalArgumentException.class, () -> Boundaries.moved(TRACE, pumpedUp, Boundary.PUMPING_ENDS, 10));
        assertEquals(
                10,
                Boundaries.moved(TRACE, pumpedUp, Boundary.HOLD_ENDS, 10)
                        .phase(Phase.HOLD)
                        .orElseThrow()
                        .toS());
    }

    private static Trace ramp() {
        double[] timeS = new double[6400];
        double[] pressurePa = new double[timeS.length];
        for (int i = 0; i < timeS.length; i++) {
            timeS[i] = i / 100.0;
            pressurePa[i] = 1e5 * timeS[i];
        }
        return Trace.of(timeS, pressurePa);
    }
}
