package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.List;

/**
 * Opening pressures that a threshold is tried with, as many as the balance has columns for, rising, bar. Each may still
 * move a little, so that what lies between them is tried too.
 */
record OpeningGrid(double[] bar) {
    /** Opening pressures tried between the end of the hold (0) and the peak (1), densest where a decay dies out. */
    private static final double[] ABOVE_HOLD = {-0.15, -0.05, -0.01, 0.01, 0.05, 0.15, 0.4, 0.7};

    /** The rest lie below the end of the hold, as shares of it: this and further ones {@link #BELOW_STEP} apart. */
    private static final double BELOW = 0.3;

    private static final double BELOW_STEP = 0.2;

    /** A grid from well below the pressure at the end of the hold to the peak. */
    static OpeningGrid wide(double holdEndBar, double peakBar) {
        double end = Math.min(0.98 * peakBar, holdEndBar);
        int below = Columns.THRESHOLDS - ABOVE_HOLD.length;
        double[] bar = new double[Columns.THRESHOLDS];
        for (int k = 0; k < bar.length; k++) {
            bar[k] = k < below ? end * (BELOW + BELOW_STEP * k) : end + (peakBar - end) * ABOVE_HOLD[k - below];
        }
        return new OpeningGrid(bar);
    }

    /** A grid from the neighbour below {@code centreBar} to the one above. */
    OpeningGrid about(double centreBar) {
        int n = bar.length;
        int at = nearest(centreBar);
        double low = at == 0 ? 0.5 * bar[0] : bar[at - 1];
        double high = at == n - 1 ? bar[at] + 0.5 * (bar[at] - bar[at - 1]) : bar[at + 1];
        double[] finer = new double[n];
        for (int k = 0; k < n; k++) {
            finer[k] = Math.max(0.03 * bar[n - 1], low + (high - low) * (k + 0.5) / n);
        }
        return new OpeningGrid(finer);
    }

    /** Mean distance from one opening pressure to the next, bar. */
    double spacingBar() {
        return (bar[bar.length - 1] - bar[0]) / (bar.length - 1);
    }

    /** A threshold at each; {@code shift} as {@link LeakShape#movingThreshold} takes it. */
    List<LeakShape> thresholds(double shift) {
        return thresholds(0, bar.length - 1, shift);
    }

    /** A threshold at the opening pressure nearest to {@code centreBar} and at its neighbours. */
    List<LeakShape> thresholdsAbout(double centreBar, double shift) {
        int at = nearest(centreBar);
        return thresholds(Math.max(0, at - 1), Math.min(bar.length - 1, at + 1), shift);
    }

    private List<LeakShape> thresholds(int first, int last, double shift) {
        List<LeakShape> out = new ArrayList<>();
        for (int k = first; k <= last; k++) {
            out.add(LeakShape.movingThreshold(k, bar[k], shift));
        }
        return out;
    }

    private int nearest(double centreBar) {
        int at = 0;
        for (int k = 0; k < bar.length; k++) {
            at = Math.abs(bar[k] - centreBar) < Math.abs(bar[at] - centreBar) ? k : at;
        }
        return at;
    }
}
