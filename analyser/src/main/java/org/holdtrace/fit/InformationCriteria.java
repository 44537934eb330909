package org.holdtrace.fit;

import org.holdtrace.quantity.Require;

/**
 * Information criteria for least-squares fits with Gaussian errors of unknown size (K. P. Burnham and D. R. Anderson,
 * <i>Model Selection and Multimodel Inference</i>, 2nd ed. 2002, sections 2.2 to 2.4). Lower is better; only
 * differences between fits to the same data mean anything.
 *
 * <p>Everywhere {@code k} counts the fitted parameters plus 1 for the variance.
 */
public final class InformationCriteria {
    private InformationCriteria() {}

    /** n ln(RSS/n) + 2k. */
    public static double aic(int n, double residualSumOfSquares, int k) {
        return minusTwoLogLikelihood(n, residualSumOfSquares) + 2.0 * k;
    }

    /** AIC with the correction for few data, 2k(k + 1)/(n − k − 1); infinite where n ≤ k + 1. */
    public static double aicc(int n, double residualSumOfSquares, int k) {
        return aiccOf(minusTwoLogLikelihood(n, residualSumOfSquares), n, k);
    }

    /** n ln(RSS/n) + k ln n. */
    public static double bic(int n, double residualSumOfSquares, int k) {
        return minusTwoLogLikelihood(n, residualSumOfSquares) + k * Math.log(n);
    }

    /**
     * AICc of any model from −2 ln L; for Gaussian errors of known size that is χ², and k then counts no variance.
     */
    public static double aiccOf(double minusTwoLogLikelihood, int n, int k) {
        if (n <= k + 1) {
            return Double.POSITIVE_INFINITY;
        }
        return minusTwoLogLikelihood + 2.0 * k + 2.0 * k * (k + 1) / (n - k - 1);
    }

    /**
     * Weights exp(−Δ/2)/Σ exp(−Δ/2), Δ being the distance to the lowest criterion: no value, however large or far
     * below zero, over- or underflows the sum. A criterion of infinity has weight 0.
     */
    public static double[] weights(double... criteria) {
        double lowest = Double.POSITIVE_INFINITY;
        for (double c : criteria) {
            if (!(c > Double.NEGATIVE_INFINITY)) {
                throw new IllegalArgumentException("a criterion must be a number above minus infinity, was " + c);
            }
            lowest = Math.min(lowest, c);
        }
        if (lowest == Double.POSITIVE_INFINITY) {
            throw new IllegalArgumentException("weights need at least one model with a finite criterion");
        }
        double[] weights = new double[criteria.length];
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            weights[i] = Math.exp(-0.5 * (criteria[i] - lowest));
            sum += weights[i];
        }
        for (int i = 0; i < weights.length; i++) {
            weights[i] /= sum;
        }
        return weights;
    }

    private static double minusTwoLogLikelihood(int n, double residualSumOfSquares) {
        if (n < 1) {
            throw new IllegalArgumentException("a criterion needs at least one observation, found " + n);
        }
        Require.positive(residualSumOfSquares, "residual sum of squares", "");
        return n * Math.log(residualSumOfSquares / n);
    }
}
