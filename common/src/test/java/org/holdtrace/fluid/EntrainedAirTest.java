package org.holdtrace.fluid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class EntrainedAirTest {
    private static final double E_L = 1.5e9;

    @Test
    void mixtureModulusMatchesThePublishedForm() {
        // EF-01: formula verified in a physical-modelling manual (air as a share of the liquid, 0.5 %); EF-02: as a
        // volume balance the two forms agree to 0.5 %.
        double fraction = 0.005 / 1.005;
        double[][] adiabatic = {
            {0, 0.0279836e9}, {1e6, 0.796538e9}, {5e6, 1.41032e9}, {10e6, 1.47113e9}, {20e6, 1.49109e9}
        };
        for (double[] point : adiabatic) {
            double tolerance =
                    point[0] == 20e6 ? 0.015 : 0.0075; // the published form leaves out p/E_l: 1.3 % at 20 MPa
            assertEquals(
                    point[1], new EntrainedAir(fraction, 1.4).mixtureModulusPa(E_L, point[0]), tolerance * point[1]);
        }
        double[][] isothermal = {{0, 0.0200948e9}, {1e6, 0.922629e9}, {5e6, 1.45758e9}, {10e6, 1.48899e9}};
        for (double[] point : isothermal) {
            assertEquals(point[1], new EntrainedAir(fraction, 1.0).mixtureModulusPa(E_L, point[0]), 0.0075 * point[1]);
        }
        assertEquals(1.40562e9, new EntrainedAir(fraction, 1.4).mixtureModulusPa(E_L, 5e6), 0.00001e9); // EF-02
    }

    @Test
    void airAddsToThePumpedVolume() {
        // EF-03, computed: 1 L from 0 to 100 bar, 1 % of it air.
        double liquid = 0.99 * 100e5 / E_L;
        EntrainedAir slow = new EntrainedAir(0.01, 1.0);
        EntrainedAir fast = new EntrainedAir(0.01, 1.4);
        assertEquals(16.4997e-3, liquid + 0.01 - slow.volumeFraction(100e5), 5e-8);
        assertEquals(16.2264e-3, liquid + 0.01 - fast.volumeFraction(100e5), 5e-8);
    }

    @Test
    void complianceIsTheSlopeOfVolume() {
        EntrainedAir air = new EntrainedAir(0.01, 1.2);
        for (double p : new double[] {0, 1e5, 3e6, 2e7}) {
            double step = 10;
            double slope = (air.volumeFraction(p) - air.volumeFraction(p + step)) / step;
            assertEquals(slope, air.compliancePerPa(p + step / 2), 1e-5 * air.compliancePerPa(p) + 1e-18);
        }
    }

    @Test
    void impossibleAirIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new EntrainedAir(Double.NaN, 1));
        assertThrows(IllegalArgumentException.class, () -> new EntrainedAir(0.01, 1.7));
    }
}
