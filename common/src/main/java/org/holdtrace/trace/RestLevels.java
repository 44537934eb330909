package org.holdtrace.trace;

/**
 * Zero and noise of the transducer from the rest before a test, or from what is read after its let-off where that shows
 * that the line was not at rest.
 *
 * @param level zero and noise of one sample
 * @param stillStepPa the converter's step where readings stand still between two of them, Pa; 0 where noise moves them
 * @param wanderPa by how much readings wander in the time of a push, standard deviation, Pa; 0 where that was not seen
 */
record RestLevels(HoldTest.RestLevel level, double stillStepPa, double wanderPa) {
    /** Readings that step less often than this stand still. */
    private static final double STEPPING = 0.02;

    /** With less noise than this part of a step readings stand still. */
    private static final double STILL = 0.5;

    /** Nothing is gained from more; a drifting zero counts where it was last. */
    private static final double LONGEST_S = 20;

    private static final double SHORTEST_S = 3;
    private static final int FEWEST = 8;
    /** More than this of the pressure reached is no drift of the zero but pressure not let off. */
    private static final double LEFT_PART = 0.004;

    /** Further below the rest before, as a part of the pressure reached, no zero lies: a pulled plug reads so. */
    private static final double FURTHEST_PART = 0.1;

    /** Where there was no rest before, a level after the let-off further from nothing than this part is pressure. */
    private static final double NOTHING_PART = 0.01;

    /** A level that stood for less than this after the let-off tells nothing, s. */
    private static final double SHORTEST_LET_OFF_S = 0.5;

    /** Wandering is looked for between means of this length, s … */
    private static final double WANDER_MEAN_S = 0.1;

    /** … so many of them apart: a push lasts about as long. */
    private static final int WANDER_APART = 5;

    private static final int FEWEST_WANDERED = 12;

    double zeroPa() {
        return level.zeroPa();
    }

    double noisePa() {
        return level.noisePa();
    }

    /**
     * What the rest of {@code found} tells, or, where there was none, its hold tells of noise.
     *
     * @param before what the rest before the test before told; null for the first test
     * @param untilS end of what follows the let-off, s: the next test's strokes or the end of the trace
     */
    static RestLevels of(Trace trace, FoundTest found, RestLevels before, double untilS) {
        RestLevels rest = before(trace, found, before);
        double letOff = letOffPa(trace, found, untilS, rest.noisePa());
        double peak = found.strokes() > 0 ? found.peakPa() : trace.pressurePa(trace.indexAt(found.pumpedUpS));
        double reached = peak - rest.zeroPa();
        double below = rest.zeroPa() - letOff;
        boolean taken = rest.level.fromRest()
                ? below > Math.max(6 * rest.noisePa(), LEFT_PART * reached) && below < FURTHEST_PART * reached
                : Math.abs(letOff) < NOTHING_PART * reached;
        return taken
                ? new RestLevels(
                        new HoldTest.RestLevel(letOff, rest.noisePa(), true), rest.stillStepPa(), rest.wanderPa())
                : rest;
    }

    /** What is read once the pressure has been let off, Pa; NaN where it was not, or not for long enough. */
    private static double letOffPa(Trace trace, FoundTest found, double untilS, double noisePa) {
        double from = Math.max(found.bleedToS, untilS - LONGEST_S);
        if (!(untilS - from >= SHORTEST_LET_OFF_S)) {
            return Double.NaN;
        }
        SampleWindow window = new SampleWindow(trace, Double.POSITIVE_INFINITY);
        window.loadAll(from, untilS);
        return window.n() < FEWEST ? Double.NaN : zeroAtEnd(window, noisePa, untilS - from);
    }

    private static RestLevels before(Trace trace, FoundTest found, RestLevels before) {
        double from = found.restFromS;
        double to = found.restToS;
        boolean rest = to > from;
        double end = Double.isNaN(found.bleedFromS) ? found.endS : found.bleedFromS;
        double middle = 0.5 * (found.lastStrokeEndS() + end);
        SampleWindow held = new SampleWindow(trace, Double.POSITIVE_INFINITY);
        held.loadAll(Math.max(middle, end - LONGEST_S), end);
        SampleWindow window = held;
        if (rest) {
            window = new SampleWindow(trace, Double.POSITIVE_INFINITY);
            window.loadAll(Math.max(from, to - LONGEST_S), to);
        }
        int n = window.n();
        if (n < FEWEST) {
            double zero = before == null ? 0 : before.zeroPa();
            double noise = before == null ? found.noisePa : before.noisePa();
            return new RestLevels(
                    new HoldTest.RestLevel(zero, noise, before != null && before.level.fromRest()),
                    before == null ? 0 : before.stillStepPa,
                    before == null ? 0 : before.wanderPa);
        }
        double[] line = Line.robust(window.s(), window.pa(), n);
        double step = quantumPa(window);
        // Where readings stand still at rest, the hold has steps.
        step = step > 0 ? step : quantumPa(held);
        double noise = Math.max(line[2], step / Math.sqrt(12));
        double stillStep = line[2] < STILL * step ? step : 0;
        double wander = wanderPa(window);
        wander = wander > 0 ? wander : wanderPa(held);
        if (!rest) {
            double zero = before == null ? 0 : before.zeroPa();
            return new RestLevels(
                    new HoldTest.RestLevel(zero, noise, before != null && before.level.fromRest()), stillStep, wander);
        }
        double zero = zeroAtEnd(window, noise, to - from);
        if (before != null && before.level.fromRest()) {
            double left = zero - before.zeroPa();
            double most = Math.max(6 * noise, LEFT_PART * (found.peakPa() - before.zeroPa()));
            if (left > most) {
                return new RestLevels(new HoldTest.RestLevel(before.zeroPa(), noise, true), stillStep, wander);
            }
        }
        return new RestLevels(new HoldTest.RestLevel(zero, noise, true), stillStep, wander);
    }

    /** From the median of second differences between short means: neither a drift nor a wild sample moves it. */
    private static double wanderPa(SampleWindow window) {
        double[] s = window.s();
        double[] pa = window.pa();
        double[] mean = new double[window.n()];
        int means = 0;
        for (int from = 0, to = 0; from < window.n(); from = to) {
            double sum = 0;
            while (to < window.n() && s[to] < s[from] + WANDER_MEAN_S) {
                sum += pa[to++];
            }
            mean[means++] = sum / (to - from);
        }
        int n = means - 2 * WANDER_APART;
        if (n < FEWEST_WANDERED) {
            return 0;
        }
        double[] second = new double[n];
        for (int i = 0; i < n; i++) {
            second[i] = Math.abs(mean[i] - 2 * mean[i + WANDER_APART] + mean[i + 2 * WANDER_APART]);
        }
        return Medians.ofFirst(second, n) / (0.6745 * Math.sqrt(6));
    }

    /**
     * Zero where the strokes begin: the mean where there is no drift, otherwise where a line through the last part ends.
     * What still falls after a let-off falls ever slower: the shorter the part, the less a line misses its course.
     */
    private static double zeroAtEnd(SampleWindow window, double noisePa, double restS) {
        double zero = Double.NaN;
        double to = window.s()[window.n() - 1];
        for (double length = Math.min(LONGEST_S, restS); ; length /= 3) {
            window.loadAll(to - length, to);
            int n = window.n();
            if (n < FEWEST) {
                return zero;
            }
            double[] line = Line.robust(window.s(), window.pa(), n);
            double drift = line[1] * 0.5 * (window.s()[n - 1] - window.s()[0]);
            if (Math.abs(drift) <= 4 * noisePa / Math.sqrt(Math.min(n, 40))) {
                return line[0];
            }
            zero = line[0] + drift;
            if (length < SHORTEST_S) {
                return zero;
            }
        }
    }

    /**
     * The smallest step between samples that is no rounding of the stamps' writer: the converter's, where it shows; 0 where
     * readings hardly ever step, since what wild samples there are would pass for it.
     */
    private static double quantumPa(SampleWindow window) {
        double[] steps = new double[window.n()];
        int count = 0;
        for (int i = 1; i < window.n(); i++) {
            double step = Math.abs(window.pa()[i] - window.pa()[i - 1]);
            if (step > 0) {
                steps[count++] = step;
            }
        }
        java.util.Arrays.sort(steps, 0, count);
        return count == 0 || count < STEPPING * window.n() ? 0 : steps[count / 4];
    }
}
