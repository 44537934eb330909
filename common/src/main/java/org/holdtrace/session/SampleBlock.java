package org.holdtrace.session;

/**
 * Samples of one channel as they stand in a frame: raw counts, and times as steps from one to the next. Kept in the form
 * they were read in, some four bytes a sample.
 */
public final class SampleBlock {
    private final int channelId;
    private final long firstNs;
    private final long stepNs;
    private final TypedArray steps;
    private final long stepUnitNs;
    private final TypedArray counts;
    private final long lastNs;

    /**
     * @param steps time from each sample to the next in units of {@code stepUnitNs}; null where all are {@code stepNs}
     * @throws IllegalArgumentException where the parts do not fit together
     */
    SampleBlock(int channelId, long firstNs, long stepNs, TypedArray steps, long stepUnitNs, TypedArray counts) {
        this.channelId = channelId;
        this.firstNs = firstNs;
        this.stepNs = stepNs;
        this.steps = steps;
        this.stepUnitNs = stepUnitNs;
        this.counts = counts;
        if (counts == null || counts.size() == 0 || counts.width() > 4) {
            throw new IllegalArgumentException("a block without counts of at most 32 bits");
        }
        if (stepNs < 0 || stepUnitNs < 1 || (steps != null && steps.size() != counts.size() - 1)) {
            throw new IllegalArgumentException("times that do not fit " + counts.size() + " counts");
        }
        lastNs = steps == null
                ? Math.addExact(firstNs, Math.multiplyExact(stepNs, (long) counts.size() - 1))
                : lastOfSteps();
    }

    /** Sums up with a check, so that a nonsense block is refused here and not met later as time that runs back. */
    private long lastOfSteps() {
        long sum = 0;
        for (long step : steps.numbers()) {
            if (step < 0) {
                throw new IllegalArgumentException("time that goes back");
            }
            sum = Math.addExact(sum, step);
        }
        return Math.addExact(firstNs, Math.multiplyExact(sum, stepUnitNs));
    }

    /** The channel's number. */
    public int channelId() {
        return channelId;
    }

    /** How many samples. */
    public int size() {
        return counts.size();
    }

    /** Time of the first sample, ns. */
    public long firstNs() {
        return firstNs;
    }

    /** Time of the last sample, ns. */
    public long lastNs() {
        return lastNs;
    }

    /** Raw counts. */
    public long[] counts() {
        return counts.numbers();
    }

    /** Times, ns since the session began. */
    public long[] timesNs() {
        if (steps == null) {
            long[] times = new long[size()];
            for (int i = 0; i < times.length; i++) {
                times[i] = firstNs + i * stepNs;
            }
            return times;
        }
        long[] step = steps.numbers();
        long[] times = new long[size()];
        times[0] = firstNs;
        for (int i = 1; i < times.length; i++) {
            times[i] = times[i - 1] + step[i - 1] * stepUnitNs;
        }
        return times;
    }
}
