package org.holdtrace.fit;

import java.util.Arrays;

/** Residuals of a curve, summed up for {@link GaussNewton}, with derivatives by central differences. */
class SumOfSquares implements GaussNewton.Problem {
    private final NistDataSet set;
    private final NistDataSet.Curve curve;

    SumOfSquares(NistDataSet set, NistDataSet.Curve curve) {
        this.set = set;
        this.curve = curve;
    }

    double residual(int i, double[] b) {
        return curve.at(set.x[i], b) - set.y[i];
    }

    @Override
    public double cost(double[] b) {
        double sum = 0;
        for (int i = 0; i < set.size(); i++) {
            double r = residual(i, b);
            sum += 0.5 * r * r;
        }
        return sum;
    }

    @Override
    public void linearise(double[] b, double[] gradient, double[] curvature) {
        int p = b.length;
        double[] step = new double[p];
        Arrays.setAll(step, j -> Math.cbrt(0x1p-52) * Math.max(Math.abs(b[j]), 1e-8));
        Arrays.fill(gradient, 0);
        Arrays.fill(curvature, 0);
        for (int i = 0; i < set.size(); i++) {
            double x = set.x[i];
            double r = residual(i, b);
            double[] slope = Uncertainty.gradient(at -> curve.at(x, at), b, step);
            for (int j = 0; j < p; j++) {
                gradient[j] += slope[j] * r;
                for (int k = 0; k <= j; k++) {
                    curvature[j * p + k] += slope[j] * slope[k];
                }
            }
        }
    }
}
