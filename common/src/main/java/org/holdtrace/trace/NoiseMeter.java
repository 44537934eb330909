package org.holdtrace.trace;

/**
 * Running noise level of a sequence of block means, from the median of its second differences: strokes and decay
 * hardly move a median, and a second difference knows no slope. Differences over one block catch white noise, those
 * over half a second noise that wanders; the larger counts.
 */
final class NoiseMeter {
    /** Values that share no block: neighbours of a running mean do, and their difference hides the noise. */
    private static final int SHORT = RunningMean.BLOCKS;

    private static final int SPAN = 25;
    private static final int BINS_PER_OCTAVE = 4;
    private static final int BINS = 512;
    private static final int FORGET_AT = 1500;
    /** A normal variable's median magnitude is 0.6745 of its standard deviation; a second difference has √6 of it. */
    private static final double SIGMA_PER_MEDIAN = 1 / (0.6745 * Math.sqrt(6));

    /** Standard deviation taken for a converter's step where nothing else is seen: about that of a value rounded to it. */
    private static final double SIGMA_PER_STEP = 0.3;

    private final double[] ring = new double[2 * SPAN + 1];
    private int filled;
    private int calmBlocks;
    private int at;
    private final Histogram fast = new Histogram();
    private final Histogram slow = new Histogram();
    private final Histogram steps = new Histogram();
    private double sigma;
    private int sinceUpdate;

    /** Takes the magnitude of a step between two neighbouring samples, Pa; steps of 0 tell nothing. */
    void addStep(double stepPa) {
        if (stepPa > 0) {
            steps.add(stepPa);
        }
    }

    /** Takes the next block mean, Pa. {@code calm}: whether no stroke is on and none is suspected. */
    void add(double meanPa, boolean calm) {
        calmBlocks = calm ? calmBlocks + 1 : 0;
        ring[at] = meanPa;
        if (filled >= 2 * SHORT) {
            fast.add(Math.abs(meanPa - 2 * ring[back(SHORT)] + ring[back(2 * SHORT)]));
        }
        if (calmBlocks > 2 * SPAN && filled >= 2 * SPAN) {
            slow.add(Math.abs(meanPa - 2 * ring[back(SPAN)] + ring[back(2 * SPAN)]));
        }
        at = (at + 1) % ring.length;
        filled = Math.min(filled + 1, ring.length);
        if (++sinceUpdate >= 8 || fast.total < 20) {
            sinceUpdate = 0;
            double white = fast.median() * SIGMA_PER_MEDIAN;
            double wandering = slow.total < 25 ? 0 : slow.median() * SIGMA_PER_MEDIAN;
            // Curvature of a steep decay would pass for wandering noise: it may not count for much more than white.
            sigma = Math.max(white, Math.min(wandering, 4 * white));
            // A converter that stands on one code shows no noise at all: its step is the least that means anything.
            sigma = Math.max(sigma, steps.quantile(4) * SIGMA_PER_STEP);
        }
    }

    private int back(int steps) {
        return (at - steps + ring.length) % ring.length;
    }

    /** Forgets the sequence, not the level, after a gap. */
    void breakSequence() {
        filled = 0;
    }

    /** Standard deviation of one block mean, Pa; 0 until known. */
    double sigmaPa() {
        return sigma;
    }

    /** Whether enough was seen to rely on {@link #sigmaPa}. */
    boolean ready() {
        return fast.total >= 10;
    }

    /** Counts by quarter octaves; old counts fade. */
    private static final class Histogram {
        private final int[] counts = new int[BINS];
        private int zeros;
        private int total;

        void add(double value) {
            if (value > 0) {
                int bin = (int) Math.floor(Math.log(value) * (BINS_PER_OCTAVE / Math.log(2))) + BINS / 2;
                counts[Math.max(0, Math.min(BINS - 1, bin))]++;
            } else {
                zeros++;
            }
            if (++total > FORGET_AT) {
                total = zeros /= 2;
                for (int i = 0; i < BINS; i++) {
                    total += counts[i] /= 2;
                }
            }
        }

        double median() {
            return quantile(2);
        }

        /**
         * The value below which one part in {@code parts} lies. Counts of a value are taken as spread half way to its
         * neighbours: differences of a coarse converter take few values, and a plain median would jump between them.
         */
        double quantile(int parts) {
            double wanted = (double) total / parts;
            double seen = 0;
            double below = -1;
            double value = 0;
            int count = zeros;
            for (int i = 0; i <= BINS; i++) {
                int next = i < BINS ? counts[i] : 0;
                if (next == 0 && i < BINS) {
                    continue;
                }
                double nextValue = i < BINS ? Math.pow(2, (i - BINS / 2 + 0.5) / BINS_PER_OCTAVE) : value;
                if (count > 0) {
                    if (seen + count >= wanted) {
                        double low = below < 0 ? value : 0.5 * (below + value);
                        double high = 0.5 * (value + nextValue);
                        return low + (high - low) * Math.max(0, wanted - seen) / count;
                    }
                    seen += count;
                    below = value;
                }
                value = nextValue;
                count = next;
            }
            return value;
        }
    }
}
