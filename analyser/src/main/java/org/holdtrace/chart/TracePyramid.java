package org.holdtrace.chart;

import org.holdtrace.trace.Trace;

/**
 * Where a trace is lowest and highest over blocks of samples, over blocks of blocks, and so on, so that the extremes of
 * any stretch cost the same however long it is. Immutable once built, which reads every sample once: not on the event
 * thread for a long trace. Memory: 24 bytes for each {@value #BASE} samples and a seventh more.
 */
public final class TracePyramid {
    private static final int BASE = 32;
    private static final int FAN = 8;

    private final Trace trace;
    /** For each level, the lowest and the highest sample's index of each block, one after the other. */
    private final int[][] levels;
    /** What those samples are, Pa: to look them up in the trace would be a wait for memory each. */
    private final double[][] pressuresPa;

    /** Reads the whole of {@code trace}. A sample that is no number is never an extreme unless all are. */
    public TracePyramid(Trace trace) {
        this.trace = trace;
        int count = 0;
        for (int blocks = trace.size() / BASE; blocks > 0; blocks /= FAN) {
            count++;
        }
        levels = new int[count][];
        pressuresPa = new double[count][];
        int blocks = trace.size() / BASE;
        for (int level = 0; level < count; level++, blocks /= FAN) {
            levels[level] = new int[2 * blocks];
            pressuresPa[level] = new double[2 * blocks];
            for (int block = 0; block < blocks; block++) {
                Extremes found = new Extremes();
                if (level == 0) {
                    samples(found, block * BASE, (block + 1) * BASE);
                } else {
                    blocks(found, level - 1, block * FAN, (block + 1) * FAN);
                }
                levels[level][2 * block] = found.low;
                levels[level][2 * block + 1] = found.high;
                pressuresPa[level][2 * block] = found.lowPa;
                pressuresPa[level][2 * block + 1] = found.highPa;
            }
        }
    }

    /** The trace it was made of. */
    public Trace trace() {
        return trace;
    }

    /** The lowest and highest of samples {@code from} (inclusive) to {@code to} (exclusive, above {@code from}). */
    Extremes extremes(int from, int to) {
        Extremes found = new Extremes();
        int first = (from + BASE - 1) / BASE;
        int last = to / BASE;
        if (levels.length == 0 || first >= last) {
            samples(found, from, to);
            return found;
        }
        samples(found, from, first * BASE);
        samples(found, last * BASE, to);
        int level = 0;
        while (level + 1 < levels.length) {
            int nextFirst = (first + FAN - 1) / FAN;
            int nextLast = last / FAN;
            if (nextFirst >= nextLast) {
                break;
            }
            blocks(found, level, first, nextFirst * FAN);
            blocks(found, level, nextLast * FAN, last);
            first = nextFirst;
            last = nextLast;
            level++;
        }
        blocks(found, level, first, last);
        return found;
    }

    private void samples(Extremes found, int from, int to) {
        found.takeAll(trace, from, to);
    }

    private void blocks(Extremes found, int level, int from, int to) {
        for (int block = from; block < to; block++) {
            found.take(levels[level][2 * block], pressuresPa[level][2 * block]);
            found.take(levels[level][2 * block + 1], pressuresPa[level][2 * block + 1]);
        }
    }

    /** Indices of the lowest and highest sample, and how many samples were looked at to find them. */
    static final class Extremes {
        private int low = -1;
        private double lowPa = Double.NaN;
        private int high = -1;
        private double highPa = Double.NaN;
        private int looks;

        /** Looks at every one of samples {@code from} (inclusive) to {@code to} (exclusive). */
        Extremes takeAll(Trace trace, int from, int to) {
            for (int i = from; i < to; i++) {
                take(i, trace.pressurePa(i));
            }
            return this;
        }

        private void take(int i, double pressurePa) {
            looks++;
            if (low < 0 || pressurePa < lowPa || Double.isNaN(lowPa)) {
                low = i;
                lowPa = pressurePa;
            }
            if (high < 0 || pressurePa > highPa || Double.isNaN(highPa)) {
                high = i;
                highPa = pressurePa;
            }
        }

        int low() {
            return low;
        }

        int high() {
            return high;
        }

        int looks() {
            return looks;
        }
    }
}
