package org.holdtrace.desk.view;

/** Round distances between the marks of an axis: 1, 2 and 5 times powers of ten. */
final class Ticks {
    private Ticks() {}

    /** The smallest round step that makes at most {@code most} (at least 1) spaces of {@code span} (above 0). */
    static double step(double span, double most) {
        double least = span / Math.max(1, most);
        double decade = Math.pow(10, Math.floor(Math.log10(least)));
        for (double factor : new double[] {1, 2, 5}) {
            if (factor * decade >= least * (1 - 1e-9)) {
                return factor * decade;
            }
        }
        return 10 * decade;
    }

    /** Decimals that {@code step} needs. */
    static int decimals(double step) {
        return Math.max(0, (int) -Math.floor(Math.log10(step) + 1e-9));
    }
}
