package org.holdtrace.desk.view;

import org.holdtrace.trace.Trace;

/**
 * Where a trace is lowest and highest over blocks of samples, over blocks of blocks, and so on, so that the extremes of
 * any stretch cost the same however long it is. Immutable once built, which reads every sample once: not on the event
 * thread for a long trace. Memory: 8 bytes for each {@value #BASE} samples and a seventh more.
 */
public final class TracePyramid {
    private static final int BASE = 32;
    private static final int FAN = 8;

    private final Trace trace;
    /** For each level, the lowest and the highest sample's index of each block, one after the other. */
    private final int[][] levels;

    /** Reads the whole of {@code trace}. A sample that is no number is never an extreme unless all are. */
    public TracePyramid(Trace trace) {
        this.trace = trace;
        int count = 0;
        for (int blocks = trace.size() / BASE; blocks > 0; blocks /= FAN) {
            count++;
        }
        levels = new int[count][];
        int blocks = trace.size() / BASE;
        for (int level = 0; level < count; level++, blocks /= FAN) {
            levels[level] = new int[2 * blocks];
            for (int block = 0; block < blocks; block++) {
                Extremes found = new Extremes();
                if (level == 0) {
                    samples(found, block * BASE, (block + 1) * BASE);
                } else {
                    blocks(found, level - 1, block * FAN, (block + 1) * FAN);
                }
                levels[level][2 * block] = found.low;
                levels[level][2 * block + 1] = found.high;
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
        for (int i = from; i < to; i++) {
            found.take(trace, i);
        }
    }

    private void blocks(Extremes found, int level, int from, int to) {
        for (int block = from; block < to; block++) {
            found.take(trace, levels[level][2 * block]);
            found.take(trace, levels[level][2 * block + 1]);
        }
    }

    /** Indices of the lowest and highest sample, and how many samples were looked at to find them. */
    static final class Extremes {
        private int low = -1;
        private int high = -1;
        private int looks;

        private void take(Trace trace, int i) {
            looks++;
            double pressurePa = trace.pressurePa(i);
            low = low < 0 || pressurePa < trace.pressurePa(low) || Double.isNaN(trace.pressurePa(low)) ? i : low;
            high = high < 0 || pressurePa > trace.pressurePa(high) || Double.isNaN(trace.pressurePa(high)) ? i : high;
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
