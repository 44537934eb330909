package org.holdtrace.trace;

/** Medians of a few values without sorting an array. */
final class Medians {
    private Medians() {}

    static double ofThree(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }

    static double ofFive(double a, double b, double c, double d, double e) {
        // The smallest and the largest of four values cannot be the median of five; what is left decides with e.
        double low = Math.max(Math.min(a, b), Math.min(c, d));
        double high = Math.min(Math.max(a, b), Math.max(c, d));
        return ofThree(low, high, e);
    }

    /** The median of the first {@code n} values of {@code values}, which it sorts. */
    static double ofFirst(double[] values, int n) {
        java.util.Arrays.sort(values, 0, n);
        return n == 0 ? Double.NaN : 0.5 * (values[(n - 1) / 2] + values[n / 2]);
    }
}
