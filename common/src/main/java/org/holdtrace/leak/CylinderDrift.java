package org.holdtrace.leak;

import org.holdtrace.quantity.Require;

/** From a leak to the drift of a cylinder's rod and back: flow is area times speed. SI units. */
public final class CylinderDrift {
    private CylinderDrift() {}

    /** Piston area of a bore, m². */
    public static double pistonAreaM2(double boreM) {
        return Math.PI / 4 * Require.positive(boreM, "bore", "m") * boreM;
    }

    /** Area on the rod's side, m². */
    public static double annulusAreaM2(double boreM, double rodM) {
        return pistonAreaM2(boreM) - pistonAreaM2(Require.within(rodM, Double.MIN_VALUE, boreM, "rod", "m"));
    }

    /** Rod speed a leak allows: {@code q / A}, m/s. */
    public static double speedMPerS(double leakM3PerS, double areaM2) {
        return leakM3PerS / Require.positive(areaM2, "area", "m2");
    }

    /** Leak a drift needs: {@code A v}, m³/s. */
    public static double leakM3PerS(double speedMPerS, double areaM2) {
        return speedMPerS * Require.positive(areaM2, "area", "m2");
    }
}
