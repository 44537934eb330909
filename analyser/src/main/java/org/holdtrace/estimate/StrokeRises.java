package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.util.Arrays;
import java.util.List;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * What each stroke raises the pressure by, as a first look.
 *
 * @param riseBar rise across each stroke, with what leaked away meanwhile added, bar
 * @param levelBar pressure after each, bar
 * @param topBar highest pressure in each, bar
 * @param afterPause whether there was a pause before it, in which the pump's check valve may have let oil back
 * @param typicalBar median rise over the full strokes in the upper half of the pressure, bar
 * @param count strokes that went into it
 */
record StrokeRises(
        double[] riseBar, double[] levelBar, double[] topBar, boolean[] afterPause, double typicalBar, int count) {
    /** The means before and after a stroke are taken over this long at the most, s. */
    private static final double LOOK_S = 0.1;

    /** A line that is full takes a stroke with at least this share of the typical rise. */
    private static final double FULL = 0.4;

    /** A rise below this share of its neighbours' is no full stroke. */
    private static final double PART = 0.6;

    /** A relief begins to pass oil below its setting, and a setting is read off a plate. */
    private static final double NEAR_RELIEF = 0.94;

    /** Fewer full strokes than this calibrate nothing: one wrong count would rule. */
    private static final int FEWEST_FULL = 3;

    static StrokeRises of(Trace trace, HoldTest test) {
        List<Stroke> strokes = test.strokes();
        int n = strokes.size();
        double zero = test.rest().zeroPa();
        double[] before = new double[n];
        double[] level = new double[n];
        double[] top = new double[n];
        boolean[] afterPause = new boolean[n];
        double pauseS = Spans.pauseS(test);
        for (int k = 0; k < n; k++) {
            Stroke stroke = strokes.get(k);
            before[k] = (mean(trace, lookFromS(strokes, k), stroke.startS()) - zero) / PA_PER_BAR;
            level[k] = (mean(trace, stroke.endS(), lookToS(strokes, k)) - zero) / PA_PER_BAR;
            afterPause[k] = k > 0 && stroke.startS() - strokes.get(k - 1).endS() > pauseS;
            top[k] = (highest(trace, stroke) - zero) / PA_PER_BAR;
        }
        double[] lossPerS = lossesPerS(strokes, before, level);
        double[] rise = new double[n];
        for (int k = 0; k < n; k++) {
            double fromS = 0.5 * (lookFromS(strokes, k) + strokes.get(k).startS());
            double toS = 0.5 * (strokes.get(k).endS() + lookToS(strokes, k));
            double meanBar = (mean(trace, fromS, toS) - zero) / PA_PER_BAR;
            rise[k] = level[k] - before[k] + medianAbout(lossPerS, k) * Math.max(0, meanBar) * (toS - fromS);
        }
        double peak = largest(level);
        double highest = largest(rise);
        int inner = 0;
        double[] kept = new double[n];
        for (int k = 1; k + 1 < n; k++) {
            // Strokes that end against a relief raise next to nothing and tell nothing.
            if (level[k] > 0.5 * peak && rise[k] > 0.25 * highest) {
                kept[inner++] = rise[k];
            }
        }
        double typical = Math.max(0.1, peak / Math.max(1, n));
        if (inner > 0) {
            Arrays.sort(kept, 0, inner);
            typical = Math.max(1e-3, kept[inner / 2]);
        }
        return new StrokeRises(rise, level, top, afterPause, typical, inner);
    }

    /**
     * What a full stroke raises the pressure by, of the right order however few strokes there are, bar: the typical rise,
     * else the largest; NaN where there is none but the last, which may have been next to nothing.
     */
    double usualBar() {
        return count > 0 ? typicalBar : riseBar.length > 1 ? Math.max(0.1, largest(riseBar)) : Double.NaN;
    }

    private static double lookFromS(List<Stroke> strokes, int k) {
        double startS = strokes.get(k).startS();
        double previous = k == 0 ? startS - 0.3 : strokes.get(k - 1).endS();
        return Math.max(previous, startS - LOOK_S);
    }

    private static double lookToS(List<Stroke> strokes, int k) {
        double endS = strokes.get(k).endS();
        double next = k + 1 < strokes.size() ? strokes.get(k + 1).startS() : endS + 0.3;
        return Math.min(next, endS + LOOK_S);
    }

    /** The share of the pressure that is lost a second in the pause after each stroke; 0 after the last. */
    private static double[] lossesPerS(List<Stroke> strokes, double[] before, double[] level) {
        double[] lossPerS = new double[strokes.size()];
        for (int k = 0; k + 1 < lossPerS.length; k++) {
            double fromS = 0.5 * (strokes.get(k).endS() + lookToS(strokes, k));
            double toS = 0.5 * (lookFromS(strokes, k + 1) + strokes.get(k + 1).startS());
            if (toS > fromS && before[k + 1] > 0) {
                lossPerS[k] = Math.max(0, Math.log(level[k] / before[k + 1]) / (toS - fromS));
            }
        }
        return lossPerS;
    }

    /**
     * The strokes that cannot be counted as full ones in the line: those that still fill what had drained out, up to
     * and with the first that finds the line full; the last, which is cut short; those that part of their oil goes over
     * a relief; and those that raise much less than the strokes about them.
     */
    boolean[] notFull(double reliefBar, double peakBar) {
        int n = riseBar.length;
        boolean[] out = new boolean[n];
        int first = 0;
        while (first < n && riseBar[first] < FULL * typicalBar) {
            out[first++] = true;
        }
        for (int k = 0; k < n; k++) {
            boolean overRelief =
                    relieved(k, reliefBar) || (riseBar[k] < 0.25 * typicalBar && levelBar[k] > 0.9 * peakBar);
            boolean part = k > first && riseBar[k] < PART * medianAbout(riseBar, k);
            out[k] |= k == 0 || k == first || k == n - 1 || afterPause[k] || overRelief || part;
        }
        // The stem of a valve that is screwed in looks like a small push: the one before it was the last, and cut
        // short.
        for (int k = n - 1; k > first && riseBar[k] < PART * medianAbout(riseBar, k); k--) {
            out[k - 1] = true;
        }
        int full = 0;
        for (boolean unknown : out) {
            full += unknown ? 0 : 1;
        }
        if (full < FEWEST_FULL) {
            Arrays.fill(out, true);
        }
        return out;
    }

    /** Whether stroke {@code k} went so near a relief set at {@code reliefBar} that some of its oil went over it. */
    private boolean relieved(int k, double reliefBar) {
        return topBar[k] > NEAR_RELIEF * reliefBar;
    }

    /** The strokes after which a relief set at {@code reliefBar} may still pass oil: all that went near it. */
    boolean[] relieved(double reliefBar) {
        boolean[] out = new boolean[riseBar.length];
        for (int k = 0; k < out.length; k++) {
            out[k] = relieved(k, reliefBar);
        }
        return out;
    }

    /** The second highest sample of a stroke: the highest may be a spike. */
    private static double highest(Trace trace, Stroke stroke) {
        int a = trace.indexAt(stroke.startS());
        int b = Math.min(trace.size(), trace.indexAt(stroke.endS()) + 2);
        double first = Double.NEGATIVE_INFINITY;
        double second = Double.NEGATIVE_INFINITY;
        for (int i = a; i < b; i++) {
            double p = trace.pressurePa(i);
            if (p > first) {
                second = first;
                first = p;
            } else if (p > second) {
                second = p;
            }
        }
        return Double.isInfinite(second) ? first : second;
    }

    private static double medianAbout(double[] values, int k) {
        int from = Math.max(0, k - 3);
        int to = Math.min(values.length, k + 4);
        double[] v = Arrays.copyOfRange(values, from, to);
        Arrays.sort(v);
        return v[v.length / 2];
    }

    /** The largest of {@code values}, 0 where there are none. */
    private static double largest(double[] values) {
        double largest = values.length == 0 ? 0 : values[0];
        for (double v : values) {
            largest = Math.max(largest, v);
        }
        return largest;
    }

    private static double mean(Trace trace, double from, double to) {
        int a = Math.min(trace.size() - 1, trace.indexAt(from));
        int b = Math.min(trace.size(), Math.max(a + 1, trace.indexAt(to)));
        double sum = 0;
        for (int i = a; i < b; i++) {
            sum += trace.pressurePa(i);
        }
        return sum / (b - a);
    }
}
