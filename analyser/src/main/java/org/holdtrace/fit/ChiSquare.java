package org.holdtrace.fit;

import org.holdtrace.quantity.Require;

/** The chi-square distribution. */
public final class ChiSquare {
    private ChiSquare() {}

    /**
     * Probability that chi-square is {@code value} or more by chance.
     *
     * @param value chi-square, at least 0
     * @param degreesOfFreedom above 0
     */
    public static double upperTail(double value, double degreesOfFreedom) {
        Require.positive(degreesOfFreedom, "degrees of freedom", "");
        if (!(value >= 0)) {
            throw new IllegalArgumentException("chi-square must be at least 0, was " + value);
        }
        return SpecialFunctions.gammaUpper(0.5 * degreesOfFreedom, 0.5 * value);
    }
}
