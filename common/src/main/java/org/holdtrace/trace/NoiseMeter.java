package org.holdtrace.trace;

/**
 * Noise of the running means strokes are looked for in, from medians of second differences: strokes and decay hardly
 * move a median, and a second difference knows no slope. Neighbouring blocks tell of white noise, even between the
 * teeth of a saw; running means half a second apart, while nothing happens, of noise that wanders. The larger counts.
 */
final class NoiseMeter {
    private static final int SPAN = 25;
    private static final int CALM = 2 * SPAN;
    private static final int NEAR = RunningMean.BLOCKS;
    private static final int FEWEST = 25;
    private static final int FEWEST_AT_REST = 75;
    private static final double MOST_OF_REST = 1.7;
    private static final int UPDATE_EVERY = 10;
    /** A normal variable's median magnitude is 0.6745 of its standard deviation; a second difference has √6 of it. */
    private static final double SIGMA_PER_MEDIAN = 1 / (0.6745 * Math.sqrt(6));

    /** Standard deviation taken for a converter's step where nothing else is seen: about that of a value rounded to it. */
    private static final double SIGMA_PER_STEP = 0.3;

    /** The same for a step that is known: seven times this, which a stroke must rise by, is a step and a half. */
    private static final double LEAST_PER_STEP = 1.5 / 7;

    private final double leastPa;
    private final double[] ring = new double[2 * SPAN + 1];
    private final Histogram white = new Histogram();
    private final Histogram nearby = new Histogram();
    private final Histogram wandering = new Histogram();
    private final Histogram steps = new Histogram();
    private double lastBlockPa;
    private double beforeLastBlockPa;
    private int blocks;
    private int calmBlocks;
    private int at;
    private double sigma;
    private double most = Double.POSITIVE_INFINITY;
    private int sinceUpdate;

    /** @param stepPa the converter's step, Pa; 0 where it is not known */
    NoiseMeter(double stepPa) {
        leastPa = LEAST_PER_STEP * stepPa;
        sigma = leastPa;
    }

    /** Takes the magnitude of a step between two neighbouring samples, Pa; steps of 0 tell nothing. */
    void addStep(double stepPa) {
        if (stepPa > 0) {
            steps.add(stepPa);
        }
    }

    /**
     * Takes the next block mean and the running mean that ends with it, Pa.
     *
     * @param resting whether no stroke has been yet; what looks like one may be noise not known yet
     * @param calm whether no stroke is on and none is suspected
     */
    void add(double blockPa, double runningPa, boolean resting, boolean calm) {
        if (blocks >= 2) {
            white.add(Math.abs(blockPa - 2 * lastBlockPa + beforeLastBlockPa));
        }
        beforeLastBlockPa = lastBlockPa;
        lastBlockPa = blockPa;
        blocks++;
        calmBlocks = calm ? calmBlocks + 1 : 0;
        ring[at] = runningPa;
        if (blocks > 3 * NEAR && (resting || calmBlocks > CALM)) {
            nearby.add(Math.abs(runningPa - 2 * ring[back(NEAR)] + ring[back(2 * NEAR)]));
        }
        if (calmBlocks > CALM) {
            wandering.add(Math.abs(runningPa - 2 * ring[back(SPAN)] + ring[back(2 * SPAN)]));
        }
        at = (at + 1) % ring.length;
        if (++sinceUpdate >= UPDATE_EVERY || white.total() < 2 * UPDATE_EVERY) {
            sinceUpdate = 0;
            update();
        }
    }

    private void update() {
        double fast = white.quantile(2) * SIGMA_PER_MEDIAN / Math.sqrt(RunningMean.BLOCKS);
        double near = nearby.total() < FEWEST ? 0 : nearby.quantile(2) * SIGMA_PER_MEDIAN;
        double far = wandering.total() < FEWEST ? 0 : wandering.quantile(2) * SIGMA_PER_MEDIAN;
        // Curvature of a steep decay would pass for wandering noise: it may not count for much more than white.
        sigma = Math.max(fast, Math.min(Math.max(near, far), 5 * fast));
        // A converter that stands on one code shows no noise at all: its step is the least that means anything.
        sigma = Math.max(Math.max(Math.min(most, sigma), steps.quantile(4) * SIGMA_PER_STEP), leastPa);
    }

    private int back(int steps) {
        return (at - steps + ring.length) % ring.length;
    }

    /**
     * Holds the level to what rest has shown, where rest was long enough to show it: a transducer's noise does not grow
     * much, while the steep teeth of a worn port look like noise to any difference.
     */
    void restIsOver() {
        if (white.total() >= FEWEST_AT_REST) {
            most = MOST_OF_REST * sigma;
        }
    }

    /** Forgets the sequence, not the level, after a gap. */
    void breakSequence() {
        blocks = 0;
        calmBlocks = 0;
    }

    /** Standard deviation of a running mean, Pa; 0 until known. */
    double sigmaPa() {
        return sigma;
    }

    /** Whether enough was seen to rely on {@link #sigmaPa}. */
    boolean ready() {
        return nearby.total() >= FEWEST;
    }
}
