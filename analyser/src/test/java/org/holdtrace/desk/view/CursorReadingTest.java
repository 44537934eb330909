package org.holdtrace.desk.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.Compliance;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;

/** By hand: 120 bar falling 3 bar in 30 s is 6 bar/min; at 0.01 cm³/bar that is 0.06 cm³/min of oil. */
class CursorReadingTest {
    private static final Trace FALLING = Trace.of(new double[] {0, 60}, new double[] {120e5, 114e5});
    private static final Optional<Compliance> KNOWN =
            Optional.of(new Compliance(1e-13, 0.9e-13, 1.1e-13, List.of("strokes")));

    @Test
    void twoCursorsInEitherOrderTellSlopeAndLeak() {
        for (double[] at : new double[][] {{10, 40}, {40, 10}}) {
            CursorReading reading =
                    CursorReading.of(FALLING, at[0], at[1], KNOWN).orElseThrow();
            assertEquals(30, reading.deltaS(), 1e-12);
            assertEquals(-3e5, reading.deltaPa(), 1e-6);
            assertEquals(1e-9, reading.leakM3PerS().orElseThrow(), 1e-18);
            assertEquals(
                    "Δt 30 s   Δp -3 bar   slope -6 bar/min   means a leak of 0.06 cm³/min (compliance × slope)",
                    reading.words(Unit.BAR));
        }
    }

    @Test
    void withoutComplianceThereIsNoLeakRateAndItSaysSo() {
        assertEquals(
                "Δt 30 s   Δp -3 bar   slope -6 bar/min   no compliance known, so no leak rate",
                CursorReading.of(FALLING, 10, 40, Optional.empty())
                        .orElseThrow()
                        .words(Unit.BAR));
    }

    @Test
    void cursorsAtOneTimeReadNothing() {
        assertTrue(CursorReading.of(FALLING, 10, 10, KNOWN).isEmpty());
    }
}
