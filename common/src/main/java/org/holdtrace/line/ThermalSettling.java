package org.holdtrace.line;

import org.holdtrace.quantity.Require;

/**
 * Pressure that heat makes and takes in a shut line. Fast compression warms the oil; as it cools to its walls, pressure
 * falls though nothing leaks.
 */
public final class ThermalSettling {
    /** Square of the first zero of the Bessel function J0 (2.40483): slowest mode of a round bore. */
    private static final double FIRST_EIGENVALUE = 5.7832;

    /** Linear thermal expansion of steel, 1/K; common practice. */
    public static final double STEEL_EXPANSION_PER_K = 11.7e-6;

    private ThermalSettling() {}

    /** Pressure per warming of trapped oil in a rigid container: {@code a K}, Pa/K. */
    public static double rigidPaPerK(double expansionPerK, double isothermalModulusPa) {
        return expansionPerK * isothermalModulusPa;
    }

    /** The same where walls expand too: {@code (a - 3 a_wall) B_eff}, Pa/K. */
    public static double walledPaPerK(double expansionPerK, double wallLinearPerK, double effectiveModulusPa) {
        return (expansionPerK - 3 * wallLinearPerK) * effectiveModulusPa;
    }

    /** Share of a fast pressure step that a rigid sealed volume loses as it cools: {@code 1 - K_T/K_S}. */
    public static double settlingFraction(double isothermalModulusPa, double isentropicModulusPa) {
        return 1 - isothermalModulusPa / Require.positive(isentropicModulusPa, "isentropic modulus", "Pa");
    }

    /**
     * Time constant of that cooling in a round bore, {@code r² / (5.7832 a)}, s: slowest mode of conduction (Carslaw and
     * Jaeger, Conduction of Heat in Solids, 1959, §7.6, from memory). Convection makes it shorter: an upper bound.
     *
     * @param radiusM radius of the bore, m
     * @param diffusivityM2PerS temperature conductivity of the oil, m²/s
     */
    public static double boreTimeConstantS(double radiusM, double diffusivityM2PerS) {
        return radiusM * radiusM / (FIRST_EIGENVALUE * Require.positive(diffusivityM2PerS, "diffusivity", "m2/s"));
    }

    /** Leak that cooling feigns: {@code V a (-dT/dt)}, m³/s. */
    public static double feignedLeakM3PerS(double volumeM3, double expansionPerK, double rateKPerS) {
        return -volumeM3 * expansionPerK * rateKPerS;
    }
}
