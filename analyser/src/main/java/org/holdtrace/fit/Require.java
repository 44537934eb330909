package org.holdtrace.fit;

/** Checks of arguments, written so that NaN fails them. */
final class Require {
    private Require() {}

    static double finite(double value, String name) {
        if (Math.abs(value) < Double.POSITIVE_INFINITY) {
            return value;
        }
        throw new IllegalArgumentException(name + " must be a finite number, was " + value);
    }

    /** Above zero; infinity is let through, as degrees of freedom may be infinite. */
    static double positive(double value, String name) {
        if (value > 0) {
            return value;
        }
        throw new IllegalArgumentException(name + " must be above 0, was " + value);
    }

    static double positiveFinite(double value, String name) {
        return positive(finite(value, name), name);
    }

    static double notNegative(double value, String name) {
        if (value >= 0 && value < Double.POSITIVE_INFINITY) {
            return value;
        }
        throw new IllegalArgumentException(name + " must be a finite number of at least 0, was " + value);
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
