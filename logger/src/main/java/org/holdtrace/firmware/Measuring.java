package org.holdtrace.firmware;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdtrace.acquire.SampleRing;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;

/** Takes samples off the ring, channel by channel, and knows the calibrations they are read through. One thread. */
final class Measuring {
    /** Takes samples of a channel. */
    @FunctionalInterface
    interface Sink {
        void samples(int channel, long[] timeNs, int[] counts, int size);
    }

    /** Stamps are whole microseconds: they take a third less room so in files and on the link, and are not known better. */
    private static final long STAMP_NS = 1000;

    /** So many samples are taken at once, at most. */
    private static final int AT_ONCE = 4096;

    private final SampleRing ring;
    private final long startNs;
    private final List<Channel> channels;
    private final long[][] timeNs;
    private final int[][] counts;
    private final int[] sizes;
    private final double[] lately;
    private final double[] second;
    private final long[] latestNs;

    /**
     * @param startNs the sampler's time that is 0 on the logger's clock
     * @param channels channel {@code i} has the id {@code i} and the number {@code i} in the ring
     */
    Measuring(SampleRing ring, long startNs, List<Channel> channels) {
        this.ring = ring;
        this.startNs = startNs;
        this.channels = new ArrayList<>(channels);
        int n = channels.size();
        timeNs = new long[n][AT_ONCE];
        counts = new int[n][AT_ONCE];
        sizes = new int[n];
        lately = new double[n];
        second = new double[n];
        latestNs = new long[n];
        Arrays.fill(lately, Double.NaN);
        Arrays.fill(second, Double.NaN);
        Arrays.fill(latestNs, Long.MIN_VALUE);
    }

    /** The channels as they are calibrated now. */
    List<Channel> channels() {
        return List.copyOf(channels);
    }

    /** From now on they are read through these. */
    void calibrate(List<Channel> calibrated) {
        for (int i = 0; i < channels.size(); i++) {
            channels.set(i, calibrated.get(i));
        }
    }

    Calibration calibration(int channel) {
        return channels.get(channel).calibration();
    }

    /**
     * Hands on what there is, at most some thousand samples.
     *
     * @return how many there were
     */
    int drain(Sink sink) {
        Arrays.fill(sizes, 0);
        int n = ring.drain(this::take, AT_ONCE);
        for (int channel = 0; channel < sizes.length; channel++) {
            if (sizes[channel] > 0) {
                note(channel);
                sink.samples(channel, timeNs[channel], counts[channel], sizes[channel]);
            }
        }
        return n;
    }

    private void take(int channel, long atNs, int count) {
        int i = sizes[channel]++;
        timeNs[channel][i] = Math.floorDiv(atNs - startNs, STAMP_NS) * STAMP_NS;
        counts[channel][i] = count;
    }

    private void note(int channel) {
        double sum = 0;
        for (int i = 0; i < sizes[channel]; i++) {
            sum += counts[channel][i];
        }
        double mean = sum / sizes[channel];
        lately[channel] = mean;
        double share = Math.min(1, sizes[channel] / channels.get(channel).nominalRateHz());
        second[channel] = Double.isNaN(second[channel]) ? mean : second[channel] + share * (mean - second[channel]);
        latestNs[channel] = timeNs[channel][sizes[channel] - 1];
    }

    /** Mean of the latest samples, Pa or K; NaN where the last came longer than a second, or five intervals, ago. */
    double value(int channel, long nowNs) {
        Channel of = channels.get(channel);
        double oldNs = Math.max(1e9, 5e9 / of.nominalRateHz());
        if (latestNs[channel] == Long.MIN_VALUE || nowNs - latestNs[channel] > oldNs) {
            return Double.NaN;
        }
        return of.calibration().atZeroCount()
                + lately[channel] * of.calibration().perCount();
    }

    /** Mean count over the last second or so; NaN where there was none. */
    double secondsMeanCount(int channel) {
        return second[channel];
    }

    /** Mean over the last second or so, Pa or K; NaN where there was none. */
    double secondsMean(int channel) {
        Calibration calibration = calibration(channel);
        return calibration.atZeroCount() + second[channel] * calibration.perCount();
    }
}
