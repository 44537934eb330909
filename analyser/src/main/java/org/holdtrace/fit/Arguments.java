package org.holdtrace.fit;

/** Checks of arguments beyond those of {@link org.holdtrace.quantity.Require}; NaN fails them too. */
final class Arguments {
    private Arguments() {}

    /** Above zero; degrees of freedom may be infinite. */
    static double degreesOfFreedom(double value, String name) {
        if (value > 0) {
            return value;
        }
        throw new IllegalArgumentException(name + " must be above 0, was " + value);
    }

    /** Strictly between 0 and 1. */
    static double probability(double value, String name) {
        if (value > 0 && value < 1) {
            return value;
        }
        throw new IllegalArgumentException(name + " must lie between 0 and 1, was " + value);
    }

    static void sameLength(int expected, int found, String name) {
        if (expected != found) {
            throw new IllegalArgumentException(name + " has " + found + " elements, expected " + expected);
        }
    }
}
