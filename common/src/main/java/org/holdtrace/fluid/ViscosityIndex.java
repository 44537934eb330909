package org.holdtrace.fluid;

import org.holdtrace.quantity.Require;

/**
 * Viscosity index by ASTM D2270: how little an oil's viscosity changes with temperature. U is the viscosity at 40 °C
 * and Y at 100 °C, L and H those at 40 °C of oils of index 0 and 100 with the same Y; all in mm²/s.
 */
public final class ViscosityIndex {
    /**
     * L and H as polynomials of Y, piece by piece: from Y, then L's and H's coefficients of Y², Y and 1. The pieces
     * below 70 mm²/s are from memory of the standard's appendix, checked against its worked examples and for
     * continuity; the last is printed in the standard's text (there rounded).
     */
    private static final double[][] PIECES = {
        {2.0, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
        {3.8, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
        {4.4, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
        {5.0, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557},
        {6.4, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
        {7.0, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610},
        {7.7, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240},
        {9.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810},
        {12.0, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490},
        {15.0, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930},
        {18.0, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730},
        {22.0, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230},
        {28.0, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750},
        {40.0, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620},
        {55.0, 0.85921, 11.1009, -83.190, 0.17130, 11.3680, -76.940},
        {70.0, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947}
    };

    private ViscosityIndex() {}

    /** Viscosity at 40 °C of the oil of index 0, mm²/s, for a viscosity at 100 °C of at least 2 mm²/s. */
    public static double l(double atHundredMm2PerS) {
        return polynomial(atHundredMm2PerS, 1);
    }

    /** Viscosity at 40 °C of the oil of index 100, mm²/s, for a viscosity at 100 °C of at least 2 mm²/s. */
    public static double h(double atHundredMm2PerS) {
        return polynomial(atHundredMm2PerS, 4);
    }

    private static double polynomial(double y, int first) {
        Require.within(y, 2, 500, "viscosity at 100 degC", "mm2/s");
        int piece = PIECES.length - 1;
        while (PIECES[piece][0] > y) {
            piece--;
        }
        double[] c = PIECES[piece];
        return (c[first] * y + c[first + 1]) * y + c[first + 2];
    }

    /** Procedure A, for indices up to 100: {@code 100 (L - U) / (L - H)}. */
    public static double procedureA(double u, double l, double h) {
        return 100 * (l - u) / (l - h);
    }

    /** Procedure B, for indices of 100 and above: {@code (10^N - 1)/0.00715 + 100}, {@code N = (lg H - lg U)/lg Y}. */
    public static double procedureB(double u, double y, double h) {
        double n = (StrictMath.log10(h) - StrictMath.log10(u)) / StrictMath.log10(y);
        return (StrictMath.pow(10, n) - 1) / 0.00715 + 100;
    }

    /** The index of an oil of viscosity {@code u} at 40 °C and {@code y} at 100 °C, mm²/s. */
    public static double of(double u, double y) {
        Require.positive(u, "viscosity at 40 degC", "mm2/s");
        double h = h(y);
        return u >= h ? procedureA(u, l(y), h) : procedureB(u, y, h);
    }

    /**
     * Viscosity at 100 °C of an oil of viscosity {@code u} at 40 °C and this index, mm²/s. For oils of 8 mm²/s and
     * more at 40 °C.
     */
    public static double viscosityAtHundred(double u, double index) {
        Require.within(u, 8, 5000, "viscosity at 40 degC", "mm2/s");
        Require.within(index, 0, 400, "viscosity index", "");
        double low = 2;
        double high = Math.max(2, Math.min(500, u));
        for (int i = 0; i < 200; i++) {
            double mid = 0.5 * (low + high);
            if (of(u, mid) < index) {
                low = mid;
            } else {
                high = mid;
            }
        }
        return 0.5 * (low + high);
    }
}
