package org.holdtrace.fluid;

import org.holdtrace.quantity.Require;

/** How pressure thickens oil. Dynamic viscosities in Pa s, pressures in Pa (gauge), coefficients in 1/Pa. */
public final class PressureViscosity {
    private PressureViscosity() {}

    /** Barus: {@code mu0 exp(a p)}. Too steep above some 500 bar. Typical a for mineral oil: 1.5e-8 to 2.2e-8 1/Pa. */
    public static double barusPaS(double atZeroPaS, double coefficientPerPa, double pressurePa) {
        return Require.positive(atZeroPaS, "viscosity", "Pa s") * Math.exp(coefficientPerPa * pressurePa);
    }

    /**
     * Roelands: {@code mu0 exp((ln mu0 + 9.67) ((1 + p/1.96e8)^z - 1))}, {@code z = a 1.96e8 / (ln mu0 + 9.67)}; form
     * from memory, constants read in a tribology exercise.
     */
    public static double roelandsPaS(double atZeroPaS, double coefficientPerPa, double pressurePa) {
        double scale = Math.log(Require.positive(atZeroPaS, "viscosity", "Pa s")) + 9.67;
        double z = coefficientPerPa * 1.96e8 / scale;
        return atZeroPaS * Math.exp(scale * (Math.pow(1 + pressurePa / 1.96e8, z) - 1));
    }
}
