package org.holdtrace.fluid;

import org.holdtrace.quantity.Require;

/**
 * Bulk moduli and the ways from one to another.
 *
 * <p>The <i>secant</i> modulus from zero is {@code p V0 / (V0 - V)}; the <i>tangent</i> modulus is
 * {@code -V dp/dV}. The <i>isothermal</i> modulus is what slow changes see, the <i>isentropic</i> one what fast
 * compression sees. All moduli and pressures in Pa, pressures gauge.
 */
public final class BulkModulus {
    /**
     * Rise of the secant modulus with pressure, Pa per Pa, in {@link #isothermalSecantPa}: 5.6.
     *
     * <p>A. T. J. Hayward, How to estimate the bulk modulus of hydraulic fluids, Hydraulic Pneumatic Power 16 (1970),
     * in the form quoted in later papers; from memory, not read.
     */
    public static final double SECANT_SLOPE = 5.6;

    /** Rise of the tangent modulus with pressure at low pressure that follows from the secant's: 2 m - 1. */
    public static final double TANGENT_SLOPE = 2 * SECANT_SLOPE - 1;

    /** Standard uncertainty of {@link #isothermalSecantPa} for an oil known by its grade alone, relative. */
    public static final double ESTIMATE_RELATIVE_UNCERTAINTY = 0.10;

    private BulkModulus() {}

    /**
     * Tangent modulus from the secant modulus: {@code B (B - p) / (B - p dB/dp)}, exact by the definitions of both.
     *
     * @param secantPa secant modulus from zero to {@code pressurePa}, above the pressure
     * @param pressurePa pressure, at least 0
     * @param secantSlope how fast the secant modulus rises with pressure, Pa/Pa
     */
    public static double tangentPa(double secantPa, double pressurePa, double secantSlope) {
        Require.positive(secantPa, "secant modulus", "Pa");
        Require.notNegative(pressurePa, "pressure", "Pa");
        return secantPa * (secantPa - pressurePa) / (secantPa - pressurePa * secantSlope);
    }

    /**
     * Isothermal from isentropic modulus: {@code 1/K_T = 1/K_S + a^2 T / (rho c_p)}.
     *
     * <p>Standard thermodynamics; also Boelhouwer 1967 and Rolling and Vogt 1960 as quoted in secondary sources.
     *
     * @param isentropicPa isentropic tangent modulus K_S
     * @param expansionPerK thermal expansion a, 1/K
     * @param temperatureK absolute temperature T
     * @param densityKgPerM3 density rho
     * @param specificHeatJPerKgK specific heat at constant pressure c_p
     */
    public static double isothermalPa(
            double isentropicPa,
            double expansionPerK,
            double temperatureK,
            double densityKgPerM3,
            double specificHeatJPerKgK) {
        return 1
                / (1 / Require.positive(isentropicPa, "isentropic modulus", "Pa")
                        + heatShare(expansionPerK, temperatureK, densityKgPerM3, specificHeatJPerKgK));
    }

    /** Isentropic from isothermal modulus, the inverse of {@link #isothermalPa}. */
    public static double isentropicPa(
            double isothermalPa,
            double expansionPerK,
            double temperatureK,
            double densityKgPerM3,
            double specificHeatJPerKgK) {
        double compressibility = 1 / Require.positive(isothermalPa, "isothermal modulus", "Pa")
                - heatShare(expansionPerK, temperatureK, densityKgPerM3, specificHeatJPerKgK);
        return 1 / Require.positive(compressibility, "isentropic compressibility", "1/Pa");
    }

    private static double heatShare(double expansionPerK, double temperatureK, double density, double specificHeat) {
        return expansionPerK * expansionPerK * temperatureK / (density * specificHeat);
    }

    /** Isentropic modulus from the speed of sound: {@code rho a^2}. */
    public static double fromSoundSpeedPa(double densityKgPerM3, double soundMPerS) {
        return Require.positive(densityKgPerM3, "density", "kg/m3") * soundMPerS * soundMPerS;
    }

    /**
     * Isothermal secant modulus of mineral hydraulic oil from its viscosity:
     * {@code ((1.30 + 0.15 lg v) 10^(0.0023 (20 - t)) 1e9 + 5.6 p)}, v the kinematic viscosity in mm²/s at 20 °C, t in
     * °C. At p = 0 it is the tangent modulus too. Hayward 1970, see {@link #SECANT_SLOPE}. Formulated oils lie within
     * about 10 to 15 % of it.
     *
     * @param viscosityAt20M2PerS kinematic viscosity at 20 °C, m²/s
     * @param temperatureK oil temperature, K; the formula was made for about 5 to 80 °C
     * @param pressurePa gauge pressure, at least 0; made for up to about 800 bar
     */
    public static double isothermalSecantPa(double viscosityAt20M2PerS, double temperatureK, double pressurePa) {
        return haywardPa(1.30, 0.0023, viscosityAt20M2PerS, temperatureK, pressurePa);
    }

    /** Isentropic secant modulus likewise: {@code ((1.57 + 0.15 lg v) 10^(0.0024 (20 - t)) 1e9 + 5.6 p)}. */
    public static double isentropicSecantPa(double viscosityAt20M2PerS, double temperatureK, double pressurePa) {
        return haywardPa(1.57, 0.0024, viscosityAt20M2PerS, temperatureK, pressurePa);
    }

    private static double haywardPa(
            double base, double coolingExponent, double viscosityAt20M2PerS, double temperatureK, double pressurePa) {
        Require.positive(viscosityAt20M2PerS, "viscosity at 20 degC", "m2/s");
        Require.notNegative(pressurePa, "pressure", "Pa");
        double celsius = Require.positive(temperatureK, "temperature", "K") - Oil.ZERO_CELSIUS_K;
        return (base + 0.15 * StrictMath.log10(viscosityAt20M2PerS * 1e6))
                        * StrictMath.pow(10, coolingExponent * (20 - celsius))
                        * 1e9
                + SECANT_SLOPE * pressurePa;
    }

    /**
     * Mean isothermal modulus at low pressure of a petroleum liquid from its density, {@code 1/F} with
     * {@code F = exp(-1.62080 + 2.1592e-4 t + 0.87096/r^2 + 4.2092e-3 t/r^2)} in 1/GPa, r density at 15 °C in g/cm³.
     *
     * <p>API MPMS 11.2.1M:1984 (attribution from memory; constants read in a flow computer's density module). It was
     * not fitted to formulated lubricants and comes out low for them: expect 15 %.
     */
    public static double petroleumLiquidPa(double densityAt15KgPerM3, double temperatureK) {
        double inverseSquare =
                1e6 / (Require.positive(densityAt15KgPerM3, "density at 15 degC", "kg/m3") * densityAt15KgPerM3);
        double celsius = Require.positive(temperatureK, "temperature", "K") - Oil.ZERO_CELSIUS_K;
        double perGPa = StrictMath.exp(
                -1.62080 + 2.1592e-4 * celsius + 0.87096 * inverseSquare + 4.2092e-3 * celsius * inverseSquare);
        return 1e9 / perGPa;
    }
}
