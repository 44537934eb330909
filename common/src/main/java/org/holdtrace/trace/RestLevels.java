package org.holdtrace.trace;

/**
 * Zero and noise of the transducer from the rest before a test, or from what is read after its let-off where that shows
 * that the line was not at rest.
 *
 * @param level zero and noise of one sample
 * @param stillStepPa the converter's step where readings stand still between two of them, Pa; 0 where noise moves them
 */
record RestLevels(HoldTest.RestLevel level, double stillStepPa) {
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
        return taken ? new RestLevels(new HoldTest.RestLevel(letOff, rest.noisePa(), true), rest.stillStepPa()) : rest;
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
        if (!rest) {
            double end = Double.isNaN(found.bleedFromS) ? found.endS : found.bleedFromS;
            from = 0.5 * (found.lastStrokeEndS() + end);
            to = end;
        }
        SampleWindow window = new SampleWindow(trace, Double.POSITIVE_INFINITY);
        window.loadAll(Math.max(from, to - LONGEST_S), to);
        int n = window.n();
        if (n < FEWEST) {
            double zero = before == null ? 0 : before.zeroPa();
            double noise = before == null ? found.noisePa : before.noisePa();
            return new RestLevels(
                    new HoldTest.RestLevel(zero, noise, before != null && before.level.fromRest()),
                    before == null ? 0 : before.stillStepPa);
        }
        double[] line = Line.robust(window.s(), window.pa(), n);
        double step = quantumPa(window);
        double noise = Math.max(line[2], step / Math.sqrt(12));
        double stillStep = line[2] < STILL * step ? step : 0;
        if (!rest) {
            double zero = before == null ? 0 : before.zeroPa();
            return new RestLevels(
                    new HoldTest.RestLevel(zero, noise, before != null && before.level.fromRest()), stillStep);
        }
        double zero = zeroAtEnd(window, noise, to - from);
        if (before != null && before.level.fromRest()) {
            double left = zero - before.zeroPa();
            double most = Math.max(6 * noise, LEFT_PART * (found.peakPa() - before.zeroPa()));
            if (left > most) {
                return new RestLevels(new HoldTest.RestLevel(before.zeroPa(), noise, true), stillStep);
            }
        }
        return new RestLevels(new HoldTest.RestLevel(zero, noise, true), stillStep);
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

    /** The smallest step between samples that is no rounding of the stamps' writer: the converter's, where it shows. */
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
        return count == 0 ? 0 : steps[count / 4];
    }
}
