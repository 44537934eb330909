package org.holdtrace.leak;

import org.holdtrace.quantity.Require;

/** Leak laws from the shape of the leak. Lengths in m, dynamic viscosity in Pa s, density in kg/m³. */
public final class LeakGeometry {
    private LeakGeometry() {}

    /**
     * Annular gap between spool and bore: {@code q = pi D c^3 p (1 + 1.5 e^2) / (12 mu L)}.
     *
     * <p>M. G. Rabie, Fluid Power Engineering (2009), Eq. 2.19; eccentricity after Merritt, Hydraulic Control Systems
     * (1967), ch. 3, from memory.
     *
     * @param diameterM diameter D
     * @param clearanceM radial clearance c
     * @param lengthM length of the gap L
     * @param eccentricity e, from 0 (concentric) to 1 (touching: 2.5 times the flow)
     * @param viscosityPaS dynamic viscosity mu
     */
    public static LeakLaw.Laminar annularGap(
            double diameterM, double clearanceM, double lengthM, double eccentricity, double viscosityPaS) {
        Require.positive(diameterM, "diameter", "m");
        Require.positive(clearanceM, "clearance", "m");
        Require.within(eccentricity, 0, 1, "eccentricity", "");
        double concentric = Math.PI * diameterM * cube(clearanceM) / (12 * resistance(lengthM, viscosityPaS));
        return new LeakLaw.Laminar(concentric * (1 + 1.5 * eccentricity * eccentricity));
    }

    /** Gap between parallel plates: {@code q = b h^3 p / (12 mu L)}, width b, gap h. From memory; standard. */
    public static LeakLaw.Laminar parallelPlates(double widthM, double gapM, double lengthM, double viscosityPaS) {
        Require.positive(widthM, "width", "m");
        Require.positive(gapM, "gap", "m");
        return new LeakLaw.Laminar(widthM * cube(gapM) / (12 * resistance(lengthM, viscosityPaS)));
    }

    /** Round capillary (Hagen and Poiseuille): {@code q = pi d^4 p / (128 mu L)}. */
    public static LeakLaw.Laminar capillary(double boreM, double lengthM, double viscosityPaS) {
        Require.positive(boreM, "bore", "m");
        return new LeakLaw.Laminar(Math.PI * cube(boreM) * boreM / (128 * resistance(lengthM, viscosityPaS)));
    }

    /** Sharp-edged orifice: {@code q = C_d A sqrt(2 p / rho)}; C_d 0.60 to 0.65, common practice. */
    public static LeakLaw.Orifice orifice(double diameterM, double dischargeCoefficient, double densityKgPerM3) {
        Require.positive(diameterM, "diameter", "m");
        Require.positive(dischargeCoefficient, "discharge coefficient", "");
        Require.positive(densityKgPerM3, "density", "kg/m3");
        return new LeakLaw.Orifice(
                dischargeCoefficient * Math.PI / 4 * diameterM * diameterM * Math.sqrt(2 / densityKgPerM3));
    }

    /** Reynolds number of an annular gap, {@code 2 q rho / (pi D mu)}; far below 1000 the flow is laminar. */
    public static double annularGapReynolds(
            double flowM3PerS, double diameterM, double densityKgPerM3, double viscosityPaS) {
        return 2 * flowM3PerS * densityKgPerM3 / (Math.PI * diameterM * viscosityPaS);
    }

    /**
     * Flow through a clearance and a hole one after the other, which share the pressure: {@code p = a q + b q^2} solved
     * for q.
     *
     * @param a Pa/(m³/s), at least 0
     * @param b Pa/(m³/s)², above 0
     * @param pressurePa pressure over both
     */
    public static double inSeriesM3PerS(double a, double b, double pressurePa) {
        Require.notNegative(a, "laminar resistance", "Pa s/m3");
        Require.positive(b, "orifice resistance", "Pa s2/m6");
        return pressurePa > 0 ? 2 * pressurePa / (a + Math.sqrt(a * a + 4 * b * pressurePa)) : 0;
    }

    private static double resistance(double lengthM, double viscosityPaS) {
        return Require.positive(lengthM, "length", "m") * Require.positive(viscosityPaS, "viscosity", "Pa s");
    }

    private static double cube(double x) {
        return x * x * x;
    }
}
