package org.holdtrace.fit;

import java.util.Arrays;
import org.holdtrace.quantity.Require;

/**
 * A value with its combined standard uncertainty by the law of propagation of uncertainty (JCGM 100:2008, the GUM,
 * clauses 5.1 and 5.2), and what each input contributes. Immutable.
 */
public final class Uncertainty {
    /** Step for first derivatives, in standard uncertainties: far below where the function curves. */
    private static final double FIRST_STEP = 1e-3;
    /** Step for second and third derivatives; smaller ones drown in rounding. */
    private static final double HIGHER_STEP = 0.1;

    private final double value;
    private final double standardUncertainty;
    private final double[] contributions;

    private Uncertainty(double value, double standardUncertainty, double[] contributions) {
        this.value = value;
        this.standardUncertainty = standardUncertainty;
        this.contributions = contributions;
    }

    /**
     * From independent inputs, with sensitivities by central differences.
     *
     * @param f the measurement function
     * @param inputs estimates of its inputs
     * @param standardUncertainties theirs, at least 0
     */
    public static Uncertainty propagate(Measurand f, double[] inputs, double[] standardUncertainties) {
        double[] c = contributions(f, inputs, standardUncertainties);
        return ofContributions(f.value(inputs.clone()), c);
    }

    /**
     * From correlated inputs (GUM 5.2.2).
     *
     * @param correlation correlation coefficients, row by row, symmetric with ones on the diagonal
     */
    public static Uncertainty propagate(
            Measurand f, double[] inputs, double[] standardUncertainties, double[] correlation) {
        int n = inputs.length;
        Arguments.sameLength(n * n, correlation.length, "correlation matrix");
        double[] c = contributions(f, inputs, standardUncertainties);
        double variance = 0;
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double r = correlation[i * n + j];
                if (!(Math.abs(r) <= 1 + 1e-12)) { // computed coefficients exceed 1 by rounding
                    throw new IllegalArgumentException(
                            "correlation of inputs " + i + " and " + j + " must lie between -1 and 1, was " + r);
                }
                variance += c[i] * c[j] * r;
            }
        }
        // Full correlation can cancel to a rounding below zero.
        return new Uncertainty(f.value(inputs.clone()), Math.sqrt(Math.max(0, variance)), c);
    }

    /** From independent contributions cᵢ·u(xᵢ) that are known already; signs do not matter. */
    public static Uncertainty ofContributions(double value, double... contributions) {
        double sum = 0;
        for (double c : contributions) {
            sum += Require.finite(c, "contribution", "") * c;
        }
        return new Uncertainty(Require.finite(value, "value", ""), Math.sqrt(sum), contributions.clone());
    }

    /** The value. */
    public double value() {
        return value;
    }

    /** Its combined standard uncertainty. */
    public double standardUncertainty() {
        return standardUncertainty;
    }

    /** cᵢ·u(xᵢ) of input {@code i}, with the sign of its sensitivity. */
    public double contribution(int i) {
        return contributions[i];
    }

    /**
     * Effective degrees of freedom by the Welch–Satterthwaite formula (GUM G.4.1), ν = u⁴/Σ(uᵢ⁴/νᵢ); it holds for
     * independent inputs only.
     *
     * @param degreesOfFreedom of each input, above 0, infinity where its uncertainty is known exactly
     */
    public double effectiveDegreesOfFreedom(double... degreesOfFreedom) {
        Arguments.sameLength(contributions.length, degreesOfFreedom.length, "degrees of freedom");
        double sum = 0;
        for (int i = 0; i < contributions.length; i++) {
            Arguments.degreesOfFreedom(degreesOfFreedom[i], "degrees of freedom of input " + i);
            double square = contributions[i] * contributions[i];
            sum += square * square / degreesOfFreedom[i];
        }
        double square = standardUncertainty * standardUncertainty;
        return sum == 0 ? Double.POSITIVE_INFINITY : square * square / sum;
    }

    /**
     * Expanded uncertainty U = k·u with k from Student's t at the effective degrees of freedom, truncated to the next
     * lower integer (GUM G.4.2), not below 1.
     */
    public double expanded(double coverage, double effectiveDegreesOfFreedom) {
        double nu = Math.max(1, Math.floor(effectiveDegreesOfFreedom));
        return StudentT.coverageFactor(coverage, nu) * standardUncertainty;
    }

    /**
     * Combined standard uncertainty of independent inputs with the terms of next higher order, Σᵢ Σⱼ (½ fᵢⱼ² + fᵢ
     * fᵢⱼⱼ) u²(xᵢ) u²(xⱼ) (GUM 5.1.2, note). Far from the first-order one, the measurement function is not linear
     * enough and {@link MonteCarlo} is called for.
     */
    public static double secondOrder(Measurand f, double[] inputs, double[] standardUncertainties) {
        int n = inputs.length;
        double[] u = standardUncertainties;
        double[] c = contributions(f, inputs, u);
        double[] at = inputs.clone();
        double middle = f.value(at);
        double variance = 0;
        double s = HIGHER_STEP;
        for (int i = 0; i < n; i++) {
            variance += c[i] * c[i];
            for (int j = 0; j < n; j++) {
                if (u[i] == 0 || u[j] == 0) {
                    continue;
                }
                double mixed;
                double third;
                if (i == j) {
                    double one = at(f, at, inputs, u, i, s, j, 0);
                    double minusOne = at(f, at, inputs, u, i, -s, j, 0);
                    double two = at(f, at, inputs, u, i, 2 * s, j, 0);
                    double minusTwo = at(f, at, inputs, u, i, -2 * s, j, 0);
                    mixed = (one - 2 * middle + minusOne) / (s * s);
                    third = (two - 2 * one + 2 * minusOne - minusTwo) / (2 * s * s * s);
                } else {
                    double pp = at(f, at, inputs, u, i, s, j, s);
                    double pm = at(f, at, inputs, u, i, s, j, -s);
                    double mp = at(f, at, inputs, u, i, -s, j, s);
                    double mm = at(f, at, inputs, u, i, -s, j, -s);
                    double slope = at(f, at, inputs, u, i, s, j, 0) - at(f, at, inputs, u, i, -s, j, 0);
                    mixed = (pp - pm - mp + mm) / (4 * s * s);
                    third = (pp - mp + pm - mm - 2 * slope) / (2 * s * s * s);
                }
                variance += 0.5 * mixed * mixed + c[i] * third;
            }
        }
        return Math.sqrt(Math.max(0, variance));
    }

    /**
     * Covariance of several outputs, J V Jᵀ (GUM H.2.3).
     *
     * @param jacobian ∂yₐ/∂xᵢ, row by row, one row an output
     * @param covariance of the n inputs, row by row
     * @return covariance of the outputs, row by row
     */
    public static double[] propagateCovariance(double[] jacobian, double[] covariance, int n) {
        Arguments.sameLength(n * n, covariance.length, "covariance matrix");
        int m = jacobian.length / n;
        Arguments.sameLength(m * n, jacobian.length, "Jacobian");
        double[] out = new double[m * m];
        for (int a = 0; a < m; a++) {
            for (int b = 0; b < m; b++) {
                double sum = 0;
                for (int i = 0; i < n; i++) {
                    double line = 0;
                    for (int j = 0; j < n; j++) {
                        line += covariance[i * n + j] * jacobian[b * n + j];
                    }
                    sum += jacobian[a * n + i] * line;
                }
                out[a * m + b] = sum;
            }
        }
        return out;
    }

    /** Covariance of two means from repeated simultaneous observations (GUM 5.2.3); with a == b, u² of the mean. */
    public static double covarianceOfMeans(double[] a, double[] b) {
        Arguments.sameLength(a.length, b.length, "second series");
        if (a.length < 2) {
            throw new IllegalArgumentException("a covariance needs at least two observations, found " + a.length);
        }
        double meanA = Arrays.stream(a).average().orElseThrow();
        double meanB = Arrays.stream(b).average().orElseThrow();
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += (a[i] - meanA) * (b[i] - meanB);
        }
        return sum / ((double) a.length * (a.length - 1));
    }

    private static double[] contributions(Measurand f, double[] inputs, double[] u) {
        Arguments.sameLength(inputs.length, u.length, "standard uncertainties");
        double[] at = inputs.clone();
        double[] c = new double[inputs.length];
        for (int i = 0; i < c.length; i++) {
            Require.notNegative(u[i], "standard uncertainty of input " + i, "");
            if (u[i] > 0) {
                double up = at(f, at, inputs, u, i, FIRST_STEP, i, 0);
                double down = at(f, at, inputs, u, i, -FIRST_STEP, i, 0);
                c[i] = Require.finite((up - down) / (2 * FIRST_STEP), "the function's change with input " + i, "");
            }
        }
        return c;
    }

    /** f with inputs i and j moved by so many of their standard uncertainties; leaves {@code at} as it was. */
    private static double at(
            Measurand f, double[] at, double[] inputs, double[] u, int i, double si, int j, double sj) {
        at[i] = inputs[i] + si * u[i];
        if (sj != 0) {
            at[j] = inputs[j] + sj * u[j];
        }
        double y = f.value(at);
        at[i] = inputs[i];
        at[j] = inputs[j];
        return y;
    }
}
