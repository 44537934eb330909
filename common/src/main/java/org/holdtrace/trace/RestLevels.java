package org.holdtrace.trace;

/**
 * Zero and noise of the transducer from the rest before a test.
 *
 * @param level zero and noise of one sample
 */
record RestLevels(HoldTest.RestLevel level) {
    /** Nothing is gained from more; a drifting zero counts where it was last. */
    private static final double LONGEST_S = 20;

    private static final int FEWEST = 8;

    double zeroPa() {
        return level.zeroPa();
    }

    double noisePa() {
        return level.noisePa();
    }

    /** What the rest of {@code found} tells, or, where there was none, its hold tells of noise. */
    static RestLevels of(Trace trace, FoundTest found) {
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
            return new RestLevels(new HoldTest.RestLevel(found.zeroPa, Math.max(found.noisePa, 0), false));
        }
        double[] line = Line.robust(window.s(), window.pa(), n);
        double noise = Math.max(line[2], quantumPa(window) / Math.sqrt(12));
        // The line's value at the end: a zero that drifts counts where the strokes begin; a flat one is the mean.
        double drift = line[1] * 0.5 * (window.s()[n - 1] - window.s()[0]);
        boolean drifts = Math.abs(drift) > 4 * noise / Math.sqrt(Math.min(n, 40));
        double zero = rest ? line[0] + (drifts ? drift : 0) : 0;
        boolean known = rest && Math.abs(zero - found.zeroPa) < Math.max(50 * noise, 1e5);
        return new RestLevels(new HoldTest.RestLevel(known || !rest ? zero : found.zeroPa, noise, rest));
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
