package org.holdtrace.fluid;

import org.holdtrace.quantity.Require;

/**
 * Density and thermal expansion of a lubricating oil by Table 54D of ISO 91-1 / ASTM D1250-80 (constants and form read
 * in open implementations): {@code a15 = K1 / rho15} with K1 = 0.6278 (kg/m³)/K, and
 * {@code rho(t) = rho15 exp(-a15 dt (1 + 0.8 a15 dt))}, {@code dt = t - 15 °C}.
 *
 * @param at15KgPerM3 density at 15 °C, kg/m³, 800 to 1164
 */
public record LubricantDensity(double at15KgPerM3) {
    private static final double K1_KG_PER_M3_K = 0.6278;

    public LubricantDensity {
        Require.within(at15KgPerM3, 800, 1164, "density at 15 degC", "kg/m3");
    }

    /** Thermal expansion at 15 °C, 1/K. */
    public double expansionAt15PerK() {
        return K1_KG_PER_M3_K / at15KgPerM3;
    }

    /** Volume at 15 °C divided by volume at {@code temperatureK}, at atmospheric pressure. */
    public double volumeCorrection(double temperatureK) {
        double x = expansionAt15PerK() * difference(temperatureK);
        return StrictMath.exp(-x * (1 + 0.8 * x));
    }

    /** Density at {@code temperatureK} and atmospheric pressure, kg/m³. */
    public double atKgPerM3(double temperatureK) {
        return at15KgPerM3 * volumeCorrection(temperatureK);
    }

    /** Local thermal expansion (1/V) dV/dT at {@code temperatureK}: {@code a15 (1 + 1.6 a15 dt)}, 1/K. */
    public double expansionPerK(double temperatureK) {
        double a15 = expansionAt15PerK();
        return a15 * (1 + 1.6 * a15 * difference(temperatureK));
    }

    private static double difference(double temperatureK) {
        return Require.positive(temperatureK, "temperature", "K") - Oil.ZERO_CELSIUS_K - 15;
    }
}
