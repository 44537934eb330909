package org.holdtrace.fit;

import org.holdtrace.quantity.Require;

/** Conformity with an upper limit, by probability (JCGM 106:2012, clause 7 and 8), for normally distributed values. */
public final class Conformity {
    private Conformity() {}

    /**
     * Probability that the true value is at most {@code upperLimit}.
     *
     * @param value the estimate
     * @param standardUncertainty its standard uncertainty in the same unit; with 0 the answer is 0 or 1
     * @param upperLimit the limit in the same unit
     */
    public static double probability(double value, double standardUncertainty, double upperLimit) {
        Require.finite(value, "value", "");
        Require.finite(upperLimit, "limit", "");
        if (Require.notNegative(standardUncertainty, "standard uncertainty", "") == 0) {
            return value <= upperLimit ? 1 : 0;
        }
        return Normal.cumulative((upperLimit - value) / standardUncertainty);
    }

    /** The largest estimate that still conforms with {@code probability}: the limit less a guard band. */
    public static double acceptanceLimit(double upperLimit, double standardUncertainty, double probability) {
        Arguments.probability(probability, "probability");
        return upperLimit - Normal.quantile(probability) * Require.notNegative(standardUncertainty, "u", "");
    }
}
