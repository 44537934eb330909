package org.holdtrace.benchmark;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.acquire.LatenessHistogram;

/**
 * The deadlines that recorded samples were read at, found again from their times alone: the sampler's period is exact on
 * the clock that also stamps, most samples are punctual, and none is early.
 */
final class TickGrid {
    /** Classes that the most frequent offset of samples from a grid is looked for in. */
    private static final int CLASSES = 128;

    /**
     * Ticks without a sample, that one delay of the sampler can have cost. A reading that was kept long is stamped with its
     * middle, so ticks may be missing before and behind it: with one sample between them they count as one gap.
     *
     * @param fromNs when the first of them was due
     * @param untilNs when a sample came again behind the last of them
     * @param missed how many they are
     */
    record Gap(long fromNs, long untilNs, long missed) {}

    private final LatenessHistogram lateness = new LatenessHistogram();
    private final List<Gap> gaps = new ArrayList<>();
    private long missed;

    /** The grid of samples at {@code timesNs}, in order, {@code periodNs} apart. */
    TickGrid(long[] timesNs, double periodNs) {
        double usual = usualOffset(timesNs, periodNs);
        // Half of the period on either side: what little comes before the usual offset is on its tick all the same.
        double gridNs = usual - 0.1 * periodNs;
        long[] ticks = new long[timesNs.length];
        for (int i = ticks.length - 1; i >= 0; i--) {
            long latest = (long) Math.floor((timesNs[i] - gridNs) / periodNs);
            // Two samples in one period: the first of them was due in the period before, and came late.
            ticks[i] = i + 1 < ticks.length ? Math.min(latest, ticks[i + 1] - 1) : latest;
        }
        for (int i = 0; i < ticks.length; i++) {
            lateness.record(timesNs[i] - Math.round(usual + ticks[i] * periodNs));
            long skipped = i == 0 ? 0 : ticks[i] - ticks[i - 1] - 1;
            if (skipped > 0) {
                long fromNs = Math.round(usual + (ticks[i - 1] + 1) * periodNs);
                boolean oneBetween =
                        !gaps.isEmpty() && gaps.get(gaps.size() - 1).untilNs() == timesNs[i - 1];
                Gap before = oneBetween ? gaps.remove(gaps.size() - 1) : new Gap(fromNs, fromNs, 0);
                gaps.add(new Gap(before.fromNs(), timesNs[i], before.missed() + skipped));
                missed += skipped;
            }
        }
    }

    private static double usualOffset(long[] timesNs, double periodNs) {
        int[] often = new int[CLASSES];
        for (long timeNs : timesNs) {
            double offset = timeNs - Math.floor(timeNs / periodNs) * periodNs;
            often[Math.min(CLASSES - 1, (int) (offset / periodNs * CLASSES))]++;
        }
        int most = 0;
        for (int i = 1; i < CLASSES; i++) {
            most = often[i] > often[most] ? i : most;
        }
        return most * periodNs / CLASSES;
    }

    /** How late samples were read, against the most frequent ones. */
    LatenessHistogram lateness() {
        return lateness;
    }

    /** Where ticks have no sample. */
    List<Gap> gaps() {
        return List.copyOf(gaps);
    }

    /** How many ticks have none. */
    long missed() {
        return missed;
    }
}
