package org.holdtrace.quantity;

/**
 * A measured or stated value with its standard uncertainty, both in the SI unit of its dimension.
 *
 * @param value the value in SI units (Pa, m³, m³/s, K, m³/Pa, …)
 * @param standardUncertainty the standard uncertainty (GUM 2.3.1) in the same unit, 0 where it was stated as exact
 */
public record Quantity(double value, double standardUncertainty) {
    public Quantity {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a quantity must be a finite number, was " + value);
        }
        if (!(standardUncertainty >= 0) || Double.isInfinite(standardUncertainty)) {
            throw new IllegalArgumentException(
                    "a standard uncertainty must be a finite number of at least 0, was " + standardUncertainty);
        }
    }

    /** A value stated without an uncertainty. */
    public static Quantity exactly(double value) {
        return new Quantity(value, 0);
    }

    /** Standard uncertainty divided by the magnitude of the value; infinite at value 0. */
    public double relativeUncertainty() {
        return standardUncertainty / Math.abs(value);
    }
}
