package org.holdtrace.fit;

import java.util.Arrays;
import org.holdtrace.quantity.Require;

/**
 * The mean of several estimates of one quantity, weighted by their covariance (generalised least squares), and whether
 * they agree. Estimates that share an input are correlated; leaving that out counts the input more than once.
 * Immutable.
 */
public final class WeightedMean {
    private final double mean;
    private final double standardUncertainty;
    private final double chiSquare;
    private final double[] weights;

    private WeightedMean(double mean, double standardUncertainty, double chiSquare, double[] weights) {
        this.mean = mean;
        this.standardUncertainty = standardUncertainty;
        this.chiSquare = chiSquare;
        this.weights = weights;
    }

    /** Of independent estimates. */
    public static WeightedMean of(double[] estimates, double[] standardUncertainties) {
        int n = estimates.length;
        Arguments.sameLength(n, standardUncertainties.length, "standard uncertainties");
        double[] covariance = new double[n * n];
        for (int i = 0; i < n; i++) {
            double u = Require.positive(standardUncertainties[i], "standard uncertainty " + i, "");
            covariance[i * n + i] = u * u;
        }
        return of(estimates, covariance, n);
    }

    /**
     * Of correlated estimates.
     *
     * @param covariance row by row, positive definite
     */
    public static WeightedMean ofCorrelated(double[] estimates, double[] covariance) {
        Arguments.sameLength(estimates.length * estimates.length, covariance.length, "covariance matrix");
        return of(estimates, covariance.clone(), estimates.length);
    }

    private static WeightedMean of(double[] estimates, double[] factor, int n) {
        if (n < 1) {
            throw new IllegalArgumentException("a mean needs at least one estimate");
        }
        for (int i = 0; i < n; i++) {
            Require.finite(estimates[i], "estimate " + i, "");
        }
        if (!Cholesky.factor(factor, n)) {
            throw new IllegalArgumentException("the covariance matrix of the estimates is not positive definite");
        }
        double[] weights = new double[n];
        Arrays.fill(weights, 1);
        Cholesky.solve(factor, n, weights);
        double sum = 0;
        for (double w : weights) {
            sum += w;
        }
        double mean = 0;
        for (int i = 0; i < n; i++) {
            weights[i] /= sum;
            mean += weights[i] * estimates[i];
        }
        double[] whitened = new double[n];
        for (int i = 0; i < n; i++) {
            whitened[i] = estimates[i] - mean;
        }
        Cholesky.solveLower(factor, n, whitened);
        double chiSquare = 0;
        for (double r : whitened) {
            chiSquare += r * r;
        }
        return new WeightedMean(mean, 1 / Math.sqrt(sum), chiSquare, weights);
    }

    /** The mean. */
    public double mean() {
        return mean;
    }

    /** Its standard uncertainty, if the stated covariance is right. */
    public double standardUncertainty() {
        return standardUncertainty;
    }

    /** χ² of the estimates about the mean. */
    public double chiSquare() {
        return chiSquare;
    }

    /** One less than there are estimates. */
    public int degreesOfFreedom() {
        return weights.length - 1;
    }

    /** Probability of such a χ² or more by chance, if the stated covariance is right; 1 for a single estimate. */
    public double probability() {
        return degreesOfFreedom() == 0 ? 1 : ChiSquare.upperTail(chiSquare, degreesOfFreedom());
    }

    /** √(χ²/ν), the Birge ratio: near 1 where estimates scatter as stated. NaN for a single estimate. */
    public double birgeRatio() {
        return degreesOfFreedom() == 0 ? Double.NaN : Math.sqrt(chiSquare / degreesOfFreedom());
    }

    /** The standard uncertainty, widened by the Birge ratio where that is above 1. */
    public double widenedStandardUncertainty() {
        return degreesOfFreedom() == 0 ? standardUncertainty : standardUncertainty * Math.max(1, birgeRatio());
    }

    /** Weight of estimate {@code i}; all sum to 1. */
    public double weight(int i) {
        return weights[i];
    }

    /**
     * Whether a weight is below zero. The mean may then lie outside all estimates: right if the covariance is right
     * to the digit, and a trap where it is a guess.
     */
    public boolean hasNegativeWeight() {
        for (double w : weights) {
            if (w < 0) {
                return true;
            }
        }
        return false;
    }
}
