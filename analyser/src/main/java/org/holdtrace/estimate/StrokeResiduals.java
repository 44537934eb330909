package org.holdtrace.estimate;

import java.util.Arrays;

/** What the balance leaves over across each stroke: how much strokes scatter, and which were not full ones. */
final class StrokeResiduals {
    /** Strokes of a hand pump scatter at least this much, as a fraction (common practice, no source). */
    private static final double LEAST_SCATTER = 0.003;

    /** Fewer differences than this tell no standard deviation. */
    private static final int FEWEST = 5;

    private StrokeResiduals() {}

    /** Steps across strokes: position of the row after each, the residual step in bar, and strokes in between. */
    private record Steps(int[] after, double[] stepBar, int[] strokes) {}

    private static Steps steps(Evidence evidence, double[] residual) {
        Reduction data = evidence.data;
        int[] after = new int[residual.length];
        double[] step = new double[residual.length];
        int[] strokes = new int[residual.length];
        int n = 0;
        for (int i = 1; i < residual.length; i++) {
            int a = evidence.row[i - 1];
            int b = evidence.row[i];
            int between = data.strokesBefore[b] - data.strokesBefore[a];
            if (between > 0 && data.unknownBefore[a] == data.unknownBefore[b]) {
                after[n] = i;
                step[n] = residual[i] - residual[i - 1];
                strokes[n++] = between;
            }
        }
        return new Steps(Arrays.copyOf(after, n), Arrays.copyOf(step, n), Arrays.copyOf(strokes, n));
    }

    /** Standard deviation of a stroke's volume as a fraction, robust. */
    static double scatter(Evidence evidence, double[] residual, double strokeBar) {
        return scatter(steps(evidence, residual), strokeBar);
    }

    private static double scatter(Steps steps, double strokeBar) {
        int n = steps.stepBar.length;
        if (n < FEWEST) {
            return 0.02;
        }
        double[] size = new double[n - 1];
        // From one step to the next: what all steps have in common is the model's error and not a stroke's.
        for (int i = 1; i < n; i++) {
            double before = steps.stepBar[i - 1] / steps.strokes[i - 1];
            double now = steps.stepBar[i] / steps.strokes[i];
            size[i - 1] = Math.abs(now - before) / Math.sqrt(1.0 / steps.strokes[i - 1] + 1.0 / steps.strokes[i]);
        }
        Arrays.sort(size);
        double byMedian = size[(n - 1) / 2] / 0.6745;
        return Math.min(0.2, Math.max(LEAST_SCATTER, byMedian / strokeBar * (1 + 2.0 / n)));
    }

    /**
     * Standard deviation of what the rows of one tail differ by, bar, robust; 0 where too few tails have rows to compare. More
     * than samples' noise leaves: a push rings on, a hand is not quite still, heat leaves the first layers of oil at once.
     */
    static double withinTails(Evidence evidence, double[] residual) {
        Reduction data = evidence.data;
        double[] size = new double[residual.length];
        int n = 0;
        for (int i = 1; i < residual.length; i++) {
            int a = evidence.row[i - 1];
            int b = evidence.row[i];
            if (data.kind[a] == Reduction.Kind.TAIL
                    && data.kind[b] == Reduction.Kind.TAIL
                    && data.strokesBefore[a] == data.strokesBefore[b]) {
                size[n++] = Math.abs(residual[i] - residual[i - 1]);
            }
        }
        if (n < FEWEST) {
            return 0;
        }
        Arrays.sort(size, 0, n);
        return size[n / 2] / 0.6745 / Math.sqrt(2);
    }

    /** The strokes known to be of unknown volume, and those whose residual says so. */
    static boolean[] doubtful(Evidence evidence, NodeFit fit, double strokeBar, boolean[] unknown) {
        Steps steps = steps(evidence, evidence.rawResidual(fit.gamma));
        boolean[] out = unknown.clone();
        double scatter = scatter(steps, strokeBar);
        Reduction data = evidence.data;
        for (int i = 0; i < steps.stepBar.length; i++) {
            double allowed = Math.max(4.5 * scatter, 0.05) * strokeBar * Math.sqrt(steps.strokes[i]);
            if (Math.abs(steps.stepBar[i]) > allowed) {
                int last = data.strokesBefore[evidence.row[steps.after[i]]] - 1;
                for (int k = Math.max(0, last - steps.strokes[i] + 1); k <= last; k++) {
                    out[k] = true;
                }
            }
        }
        int lost = 0;
        for (boolean b : out) {
            lost += b ? 1 : 0;
        }
        // Where most strokes look odd it is the fit that is odd, and nothing is thrown away.
        return lost > 0.5 * out.length + 2 ? unknown : out;
    }
}
