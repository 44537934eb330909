package org.holdtrace.fit;

import org.holdtrace.quantity.Require;

/** How an input of a Monte Carlo evaluation is distributed, given by the inverse of its distribution function. */
@FunctionalInterface
public interface InputDistribution {
    /** The value below which the fraction {@code p} lies, p strictly between 0 and 1. */
    double quantile(double p);

    /** A value without uncertainty. */
    static InputDistribution exactly(double value) {
        Require.finite(value, "value", "");
        return p -> value;
    }

    /** Normal: a best estimate with its standard uncertainty (JCGM 101:2008, 6.4.7). */
    static InputDistribution normal(double mean, double standardUncertainty) {
        Require.finite(mean, "mean", "");
        Require.notNegative(standardUncertainty, "standard uncertainty", "");
        return p -> mean + standardUncertainty * Normal.quantile(p);
    }

    /** Rectangular: nothing is known but the limits (JCGM 101:2008, 6.4.2). */
    static InputDistribution rectangular(double lower, double upper) {
        Interval limits =
                new Interval(Require.finite(lower, "lower limit", ""), Require.finite(upper, "upper limit", ""));
        return p -> limits.lower() + p * limits.width();
    }

    /** Student's t, scaled and shifted: the mean of few observations (JCGM 101:2008, 6.4.9). */
    static InputDistribution studentT(double mean, double scale, double degreesOfFreedom) {
        Require.finite(mean, "mean", "");
        Require.notNegative(scale, "scale", "");
        Arguments.degreesOfFreedom(degreesOfFreedom, "degrees of freedom");
        return p -> mean + scale * StudentT.quantile(p, degreesOfFreedom);
    }
}
