package org.holdtrace.trace;

import java.util.Arrays;

/** A straight line through values some of which are wild. */
final class Line {
    private Line() {}

    /** Mean at the middle of the times, slope, and standard deviation of one value about the line. */
    static double[] robust(double[] s, double[] pa, int n) {
        double[] residual = new double[n];
        double middle = 0;
        for (int i = 0; i < n; i++) {
            middle += s[i] / n;
        }
        double level = Medians.ofFirst(Arrays.copyOf(pa, n), n);
        double slope = 0;
        double sigma = Double.POSITIVE_INFINITY;
        for (int round = 0; round < 4; round++) {
            double limit = 4 * sigma;
            double sum = 0;
            double sumS = 0;
            double sumSs = 0;
            double sumP = 0;
            double sumSp = 0;
            for (int i = 0; i < n; i++) {
                double x = s[i] - middle;
                if (Math.abs(pa[i] - level - slope * x) <= limit) {
                    sum++;
                    sumS += x;
                    sumSs += x * x;
                    sumP += pa[i];
                    sumSp += x * pa[i];
                }
            }
            double determinant = sum * sumSs - sumS * sumS;
            if (sum >= 3 && determinant > 0) {
                // The first round starts from a median: a slope is fitted only once wild values are out.
                slope = round == 0 ? 0 : (sum * sumSp - sumS * sumP) / determinant;
                level = round == 0 ? level : (sumP - slope * sumS) / sum;
            }
            for (int i = 0; i < n; i++) {
                residual[i] = Math.abs(pa[i] - level - slope * (s[i] - middle));
            }
            double mad = Medians.ofFirst(residual, n) / 0.6745;
            // Values of a coarse converter may mostly be one: then the middle of what is left beyond tells the spread.
            sigma = mad > 0 ? mad : residual[Math.min(n - 1, (int) (0.97 * n))] / 2;
        }
        return new double[] {level, slope, sigma};
    }
}
