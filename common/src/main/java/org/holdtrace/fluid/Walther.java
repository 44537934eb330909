package org.holdtrace.fluid;

import org.holdtrace.quantity.Require;

/**
 * Viscosity against temperature by ASTM D341 (Ubbelohde and Walther): {@code lg lg Z = A - B lg T} with
 * {@code Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2)}, v in mm²/s, T in K with 0 °C = 273.15 K. The exponential
 * counts below 2 mm²/s only. Coefficients made with 273 K must not be used here.
 *
 * @param a coefficient A
 * @param b coefficient B
 */
public record Walther(double a, double b) {
    public Walther {
        Require.finite(a, "Walther A", "");
        Require.finite(b, "Walther B", "");
    }

    /** The line through two measured viscosities (m²/s) at two different temperatures (K). */
    public static Walther through(double firstM2PerS, double firstK, double secondM2PerS, double secondK) {
        double y1 = StrictMath.log10(StrictMath.log10(z(firstM2PerS * 1e6)));
        double y2 = StrictMath.log10(StrictMath.log10(z(secondM2PerS * 1e6)));
        double x1 = StrictMath.log10(Require.positive(firstK, "first temperature", "K"));
        double x2 = StrictMath.log10(Require.positive(secondK, "second temperature", "K"));
        double slope = (y1 - y2) / (x2 - x1);
        return new Walther(y1 + slope * x1, slope);
    }

    /** Kinematic viscosity at {@code temperatureK}, m²/s. */
    public double viscosityM2PerS(double temperatureK) {
        Require.positive(temperatureK, "temperature", "K");
        double z = StrictMath.pow(10, StrictMath.pow(10, a - b * StrictMath.log10(temperatureK)));
        double mm2PerS = z - 0.7;
        // Z(v) - v falls from 0.93 to 0.7 with a slope well under 1, so this settles in a few rounds.
        for (int i = 0; i < 60; i++) {
            double next = z - 0.7 - lowViscosityTerm(mm2PerS);
            if (Math.abs(next - mm2PerS) <= 1e-15 * z) {
                break;
            }
            mm2PerS = next;
        }
        return mm2PerS * 1e-6;
    }

    private static double z(double mm2PerS) {
        Require.within(mm2PerS, 0.21, 2e7, "viscosity", "mm2/s");
        return mm2PerS + 0.7 + lowViscosityTerm(mm2PerS);
    }

    private static double lowViscosityTerm(double mm2PerS) {
        return StrictMath.exp(-1.47 - 1.84 * mm2PerS - 0.51 * mm2PerS * mm2PerS);
    }
}
