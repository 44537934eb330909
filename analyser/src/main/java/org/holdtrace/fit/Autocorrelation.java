package org.holdtrace.fit;

import org.holdtrace.quantity.Require;

/** How much neighbouring values of a series are alike, and what that costs. */
public final class Autocorrelation {
    private Autocorrelation() {}

    /**
     * Sample autocorrelation Σ(yᵢ − ȳ)(yᵢ₊ₗ − ȳ)/Σ(yᵢ − ȳ)² at a lag (the definition of NIST's reference data sets).
     *
     * @param values evenly spaced, more than {@code lag} of them and not all alike
     * @param lag at least 0
     * @throws IllegalArgumentException where there are too few values or they do not differ
     */
    public static double at(double[] values, int lag) {
        if (lag < 0 || values.length <= lag) {
            throw new IllegalArgumentException("a lag of " + lag + " needs more values, found " + values.length);
        }
        double mean = mean(values);
        double all = 0;
        double lagged = 0;
        for (int i = 0; i < values.length; i++) {
            double d = values[i] - mean;
            all += d * d;
            if (i + lag < values.length) {
                lagged += d * (values[i + lag] - mean);
            }
        }
        Require.positive(all, "the sum of squares about the mean", "");
        return lagged / all;
    }

    /**
     * How many independent values tell as much of the mean as {@code n} values of a first-order autoregressive series:
     * n / (1 + 2 Σ (1 − k/n) φᵏ), close to n (1 − φ)/(1 + φ) for many (G. V. Bayley and J. M. Hammersley, "The
     * effective number of independent observations in an autocorrelated time series", J. R. Statist. Soc. Suppl. 8
     * (1946) 184-197, from memory; the sum in closed form is derived).
     *
     * @param n number of values, at least 1
     * @param lag1 correlation of neighbours φ, above −1 and below 1
     */
    public static double effectiveSampleSize(int n, double lag1) {
        if (n < 1) {
            throw new IllegalArgumentException("a sample has at least one value, found " + n);
        }
        if (!(lag1 > -1 && lag1 < 1)) {
            throw new IllegalArgumentException("the correlation of neighbours must lie between -1 and 1, was " + lag1);
        }
        return n / sumOfCorrelations(n, lag1);
    }

    /** 1 + 2 Σₖ (1 − k/m) φᵏ for k from 1 to m − 1: m times the variance of the mean of m, for unit variance. */
    static double sumOfCorrelations(double m, double phi) {
        double rest = 1 - phi;
        if (m * rest < 1e-4) {
            // All alike over the block: the closed form below would lose its digits; the first terms of its series
            // in (1 − φ) are left, Σ (1 − k/m)(1 − k(1 − φ)).
            return m - (m * m - 1) * rest / 3;
        }
        return (1 + phi) / rest - 2 * phi * (1 - Math.pow(phi, m)) / (m * rest * rest);
    }

    /** The mean in two passes, so that a large offset costs no digits. */
    private static double mean(double[] values) {
        double sum = 0;
        for (double v : values) {
            sum += v;
        }
        double mean = sum / values.length;
        double rest = 0;
        for (double v : values) {
            rest += v - mean;
        }
        return mean + rest / values.length;
    }
}
