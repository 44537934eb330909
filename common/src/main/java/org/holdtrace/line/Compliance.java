package org.holdtrace.line;

import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Require;

/** Compliance dV/dp of what is pressurised, and what follows from it. SI units throughout. */
public final class Compliance {
    private Compliance() {}

    /** {@code V / B}: compliance of a volume (m³) of effective modulus (Pa), m³/Pa. */
    public static double ofVolumeM3PerPa(double volumeM3, double effectiveModulusPa) {
        return Require.notNegative(volumeM3, "volume", "m3")
                / Require.positive(effectiveModulusPa, "effective modulus", "Pa");
    }

    /**
     * Isothermal compliance of trapped oil with air in a line that swells: {@code V (1-f)/K(p) + V air(p) + C_line},
     * m³/Pa.
     *
     * @param volumeM3 trapped volume at atmospheric pressure
     * @param lowPressureModulusPa isothermal tangent modulus of the oil without air at low pressure
     * @param air the air in it
     * @param lineM3PerPa what hose, gauge, fittings and walls swell by
     * @param pressurePa gauge pressure, at least 0
     */
    public static double isothermalM3PerPa(
            double volumeM3, double lowPressureModulusPa, EntrainedAir air, double lineM3PerPa, double pressurePa) {
        double oil = (1 - air.fraction()) / Oil.tangentModulusPa(lowPressureModulusPa, pressurePa);
        return volumeM3 * (oil + air.compliancePerPa(pressurePa)) + lineM3PerPa;
    }

    /** Effective modulus of parts whose compliances add, {@code 1/B = sum 1/B_i}, Pa. */
    public static double effectiveModulusPa(double... partModuliPa) {
        double sum = 0;
        for (double part : partModuliPa) {
            sum += 1 / Require.positive(part, "modulus", "Pa");
        }
        return 1 / sum;
    }

    /** Leak that makes a compliance lose pressure at this rate: {@code -C dp/dt}, m³/s. */
    public static double leakM3PerS(double complianceM3PerPa, double ratePaPerS) {
        return -complianceM3PerPa * ratePaPerS;
    }

    /** Effective modulus from a measured volume: {@code V dp / dV}, Pa. */
    public static double measuredModulusPa(double volumeM3, double addedM3, double risePa) {
        return volumeM3 * risePa / Require.positive(addedM3, "added volume", "m3");
    }

    /** Time constant of a laminar decay, {@code C / G}, s, for G in m³/(s Pa). */
    public static double laminarTimeConstantS(double complianceM3PerPa, double conductanceM3PerSPa) {
        return complianceM3PerPa / Require.positive(conductanceM3PerSPa, "conductance", "m3/(s Pa)");
    }

    /** Time an orifice {@code b sqrt(p)} needs to empty the line, {@code 2 C sqrt(p0) / b}, s. */
    public static double orificeEmptyingS(double complianceM3PerPa, double coefficient, double startPa) {
        return 2
                * complianceM3PerPa
                * Math.sqrt(Require.notNegative(startPa, "start pressure", "Pa"))
                / Require.positive(coefficient, "orifice coefficient", "m3/(s sqrt(Pa))");
    }
}
