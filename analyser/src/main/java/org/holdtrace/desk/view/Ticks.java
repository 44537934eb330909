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

    /** The largest round step of at most {@code most} (above 0). */
    static double below(double most) {
        double decade = Math.pow(10, Math.floor(Math.log10(most)));
        double largest = decade;
        for (double factor : new double[] {2, 5}) {
            largest = factor * decade <= most * (1 + 1e-9) ? factor * decade : largest;
        }
        return largest;
    }

    /** Decimals that {@code step} needs. */
    static int decimals(double step) {
        return Math.max(0, (int) -Math.floor(Math.log10(step) + 1e-9));
    }
}
