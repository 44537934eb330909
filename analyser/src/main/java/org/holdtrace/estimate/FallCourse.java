package org.holdtrace.estimate;

/**
 * The course of the fall in a hold. Every leak law here passes less as pressure falls, and a line gives way no less for
 * it: pressure falls ever more slowly. Where it falls faster and faster, something else happens: a seat that pressure
 * presses shut leaks more the lower the pressure, or somebody opens a valve.
 */
final class FallCourse {
    /** The fall is timed through so many equal steps of pressure. */
    private static final int STEPS = 4;

    /** A later step so many times as fast as an earlier one is no drift of temperature. */
    private static final double FASTER = 1.25;

    /** A fall of less than this part of the pressure tells no course. */
    private static final double LEAST_FALL = 0.1;

    /** Below this part of the peak the zero of the transducer counts for too much. */
    private static final double LEAST_LEVEL = 0.1;

    /** A step is more than so many standard deviations of a sample. */
    private static final double STEP_SIGMAS = 20;

    private FallCourse() {}

    /** Whether pressure fell faster as it got lower, once the shut-off valve was shut. */
    static boolean steepens(Reduction data, ModelError errors) {
        int n = 0;
        double[] timeS = new double[data.rows];
        double[] bar = new double[data.rows];
        for (int i = 0; i < data.rows; i++) {
            if (data.kind[i] == Reduction.Kind.HOLD && errors.unshut()[i] == 0) {
                timeS[n] = data.timeS[i];
                bar[n++] = data.pressureBar[i];
            }
        }
        if (n < 2 * STEPS) {
            return false;
        }
        double fall = bar[0] - bar[n - 1];
        double least = Math.max(LEAST_FALL * bar[0], STEPS * STEP_SIGMAS * data.sampleNoiseBar);
        if (fall < least || bar[0] < LEAST_LEVEL * data.peakBar) {
            return false;
        }
        double longest = 0;
        double fromS = timeS[0];
        for (int k = 1, at = 1; k <= STEPS; k++) {
            double level = bar[0] - fall * k / STEPS;
            while (at < n - 1 && bar[at] > level) {
                at++;
            }
            double part = (bar[at - 1] - level) / (bar[at - 1] - bar[at]);
            double toS = timeS[at - 1] + Math.max(0, Math.min(1, part)) * (timeS[at] - timeS[at - 1]);
            double tookS = toS - fromS;
            if (tookS > 0 && longest > FASTER * tookS) {
                return true;
            }
            longest = Math.max(longest, tookS);
            fromS = toS;
        }
        return false;
    }
}
