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

    /** Where a valve's curve may bend between its opening (0) and the peak (1). */
    private static final double[] BENDS = {0.04, 0.12, 0.3, 0.6};

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

    /**
     * The pressures about {@code centreBar} that are left to try, and behind them those above it where a valve's curve may
     * bend.
     */
    OpeningGrid bendingAbove(double centreBar, double peakBar) {
        double[] mixed = bar.clone();
        int first = firstBend();
        int from = Math.max(0, Math.min(bar.length - first, nearest(centreBar) - first / 2));
        System.arraycopy(bar, from, mixed, 0, first);
        for (int k = 0; k < BENDS.length; k++) {
            mixed[first + k] = centreBar + BENDS[k] * Math.max(0, peakBar - centreBar);
        }
        return new OpeningGrid(mixed);
    }

    private int firstBend() {
        return bar.length - BENDS.length;
    }

    /** Mean distance from one opening pressure to the next, bar. */
    double spacingBar() {
        return (bar[bar.length - 1] - bar[0]) / (bar.length - 1);
    }

    /**
     * A threshold at each; {@code shift} as {@link LeakShape#movingThreshold} takes it.
     *
     * @param seeps whether the valve may seep, however much, while it is shut
     */
    List<LeakShape> thresholds(double shift, boolean seeps) {
        return thresholds(0, bar.length - 1, shift, seeps);
    }

    /**
     * Of a grid that is {@link #bendingAbove}, straight thresholds at the opening pressure nearest to {@code centreBar} and at
     * its neighbours.
     */
    List<LeakShape> straight(double centreBar, double shift, boolean seeps) {
        int at = nearestStart(centreBar);
        return thresholds(Math.max(0, at - 1), Math.min(firstBend() - 1, at + 1), shift, seeps);
    }

    /**
     * Of such a grid, valves of this conductance that open at the pressure nearest to {@code centreBar} and below, since a
     * curve that bends upwards opens below where a straight line would have it begin.
     */
    List<LeakShape> valves(double centreBar, double peakBar, double shift, double conductance, boolean seeps) {
        int at = nearestStart(centreBar);
        List<LeakShape> out = new ArrayList<>();
        for (int k = Math.max(0, at - 4); k <= at; k += 2) {
            LeakShape threshold = threshold(k, shift, seeps);
            LeakShape valve = seeps ? threshold : threshold.seepingALittle(conductance, peakBar);
            out.add(valve.bending(conductance, firstBend(), bar));
        }
        return out;
    }

    private int nearestStart(double centreBar) {
        return nearest(centreBar, firstBend());
    }

    private List<LeakShape> thresholds(int first, int last, double shift, boolean seeps) {
        List<LeakShape> out = new ArrayList<>();
        for (int k = first; k <= last; k++) {
            out.add(threshold(k, shift, seeps));
        }
        return out;
    }

    private LeakShape threshold(int k, double shift, boolean seeps) {
        LeakShape tight = LeakShape.movingThreshold(k, bar[k], shift);
        return seeps ? tight.seeping(LeakShape.ANY) : tight;
    }

    private int nearest(double centreBar) {
        return nearest(centreBar, bar.length);
    }

    private int nearest(double centreBar, int of) {
        int at = 0;
        for (int k = 0; k < of; k++) {
            at = Math.abs(bar[k] - centreBar) < Math.abs(bar[at] - centreBar) ? k : at;
        }
        return at;
    }
}
