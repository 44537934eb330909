package org.holdtrace.estimate;

import static org.holdtrace.estimate.Results.leak;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.leak.Law;
import org.junit.jupiter.api.Test;

/**
 * Valves that open early as valves do: area in proportion to lift, flow with the root of the pressure besides (the orifice
 * equation, LK-09), begun over a few per cent of the pressure, with a seat that seeps. Nothing of the estimator's own law
 * is in them.
 */
class ValveCurveTest {
    private static final double OPENS_BAR = 70;

    /** What gets through, cm³/min, of 4 at 100 bar and of what seeps. */
    private static double cm3PerMin(double bar, double footBar, double seepsAt100Bar) {
        double lift = footBar * Math.log1p(Math.exp((bar - OPENS_BAR) / footBar));
        return 4 * lift / 30 * Math.sqrt(Math.max(0, bar) / 100) + seepsAt100Bar * bar / 100;
    }

    private static HoldTestResult result(double footBar, double seepsAt100Bar, String reference) {
        ClosedForm form = Workshop.form();
        form.holdS = 120;
        return Results.of(
                form.make(Workshop.line(p -> cm3PerMin(p, footBar, seepsAt100Bar) / 60)),
                Workshop.known().reference(reference));
    }

    private static void assertHolds(double cm3PerMin, HoldTestResult result) {
        double truth = cm3PerMin / 60e6;
        assertEquals(Law.THRESHOLD, leak(result).law());
        assertTrue(
                leak(result).lower95() <= truth && truth <= leak(result).upper95(),
                () -> cm3PerMin + " cm3/min is not in " + leak(result).lower95() * 60e6 + " to "
                        + leak(result).upper95() * 60e6);
        assertTrue(
                leak(result).upper95() < 2 * truth,
                () -> "up to " + leak(result).upper95() * 60e6);
    }

    @Test
    void aValveThatOpensGraduallyIsFoundAboveItsOpeningAndAtItsFoot() {
        // At its foot a valve that opens as gradually as any thought of (2 % of its pressure) is told 7 % too tight, a
        // fifth of
        // a half-width outside; well above it such a one is covered too.
        for (double foot : new double[] {0.3, 0.7}) {
            assertHolds(cm3PerMin(76, foot, 0), result(foot, 0, "76 bar"));
        }
        for (double foot : new double[] {0.3, 0.7, 1.4}) {
            assertHolds(cm3PerMin(90, foot, 0), result(foot, 0, "90 bar"));
        }
    }

    @Test
    void aValveThatSeepsBelowItsOpeningIsNotTakenForHeat() {
        assertHolds(cm3PerMin(85, 0.7, 0.15), result(0.7, 0.15, "85 bar"));
    }

    @Test
    void aLeakThatIsNotToldFromZeroIsOverNoLimit() {
        HoldTestResult tight = Results.of(
                Workshop.form().make(Workshop.line(p -> 0)), Workshop.known().limit("1e-6 cm3/min"));
        assertEquals(Law.NONE, leak(tight).law());
        assertEquals(Outcome.UNDECIDED, tight.verdict().orElseThrow().outcome());
    }

    @Test
    void whatIsLostOnlyBeforeTheValveIsShutIsNoLeakThatIsTold() {
        // One push to some 100 bar, a third of it lost in the three seconds after it, nothing afterwards: a valve that
        // opens
        // early or a shut-off valve that was shut late.
        ClosedForm form = Workshop.form();
        form.strokes = 1;
        form.strokeCm3 = 1;
        HoldTestResult result = Results.of(
                form.make(Workshop.line(p -> 0.02 * Math.max(0, p - 65))),
                Workshop.calibrated().limit("0.05 cm3/min"));
        assertEquals(Law.NONE, leak(result).law());
        assertEquals(Outcome.UNDECIDED, result.verdict().orElseThrow().outcome());
        assertTrue(result.cautions().stream().anyMatch(c -> c.code().equals("lost-before-shut")));
    }
}
