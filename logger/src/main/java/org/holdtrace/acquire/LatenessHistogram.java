package org.holdtrace.acquire;

import java.util.Arrays;

/**
 * How late samples came. Counts, in classes no wider than 1/16 of their value: a quantile is exact to 6 %. Recording
 * allocates nothing. One thread at a time.
 */
public final class LatenessHistogram {
    private static final int SUB_BITS = 4;
    private static final int SUB = 1 << SUB_BITS;

    /** Up to 2^36 ns, more than a minute; what is later counts as that. */
    private static final int CLASSES = (36 - SUB_BITS + 1) * SUB;

    private final long[] counts = new long[CLASSES];
    private long samples;
    private long missed;
    private long maxNs;

    /** Takes a sample that came {@code lateNs} after its time; an early one counts as punctual. */
    public void record(long lateNs) {
        long late = Math.max(0, lateNs);
        counts[classOf(late)]++;
        samples++;
        maxNs = Math.max(maxNs, late);
    }

    /** Takes note of {@code number} samples that should have come and did not. */
    public void miss(long number) {
        missed += number;
    }

    /** Samples that came. */
    public long samples() {
        return samples;
    }

    /** Samples that did not. */
    public long missed() {
        return missed;
    }

    /** The latest of all, ns. */
    public long maxNs() {
        return maxNs;
    }

    /** The lateness that {@code share} (0 to 1) of the samples did not exceed, ns; 0 where there are none. */
    public long quantileNs(double share) {
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("a share is a number from 0 to 1, was " + share);
        }
        long wanted = (long) Math.ceil(share * samples);
        long seen = 0;
        for (int i = 0; i < CLASSES; i++) {
            seen += counts[i];
            if (seen >= wanted && seen > 0) {
                return Math.min(maxNs, upperEndNs(i));
            }
        }
        return 0;
    }

    /** Forgets everything. */
    public void clear() {
        Arrays.fill(counts, 0);
        samples = 0;
        missed = 0;
        maxNs = 0;
    }

    private static int classOf(long ns) {
        if (ns < SUB) {
            return (int) ns;
        }
        int shift = 63 - Long.numberOfLeadingZeros(ns) - SUB_BITS;
        int index = ((shift + 1) << SUB_BITS) + (int) (ns >>> shift) - SUB;
        return Math.min(CLASSES - 1, index);
    }

    private static long upperEndNs(int index) {
        if (index < SUB) {
            return index;
        }
        int shift = (index >> SUB_BITS) - 1;
        long lower = (long) (SUB + (index & (SUB - 1))) << shift;
        return lower + (1L << shift) - 1;
    }
}
