package org.holdtrace.fit;

/**
 * The two innermost loops of linear algebra over stretches of arrays. As methods of their own they are compiled once, in
 * no time; inside the loops around them they are compiled with each of these again, which in a run of a third of a second
 * takes longer than the arithmetic.
 */
public final class Vectors {
    private Vectors() {}

    /** y += x·v over {@code n} elements from the given places on. */
    public static void addMultiple(double[] y, int yFrom, double x, double[] v, int vFrom, int n) {
        for (int k = 0; k < n; k++) {
            y[yFrom + k] += x * v[vFrom + k];
        }
    }

    /** Σ v·w over {@code n} elements from the given places on, summed in order. */
    public static double dot(double[] v, int vFrom, double[] w, int wFrom, int n) {
        double sum = 0;
        for (int k = 0; k < n; k++) {
            sum += v[vFrom + k] * w[wFrom + k];
        }
        return sum;
    }
}
