package org.holdtrace.chart;

import org.holdtrace.trace.Trace;

/**
 * A trace thinned to what a picture can show: of the samples that fall into one pixel column, the lowest and the
 * highest, in the order they came. A spike of one sample stays visible, and the cost of drawing does not grow with the
 * number of samples.
 */
public final class MinMax {
    private final Trace trace;
    private final int[] shown;
    private int size;

    private MinMax(Trace trace, int capacity) {
        this.trace = trace;
        this.shown = new int[Math.max(0, capacity)];
    }

    /** Thins samples {@code from} (inclusive) to {@code to} (exclusive) to at most {@code 2 · columns} points. */
    public static MinMax of(Trace trace, int from, int to, int columns) {
        if (to - from <= 2 * columns) {
            return all(trace, from, to);
        }
        double startS = trace.timeS(from);
        double widthS = (trace.timeS(to - 1) - startS) / columns;
        return thinned(
                trace,
                (start, end) -> new TracePyramid.Extremes().takeAll(trace, start, end),
                from,
                to,
                startS,
                widthS,
                columns);
    }

    /**
     * Thins what lies from {@code fromS} to {@code toS}, s, and the sample before and after it, so that the line runs on
     * to the edges; columns are shares of that stretch of time. The cost hardly grows with the number of samples.
     */
    public static MinMax of(TracePyramid pyramid, double fromS, double toS, int columns) {
        Trace trace = pyramid.trace();
        int from = Math.max(0, trace.indexAt(fromS) - 1);
        int to = Math.min(trace.size(), trace.indexAt(toS) + 1);
        return to - from <= 2 * columns
                ? all(trace, from, to)
                : thinned(trace, pyramid::extremes, from, to, fromS, (toS - fromS) / columns, columns);
    }

    private static MinMax all(Trace trace, int from, int to) {
        MinMax all = new MinMax(trace, to - from);
        for (int i = from; i < to; i++) {
            all.shown[all.size++] = i;
        }
        return all;
    }

    private interface Finder {
        TracePyramid.Extremes extremes(int from, int to);
    }

    private static MinMax thinned(
            Trace trace, Finder finder, int from, int to, double startS, double widthS, int columns) {
        MinMax thinned = new MinMax(trace, 2 * columns);
        int start = from;
        int before = 0;
        for (int column = 0; column < columns && start < to; column++) {
            double endS = startS + (column + 1) * widthS;
            int end = column == columns - 1 ? to : indexAt(trace, endS, start, to, start + before);
            if (end > start) {
                TracePyramid.Extremes found = finder.extremes(start, end);
                thinned.shown[thinned.size++] = Math.min(found.low(), found.high());
                if (found.low() != found.high()) {
                    thinned.shown[thinned.size++] = Math.max(found.low(), found.high());
                }
                before = end - start;
                start = end;
            }
        }
        return thinned;
    }

    /**
     * The first of samples {@code from} to {@code to} (exclusive) at or after {@code atS}, {@code to} where there is
     * none. Looked for around {@code guess}: as a rule columns have as many samples as the one before, and halving
     * a stretch of millions would wait for memory at every step.
     */
    private static int indexAt(Trace trace, double atS, int from, int to, int guess) {
        int low = from;
        int high = to;
        int at = Math.max(from, Math.min(to - 1, guess));
        int step = 1;
        if (trace.timeS(at) < atS) {
            while (at < to && trace.timeS(at) < atS) {
                low = at + 1;
                at += step;
                step = Math.min(2 * step, to - from);
            }
            high = Math.min(to, at);
        } else {
            while (at >= from && trace.timeS(at) >= atS) {
                high = at;
                at -= step;
                step = Math.min(2 * step, to - from);
            }
            low = Math.max(from, at + 1);
        }
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (trace.timeS(middle) < atS) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** How many points are left. */
    public int size() {
        return size;
    }

    /** Time of a point, s. */
    public double timeS(int i) {
        return trace.timeS(shown[i]);
    }

    /** Pressure of a point as read, Pa; may be no number. */
    public double pressurePa(int i) {
        return trace.pressurePa(shown[i]);
    }
}
