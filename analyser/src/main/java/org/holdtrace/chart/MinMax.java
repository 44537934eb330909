package org.holdtrace.chart;

import org.holdtrace.trace.Trace;

/**
 * A trace thinned to what a picture can show: of the samples that fall into one pixel column, the lowest and the
 * highest, in the order they came. A spike of one sample stays visible, and the cost does not grow with the picture.
 */
public final class MinMax {
    private final double[] timeS;
    private final double[] pressurePa;
    private int size;

    private MinMax(int capacity) {
        timeS = new double[capacity];
        pressurePa = new double[capacity];
    }

    /** Thins samples {@code from} (inclusive) to {@code to} (exclusive) to at most {@code 2 · columns} points. */
    public static MinMax of(Trace trace, int from, int to, int columns) {
        MinMax thinned = new MinMax(Math.min(Math.max(0, to - from), 2 * columns));
        if (to - from <= 2 * columns) {
            for (int i = from; i < to; i++) {
                thinned.add(trace, i);
            }
            return thinned;
        }
        double startS = trace.timeS(from);
        double widthS = (trace.timeS(to - 1) - startS) / columns;
        int i = from;
        for (int column = 0; column < columns && i < to; column++) {
            double endS = startS + (column + 1) * widthS;
            int low = -1;
            int high = -1;
            for (; i < to && (trace.timeS(i) < endS || column == columns - 1); i++) {
                double p = trace.pressurePa(i);
                low = low < 0 || p < trace.pressurePa(low) ? i : low;
                high = high < 0 || p > trace.pressurePa(high) ? i : high;
            }
            if (low >= 0) {
                thinned.add(trace, Math.min(low, high));
                if (low != high) {
                    thinned.add(trace, Math.max(low, high));
                }
            }
        }
        return thinned;
    }

    private void add(Trace trace, int i) {
        timeS[size] = trace.timeS(i);
        pressurePa[size] = trace.pressurePa(i);
        size++;
    }

    /** How many points are left. */
    public int size() {
        return size;
    }

    /** Time of a point, s. */
    public double timeS(int i) {
        return timeS[i];
    }

    /** Pressure of a point as read, Pa. */
    public double pressurePa(int i) {
        return pressurePa[i];
    }
}
