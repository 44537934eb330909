package org.holdtrace.quantity;

/** Checks of numbers handed in. Each is written so that NaN fails it. */
public final class Require {
    private Require() {}

    /** {@code value} where it is a finite number above 0; else an error that names it. */
    public static double positive(double value, String name, String unit) {
        if (value > 0 && value < Double.POSITIVE_INFINITY) {
            return value;
        }
        throw new IllegalArgumentException(
                name + " must be a finite number above 0" + withUnit(unit) + ", was " + value);
    }

    /** {@code value} where it is a finite number of at least 0; else an error that names it. */
    public static double notNegative(double value, String name, String unit) {
        if (value >= 0 && value < Double.POSITIVE_INFINITY) {
            return value;
        }
        throw new IllegalArgumentException(
                name + " must be a finite number of at least 0" + withUnit(unit) + ", was " + value);
    }

    /** {@code value} where it is finite; else an error that names it. */
    public static double finite(double value, String name, String unit) {
        if (Double.isFinite(value)) {
            return value;
        }
        throw new IllegalArgumentException(name + " must be a finite number" + withUnit(unit) + ", was " + value);
    }

    /** {@code value} where it lies in {@code low}..{@code high}, both included; else an error that names it. */
    public static double within(double value, double low, double high, String name, String unit) {
        if (value >= low && value <= high) {
            return value;
        }
        throw new IllegalArgumentException(
                name + " must lie in " + low + ".." + high + withUnit(unit) + ", was " + value);
    }

    private static String withUnit(String unit) {
        return unit.isEmpty() ? "" : " " + unit;
    }
}
