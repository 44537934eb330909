package org.holdtrace.fit;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;

/**
 * Minimum of a function of few variables without derivatives (J. A. Nelder and R. Mead, "A simplex method for function
 * minimization", Computer Journal 7 (1965) 308-313). A value that is not a number counts as infinitely bad.
 */
final class NelderMead {
    private NelderMead() {}

    /**
     * The lowest point found.
     *
     * @param f the function
     * @param start where to begin
     * @param size edge of the first simplex
     * @param tolerance ends once the values at the corners differ by less
     * @param most evaluations at most, about
     * @return the best point found
     */
    static double[] minimise(ToDoubleFunction<double[]> f, double[] start, double size, double tolerance, int most) {
        int n = start.length;
        double[][] corner = new double[n + 1][];
        double[] value = new double[n + 1];
        for (int i = 0; i <= n; i++) {
            corner[i] = start.clone();
            if (i > 0) {
                corner[i][i - 1] += size;
            }
            value[i] = value(f, corner[i]);
        }
        double[] centre = new double[n];
        double[] reflected = new double[n];
        double[] tried = new double[n];
        int evaluations = n + 1;
        while (evaluations < most) {
            sort(corner, value);
            if (value[n] - value[0] <= tolerance) {
                break;
            }
            Arrays.fill(centre, 0);
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    centre[j] += corner[i][j] / n;
                }
            }
            double atReflected = beyond(f, centre, corner[n], 1, reflected);
            evaluations++;
            if (atReflected < value[0]) {
                double further = beyond(f, centre, corner[n], 2, tried);
                evaluations++;
                replace(corner, value, further < atReflected ? tried : reflected, Math.min(further, atReflected));
            } else if (atReflected < value[n - 1]) {
                replace(corner, value, reflected, atReflected);
            } else {
                double nearer = beyond(f, centre, corner[n], atReflected < value[n] ? 0.5 : -0.5, tried);
                evaluations++;
                if (nearer < Math.min(atReflected, value[n])) {
                    replace(corner, value, tried, nearer);
                } else {
                    for (int i = 1; i <= n; i++) {
                        for (int j = 0; j < n; j++) {
                            corner[i][j] = 0.5 * (corner[i][j] + corner[0][j]);
                        }
                        value[i] = value(f, corner[i]);
                    }
                    evaluations += n;
                }
            }
        }
        sort(corner, value);
        return corner[0];
    }

    private static double value(ToDoubleFunction<double[]> f, double[] at) {
        double v = f.applyAsDouble(at);
        return Double.isNaN(v) ? Double.POSITIVE_INFINITY : v;
    }

    private static double beyond(
            ToDoubleFunction<double[]> f, double[] centre, double[] worst, double by, double[] out) {
        for (int j = 0; j < out.length; j++) {
            out[j] = centre[j] + by * (centre[j] - worst[j]);
        }
        return value(f, out);
    }

    private static void replace(double[][] corner, double[] value, double[] by, double its) {
        int last = corner.length - 1;
        System.arraycopy(by, 0, corner[last], 0, by.length);
        value[last] = its;
    }

    /** Insertion sort: all but one corner are in order already. */
    private static void sort(double[][] corner, double[] value) {
        for (int i = 1; i < value.length; i++) {
            double v = value[i];
            double[] c = corner[i];
            int k = i - 1;
            for (; k >= 0 && value[k] > v; k--) {
                value[k + 1] = value[k];
                corner[k + 1] = corner[k];
            }
            value[k + 1] = v;
            corner[k + 1] = c;
        }
    }
}
