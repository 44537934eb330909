package org.holdtrace.estimate;

import static org.holdtrace.estimate.Results.leak;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/**
 * A hand pump goes on into a relief that opens at 92 bar, on the pump's side of the shut-off valve. What that passes
 * between two strokes is no leak of the component, and with the valve shut nothing of it is left.
 */
class ReliefWhilePumpingTest {
    private static final double OPENS_BAR = 92;
    private static final double CM3_PER_MIN_AT_90_BAR = 0.2;

    /** The line with the relief, which is cut off {@code shutS} after the last of {@code strokes}. */
    private static ClosedForm.Line line(int strokes, double shutS) {
        boolean[] open = {true};
        ClosedForm.Line line = Workshop.line(
                p -> CM3_PER_MIN_AT_90_BAR / 60 * p / 90 + (open[0] ? 0.02 * Math.max(0, p - OPENS_BAR) : 0));
        return new ClosedForm.Line() {
            private int left = strokes;
            private double sinceS;

            @Override
            public double bar() {
                return line.bar();
            }

            @Override
            public void stroke(double cm3) {
                line.stroke(cm3);
                left--;
            }

            @Override
            public void pass(double s) {
                sinceS += left > 0 ? 0 : s;
                open[0] = sinceS < shutS;
                line.pass(s);
            }
        };
    }

    @Test
    void whatTheReliefOfThePumpPassesIsNoLeakOfTheComponent() {
        ClosedForm form = Workshop.form();
        form.strokes = 32;
        form.holdS = 40;
        HoldTestResult result = Results.of(
                form.make(line(form.strokes, 1)),
                Workshop.calibrated().reference("90 bar").relief("95 bar"));
        double truth = CM3_PER_MIN_AT_90_BAR / 60e6;
        assertTrue(
                leak(result).lower95() <= truth && truth <= leak(result).upper95(),
                () -> leak(result).lower95() * 60e6 + " to " + leak(result).upper95() * 60e6);
        assertTrue(
                leak(result).upper95() < 3 * truth,
                () -> "up to " + leak(result).upper95() * 60e6);
    }
}
