package org.holdtrace.trace;

import java.util.Arrays;

/**
 * Turns samples of any rate into blocks of about the same length: takes out short excursions and, by a running median of
 * five, single wild samples, then averages what falls into a block. What follows sees one rate and less noise, whatever the transducer's.
 *
 * <p>A rate slower than one sample a block passes through sample by sample. Samples whose stamp does not advance, and
 * values that are no number, are left out.
 */
final class BlockFilter {
    /** Short against the fastest push of a hand (some 50 ms), long enough to average at high rates. */
    static final double BLOCK_S = 0.02;

    private static final int MEDIAN = 5;

    /** So many mean distances from the median are no noise; eight are about 6 σ. */
    private static final double SPIKE = 8;

    private static final int LEARNING = 25;

    /** The newest readings and their times, the oldest first; before the first there was nothing but the first. */
    private final double[] rawPa = new double[2 * Excursion.REACH + 1];

    private final double[] rawS = new double[2 * Excursion.REACH + 1];
    private int raw;

    private final double[] ringS = new double[MEDIAN];
    private final double[] ringPa = new double[MEDIAN];
    private double offPa;
    private double leastOffPa;
    private long accepted;
    private double lastS = Double.NEGATIVE_INFINITY;
    private int count;
    private double sumS;
    private double sumPa;
    private double blockFromS;
    private double timeS;
    private double meanPa;
    private double previousS = Double.NEGATIVE_INFINITY;
    private double previousPa = Double.NaN;
    private double stepPa;
    private double gapS;
    private double nextGapS;

    /** Takes a sample (s, Pa); true where it completed a block, then read {@link #timeS} and {@link #meanPa}. */
    boolean accept(double sampleS, double samplePa) {
        if (!(sampleS > lastS) || !Double.isFinite(samplePa) || !Double.isFinite(sampleS)) {
            return false;
        }
        lastS = sampleS;
        int last = rawPa.length - 1;
        System.arraycopy(rawPa, 1, rawPa, 0, last);
        System.arraycopy(rawS, 1, rawS, 0, last);
        rawPa[last] = samplePa;
        rawS[last] = sampleS;
        if (raw == 0) {
            Arrays.fill(rawPa, samplePa);
        }
        if (raw < Excursion.REACH) {
            raw++;
            return false;
        }
        boolean learned = accepted > LEARNING;
        double least = Math.max(SPIKE * offPa, 2 * leastOffPa);
        return acceptQuiet(rawS[Excursion.REACH], learned ? Excursion.without(rawPa, least) : rawPa[Excursion.REACH]);
    }

    /** Takes the next sample, freed of excursions. */
    private boolean acceptQuiet(double sampleS, double samplePa) {
        int at = (int) (accepted % MEDIAN);
        ringS[at] = sampleS;
        ringPa[at] = samplePa;
        accepted++;
        if (accepted < MEDIAN) {
            return false;
        }
        if (accepted == MEDIAN) {
            // The first two samples have no window of their own: the median of the first three stands for both.
            add(ringS[0], Medians.ofThree(ringPa[0], ringPa[1], ringPa[2]));
            add(ringS[1], Medians.ofThree(ringPa[0], ringPa[1], ringPa[2]));
        }
        int centre = (int) ((accepted - 3) % MEDIAN);
        return add(ringS[centre], withoutSpike(ringPa[centre]));
    }

    /** The value itself, or the median of the five around it where it stands far off: medians alone colour the noise. */
    private double withoutSpike(double samplePa) {
        double median = Medians.ofFive(ringPa[0], ringPa[1], ringPa[2], ringPa[3], ringPa[4]);
        double off = Math.abs(samplePa - median);
        boolean spike = off > SPIKE * offPa && accepted > LEARNING;
        // The mean distance of a normal value from its median of five is about 0.7 σ; clipped so that spikes do not
        // count.
        offPa += (Math.min(off, accepted > LEARNING ? 4 * offPa + leastOffPa : off) - offPa)
                * (accepted > LEARNING ? 0.01 : 0.2);
        if (off > 0 && off < 1e9) {
            leastOffPa += (Math.min(off, 2 * leastOffPa + off * 0.01) - leastOffPa) * 0.01;
        }
        return spike || accepted <= LEARNING ? median : samplePa;
    }

    private boolean add(double sampleS, double samplePa) {
        boolean closed = false;
        // The margin keeps rounding of the stamps from pairing samples that are one block apart.
        if (count > 0 && sampleS >= blockFromS + BLOCK_S * 0.999) {
            close();
            closed = true;
        }
        if (count == 0) {
            blockFromS = sampleS;
            nextGapS = sampleS - previousS;
        }
        if (count == 0) {
            stepPa = Math.abs(samplePa - previousPa);
        }
        previousPa = samplePa;
        previousS = sampleS;
        sumS += sampleS - blockFromS;
        sumPa += samplePa;
        count++;
        return closed;
    }

    private void close() {
        timeS = blockFromS + sumS / count;
        meanPa = sumPa / count;
        gapS = nextGapS;
        count = 0;
        sumS = 0;
        sumPa = 0;
    }

    /** Closes the block begun last; true where there was one. */
    boolean flush() {
        if (count == 0) {
            return false;
        }
        close();
        return true;
    }

    /** Mean time of the block's samples, s. */
    double timeS() {
        return timeS;
    }

    /** Mean pressure of the block, Pa. */
    double meanPa() {
        return meanPa;
    }

    /** Magnitude of the step from the block's last sample to the next one, Pa; NaN where there is none. */
    double stepPa() {
        return stepPa;
    }

    /** Time from the sample before the block to its first, s. */
    double gapS() {
        return gapS;
    }

    /** Whether spikes are told from noise by now; before, medians stand for all samples and hide the noise. */
    boolean learned() {
        return accepted > LEARNING + MEDIAN;
    }

    /** Stamp of the newest sample, s. */
    double lastS() {
        return lastS;
    }
}
