package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Sharpens the strokes of one hold test with the samples on both sides at hand, and drops what proves no stroke. */
final class StrokeRefiner {
    /** What is looked at before and after a push, s: long enough to know the course, short enough for a parabola. */
    private static final double MARGIN_S = 0.35;

    private static final double PART_OF_RISE = 0.55;
    private static final double DOUBLE = 1.5;
    private static final double STOP_PART = 0.35;
    private static final double PART_OF_END = 0.25;
    private static final double PAST_PEAK_GAIN = 50;
    private static final double PAST_PEAK_PART = 0.12;
    /** A push sets in unseen only where as much of its rise as this leaks away in the same time … */
    private static final double LEAKS_PART = 0.3;

    /** … and pressure falls by less than this part of what it fell by before. */
    private static final double PUSHED_PART = 0.5;

    private static final double SURE_SIGMAS = 5;
    /** A rise of more than so many steps of the converter is no reading that went from one to the next. */
    private static final double STEPS = 1.5;

    private static final double PEAK_SIGMAS = 12;
    private static final double PEAK_PART = 0.4;
    /** Strokes on either side of one that tell what strokes are like there. */
    private static final int ABOUT = 3;

    /** Readings that wander rise by so many standard deviations somewhere in a test, from a low to a high … */
    private static final double WANDER_SIGMAS = 8;

    /** … which is no stroke where it is less than this part of the largest (common practice). */
    private static final double SCRAP_PART = 0.1;

    private static final double TURN_SIGMAS = 3;
    /** A course that is seen for less than this part of what was looked at is no course. */
    private static final double LEAST_SEEN = 0.25;

    private final SampleWindow window;
    private final EdgeFit fit = new EdgeFit();
    private final double zeroPa;
    private final double blockNoisePa;
    private final double leastSigmaPa;
    private final double wanderPa;

    /**
     * @param rest what rest told; readings that stand still may go to the next step of the converter at any time
     * @param blockNoisePa standard deviation of a block's mean
     */
    StrokeRefiner(SampleWindow window, RestLevels rest, double blockNoisePa) {
        this.window = window;
        zeroPa = rest.zeroPa();
        wanderPa = rest.wanderPa();
        leastSigmaPa = STEPS / SURE_SIGMAS * rest.stillStepPa();
        this.blockNoisePa = Math.max(blockNoisePa, leastSigmaPa);
    }

    /** A stroke with the pressure at its ends, Pa. */
    static final class Edges {
        double startS;
        double endS;
        double startPa;
        double endPa;

        Edges(double startS, double endS, double startPa, double endPa) {
            this.startS = startS;
            this.endS = endS;
            this.startPa = startPa;
            this.endPa = endPa;
        }

        double risePa() {
            return endPa - startPa;
        }

        /** Goes on to the end of {@code later}, which is a part of the same push. */
        void goOnWith(Edges later) {
            endS = later.endS;
            endPa = later.endPa;
        }
    }

    /** The strokes of {@code test}, sharpened; {@code fromS} and {@code toS} bound what may be looked at. */
    List<Edges> refine(FoundTest test, double fromS, double toS) {
        List<Edges> strokes = new ArrayList<>();
        for (int i = 0; i < test.strokes(); i++) {
            strokes.add(new Edges(test.startS(i), test.endS(i), test.startPa(i), test.endPa(i)));
        }
        splitDoubles(strokes);
        for (int i = 0; i < strokes.size(); i++) {
            Edges each = strokes.get(i);
            double before = i == 0 ? fromS : strokes.get(i - 1).endS;
            double after = i == strokes.size() - 1 ? toS : strokes.get(i + 1).startS;
            start(each, before);
            if (i > 0) {
                startBeforeRise(each, before);
            }
            end(each, after);
            endPastPeak(each, after);
            level(each, before, after);
        }
        UnbrokenPushes.join(window, zeroPa, strokes);
        dropUnproven(strokes);
        Hesitations.join(strokes);
        new SmallStrokeFinder(window, leastSigmaPa).fill(strokes, test.restFromS, test.restToS, fromS, toS);
        return strokes;
    }

    /** Drops what raised pressure no more than noise does, across it or within it. */
    private void dropUnproven(List<Edges> strokes) {
        double[] within = new double[strokes.size()];
        for (int i = 0; i < within.length; i++) {
            within[i] = riseWithin(strokes.get(i));
        }
        double noise = PEAK_SIGMAS * Math.max(blockNoisePa, window.noisePa());
        for (int i = strokes.size() - 1; i >= 0; i--) {
            // Strokes grow small on the way to a plateau: what is usual is what those about this one do.
            double[] about = Arrays.copyOfRange(within, Math.max(0, i - ABOUT), Math.min(within.length, i + ABOUT + 1));
            double least = Math.max(noise, PEAK_PART * Medians.ofFirst(about, about.length));
            boolean proven = strokes.get(i).risePa() > SURE_SIGMAS * blockNoisePa || within[i] > least;
            if (!proven || wandered(within, i, strokes.get(i).risePa())) {
                strokes.remove(i);
            }
        }
    }

    /** Whether a rise is next to nothing beside the largest, and no more than what readings wander by at rest. */
    private boolean wandered(double[] within, int i, double risePa) {
        double largest = within.length == 1 ? Double.POSITIVE_INFINITY : 0;
        for (double each : within) {
            largest = Math.max(largest, each);
        }
        return Math.max(risePa, within[i]) < Math.min(WANDER_SIGMAS * wanderPa, SCRAP_PART * largest);
    }

    /**
     * What a quarter of the samples within a stroke have risen by since it began: on a port that loses at once what
     * is pumped nothing is left of the rise at its end. A spike is no quarter.
     */
    private double riseWithin(Edges stroke) {
        window.load(stroke.startS, stroke.endS);
        int n = window.n();
        if (n < 3) {
            return 0;
        }
        double[] pa = Arrays.copyOf(window.pa(), n);
        // Where pressure falls fast, what it was just before the push is above what the push began at.
        int first = Math.max(1, n / 10);
        double began = 0;
        for (int i = 0; i < first; i++) {
            began += pa[i] / first;
        }
        Arrays.sort(pa);
        return pa[(3 * n) / 4] - Math.min(began, stroke.startPa);
    }

    /** Parts what lasts and raises as two strokes do and nearly stops between: pushes in so quick a row ran together. */
    private void splitDoubles(List<Edges> strokes) {
        int n = strokes.size();
        if (n < 4) {
            return;
        }
        double[] lengths = new double[n];
        for (int i = 0; i < n; i++) {
            lengths[i] = strokes.get(i).endS - strokes.get(i).startS;
        }
        double length = Medians.ofFirst(lengths, n);
        for (int i = n - 1; i >= 0; i--) {
            Edges each = strokes.get(i);
            boolean twofold =
                    each.endS - each.startS > DOUBLE * length && each.risePa() > DOUBLE * usualRise(strokes, i, i);
            double stop = twofold ? stop(each, length) : Double.NaN;
            if (!Double.isNaN(stop)) {
                double middle = window.mean(stop - 0.1 * length, stop + 0.1 * length);
                strokes.add(i + 1, new Edges(stop, each.endS, middle, each.endPa));
                each.endS = stop;
                each.endPa = middle;
            }
        }
    }

    /** Where within {@code stroke} pressure nearly stops rising, well away from its ends; NaN where nowhere. */
    private double stop(Edges stroke, double length) {
        window.load(stroke.startS, stroke.endS);
        double[] s = window.s();
        double[] pa = window.pa();
        int half = (int) Math.max(2, Math.round(0.1 * length / (stroke.endS - stroke.startS) * window.n()));
        double least = STOP_PART * stroke.risePa() / (stroke.endS - stroke.startS);
        double found = Double.NaN;
        for (int i = half; i + half < window.n(); i++) {
            if (s[i] - stroke.startS > 0.4 * length && stroke.endS - s[i] > 0.4 * length) {
                double slope = slope(s, pa, i - half, i + half);
                if (slope < least) {
                    least = slope;
                    found = s[i];
                }
            }
        }
        return found;
    }

    /** Slope of the straight line through the points {@code from} to {@code to}, which need not be evenly apart. */
    static double slope(double[] s, double[] pa, int from, int to) {
        double middle = 0;
        for (int i = from; i <= to; i++) {
            middle += s[i];
        }
        middle /= to - from + 1;
        double above = 0;
        double below = 0;
        for (int i = from; i <= to; i++) {
            above += (s[i] - middle) * pa[i];
            below += (s[i] - middle) * (s[i] - middle);
        }
        return above / below;
    }

    private void start(Edges stroke, double beforeS) {
        double from = Math.max(beforeS, stroke.startS - MARGIN_S);
        double to = stroke.endS;
        window.load(from, to);
        double limit = stroke.startPa + PART_OF_RISE * stroke.risePa();
        int n = window.n();
        int used = 0;
        while (used < n && (window.s()[used] < stroke.startS || window.pa()[used] < limit)) {
            used++;
        }
        int edge = fit.edge(window.s(), window.pa(), Math.min(n, used + 1), false, variance());
        if (edge >= 0) {
            stroke.startS = window.s()[edge];
        }
    }

    /**
     * On a leaking port pressure does not rise before the hand pushes more than leaks away: looks for the point from which
     * on it falls by less than the leak.
     */
    private void startBeforeRise(Edges stroke, double beforeS) {
        double length = stroke.endS - stroke.startS;
        // What went before may be as long as what is seen of the push, and the course before that has to be seen.
        window.load(Math.max(beforeS, stroke.startS - Math.max(MARGIN_S, 2 * length)), stroke.startS);
        int n = window.n();
        double[] s = window.s();
        double[] pa = window.pa();
        int edge = fit.edge(s, pa, n, false, variance());
        if (edge < 2 || n - 1 - edge < 2 || !fit.rises() || !(fit.gain() > PAST_PEAK_GAIN)) {
            return;
        }
        double fall = -slope(s, pa, 0, edge);
        double then = -slope(s, pa, edge, n - 1);
        boolean leaks = fall * length > LEAKS_PART * stroke.risePa();
        if (leaks
                && then < PUSHED_PART * fall
                && s[edge] - s[0] > LEAST_SEEN * (s[n - 1] - s[0])
                && s[edge] < stroke.startS - PAST_PEAK_PART * length) {
            stroke.startS = s[edge];
        }
    }

    private void end(Edges stroke, double afterS) {
        double from = stroke.startS;
        double to = Math.min(afterS, stroke.endS + MARGIN_S);
        window.load(from, to);
        double limit = stroke.endPa - PART_OF_END * stroke.risePa();
        int n = window.n();
        int first = n - 1;
        while (first > 0 && (window.s()[first] > stroke.endS || window.pa()[first] > limit)) {
            first--;
        }
        if (n - first < 4) {
            return;
        }
        double[] s = Arrays.copyOfRange(window.s(), first, n);
        double[] pa = Arrays.copyOfRange(window.pa(), first, n);
        int edge = fit.edge(s, pa, n - first, true, variance());
        if (edge >= 0) {
            stroke.endS = Math.max(stroke.startS, s[edge]);
        }
    }

    /**
     * On a leaking port pressure falls again before a push is over: past the peak, looks for the point from which on
     * it falls by the leak alone.
     */
    private void endPastPeak(Edges stroke, double afterS) {
        double length = stroke.endS - stroke.startS;
        double to = Math.min(afterS, stroke.endS + Math.max(MARGIN_S, length));
        window.load(stroke.endS - 0.1 * length, to);
        int seen = untilLowest(stroke.endS);
        int edge = fit.edge(window.s(), window.pa(), seen, true, variance());
        double fallsFor = edge < 0 ? 0 : window.s()[seen - 1] - window.s()[edge];
        if (edge >= 0
                && !fit.rises()
                && fit.gain() > PAST_PEAK_GAIN
                && fallsFor > LEAST_SEEN * (window.s()[seen - 1] - window.s()[0])
                && window.s()[edge] > stroke.endS + PAST_PEAK_PART * length) {
            stroke.endS = window.s()[edge];
        }
    }

    /** Points up to the lowest pressure after a push: what comes later may be the next push, which sets in gently. */
    private int untilLowest(double endS) {
        double[] pa = window.pa();
        int last = window.n() - 1;
        double least = Double.POSITIVE_INFINITY;
        int at = last;
        for (int i = 1; i < last; i++) {
            double mean = pa[i - 1] + pa[i] + pa[i + 1];
            if (window.s()[i] >= endS && mean < least) {
                least = mean;
                at = i;
            }
        }
        double end = last < 2 ? least : pa[last - 2] + pa[last - 1] + pa[last];
        return end - least > 3 * TURN_SIGMAS * window.noisePa() ? at + 1 : last + 1;
    }

    private double variance() {
        return window.noisePa() * window.noisePa() / window.averaged();
    }

    /** Pressure at the ends from short means that stay clear of the push. */
    private void level(Edges stroke, double beforeS, double afterS) {
        double before = window.mean(Math.max(beforeS, stroke.startS - 0.1), stroke.startS);
        double after = window.mean(stroke.endS, Math.min(afterS, stroke.endS + 0.1));
        if (!Double.isNaN(before)) {
            stroke.startPa = before;
        }
        if (!Double.isNaN(after)) {
            stroke.endPa = after;
        }
    }

    /** What a stroke at {@code from} to {@code to} should raise: between the strokes before and those after. */
    private static double usualRise(List<Edges> strokes, int from, int to) {
        double before = Double.NaN;
        double after = Double.NaN;
        if (from > 0) {
            before = from > 1
                    ? 0.5
                            * (strokes.get(from - 1).risePa()
                                    + strokes.get(from - 2).risePa())
                    : strokes.get(0).risePa();
        }
        int left = strokes.size() - 1 - to;
        if (left > 0) {
            after = left > 1
                    ? 0.5 * (strokes.get(to + 1).risePa() + strokes.get(to + 2).risePa())
                    : strokes.get(to + 1).risePa();
        }
        if (Double.isNaN(before)) {
            return after;
        }
        return Double.isNaN(after) ? before : 0.5 * (before + after);
    }
}
