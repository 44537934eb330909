package org.holdtrace.line;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.holdtrace.fluid.BulkModulus;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.LubricantDensity;
import org.junit.jupiter.api.Test;

class LineTest {
    private static final double ML = 1e-6;
    private static final double ML_PER_MIN = 1e-6 / 60;
    private static final double BAR = 1e5;

    @Test
    void leakIsComplianceTimesPressureLoss() {
        // C-01 and C-02: definition, computed.
        double half = Compliance.ofVolumeM3PerPa(500 * ML, 1.40e9);
        assertEquals(0.035714 * ML_PER_MIN, Compliance.leakM3PerS(half, -1.00 * BAR / 60), 5e-7 * ML_PER_MIN);
        double small = Compliance.ofVolumeM3PerPa(150 * ML, 1.30e9);
        assertEquals(0.0046154 * ML_PER_MIN, Compliance.leakM3PerS(small, -0.400 * BAR / 60), 5e-8 * ML_PER_MIN);
    }

    @Test
    void aMeasuredVolumeGivesTheModulus() {
        // C-03, computed.
        double modulus = Compliance.measuredModulusPa(100 * ML, 1.00 * ML, 86.7 * BAR);
        assertEquals(0.867e9, modulus, 1);
        assertEquals(0.011534 * ML / BAR, Compliance.ofVolumeM3PerPa(100 * ML, modulus), 5e-7 * ML / BAR);
    }

    @Test
    void decayTimesFollowFromCompliance() {
        // C-04 and C-05, computed.
        double c = Compliance.ofVolumeM3PerPa(100 * ML, 1.30e9);
        assertEquals(461.538, Compliance.laminarTimeConstantS(c, 1.66667e-16), 2e-3);
        assertEquals(923.077, Compliance.orificeEmptyingS(c, 5.27046e-13, 100 * BAR), 2e-3);
    }

    @Test
    void compliancesOfOilWallsAndBubblesAdd() {
        // EF-04: inputs verified in an engineering text's chapter abstract; sums computed, in psi.
        assertEquals(41_095.9, Compliance.effectiveModulusPa(3e6, 250_000, 500 / 0.01), 0.05);
        assertEquals(53_708.4, Compliance.effectiveModulusPa(3e6, 250_000, 700 / 0.01), 0.05);
    }

    @Test
    void tubesSwellAsLameSays() {
        // EF-05 and EF-06 (Lamé; Merritt 1967 from memory), EF-07 (verified in lecture notes), EF-08; computed.
        double[][] cases = {
            {8e-3, 12e-3, 35.5172e9, 36.5248e9, 51.500e9},
            {3e-3, 6e-3, 52.3729e9, 53.2759e9, 103.0e9},
            {80e-3, 100e-3, 21.2128e9, 22.0190e9, 25.750e9}
        };
        for (double[] c : cases) {
            Tube tube = Tube.ofSteel(c[0], c[1], 1);
            assertEquals(c[2], tube.openEndedModulusPa(), 5e4);
            assertEquals(c[3], tube.closedModulusPa(), 5e4);
            assertEquals(c[4], tube.thinWallModulusPa(), 5e5);
        }
        double oilInTube = Compliance.effectiveModulusPa(
                1.5e9, Tube.ofSteel(8e-3, 12e-3, 1).openEndedModulusPa());
        assertEquals(1.43922e9, oilInTube, 5e3);
    }

    @Test
    void pipesTakeWhatEn805AllowsForTheirSwellingAndTheWater() {
        // AC-01: EN 805:2000 A.27.4, equation of the allowed water loss, 1.2 V dp (1/E_W + D/(e E_R)), from memory, its
        // figures computed from it: steel 1000 m of 200 x 6.3 mm at E_R = 170 GPa, and 100 m of 100 x 4 mm at 210 GPa;
        // E_W = 2.1 GPa, a pressure drop of 20 kPa; 1.2 is the standard's allowance for air.
        double[][] cases = {{1000, 0.200, 6.3e-3, 170e9, 0.499839e-3}, {100, 0.100, 4e-3, 210e9, 0.0112200e-3}};
        for (double[] c : cases) {
            Tube pipe = new Tube(c[1], c[1] + 2 * c[2], c[0], c[3], 0.3);
            double modulus = Compliance.effectiveModulusPa(2.1e9, pipe.thinWallModulusPa());
            double lost = Compliance.ofVolumeM3PerPa(pipe.volumeM3(), modulus) * 20e3;
            assertEquals(c[4], 1.2 * lost, 1e-5 * c[4]);
        }
    }

    @Test
    void aHoseByItsStatedExpansionCanDominate() {
        // EF-09: 49 CFR 571.106 Table I (cells from memory): 0.66 cc per free foot of 1/8 in at 1000 psi.
        Hose hose = new Hose(3.175e-3, 1, 0.66 * ML / 0.3048, 68.948 * BAR);
        assertEquals(2.16535 * ML, hose.expansionM3PerM(), 5e-6 * ML);
        assertEquals(7.91730 * ML, hose.volumeM3(), 5e-6 * ML);
        assertEquals(25.2097e6, hose.apparentModulusPa(), 200); // the reference pressure is rounded
    }

    @Test
    void boresHoldWhatTheirSizeSays() {
        // EF-10, computed.
        assertEquals(28.2743 * ML, Tube.boreVolumeM3(6e-3, 1), 5e-5 * ML);
        assertEquals(31.6692 * ML, Tube.boreVolumeM3(6.35e-3, 1), 5e-5 * ML);
        assertEquals(50.2655 * ML, Tube.boreVolumeM3(8e-3, 1), 5e-5 * ML);
    }

    @Test
    void trappedOilGainsAboutTenBarPerDegree() {
        // TH-04, computed from BM-03 and TH-03.
        LubricantDensity density = new LubricantDensity(870);
        double[][] cases = {{288.15, 1.0588e6}, {293.15, 1.0346e6}, {313.15, 0.9429e6}};
        for (double[] c : cases) {
            double modulus = BulkModulus.petroleumLiquidPa(870, c[0]);
            assertEquals(c[1], ThermalSettling.rigidPaPerK(density.expansionPerK(c[0]), modulus), 50);
        }
        assertEquals(
                1.0073e6,
                ThermalSettling.walledPaPerK(
                        density.expansionPerK(288.15),
                        ThermalSettling.STEEL_EXPANSION_PER_K,
                        BulkModulus.petroleumLiquidPa(870, 288.15)),
                50);
        // TH-05: "about 11 bar per degree" (90 psi per degF), verified trade rule.
        assertEquals(11.1695e5, 1.0588e6, 0.1 * 1.0588e6);
    }

    @Test
    void coolingAfterFastCompressionTakesItsShare() {
        // TH-08, computed from BM-02.
        double isothermal = BulkModulus.isothermalPa(1.650e9, 7.0e-4, 313.15, 870, 1900);
        assertEquals(0.1328, ThermalSettling.settlingFraction(isothermal, 1.650e9), 5e-5);
    }

    @Test
    void widerBoresCoolMoreSlowly() {
        // TH-09: Carslaw and Jaeger 1959 §7.6 from memory; computed.
        double diffusivity = 0.13 / (860.0 * 1900);
        assertEquals(7.9559e-8, diffusivity, 5e-13);
        double[][] cases = {{2e-3, 8.694}, {4e-3, 34.77}, {20e-3, 869.4}, {50e-3, 5433.5}};
        for (double[] c : cases) {
            assertEquals(c[1], ThermalSettling.boreTimeConstantS(c[0], diffusivity), 2e-4 * c[1]);
        }
    }

    @Test
    void coolingFeignsALeak() {
        // TH-10, computed.
        double feigned = ThermalSettling.feignedLeakM3PerS(150 * ML, 7.4e-4, -0.10 / 60);
        assertEquals(0.011100 * ML_PER_MIN, feigned, 5e-7 * ML_PER_MIN);
        double rate = -feigned / Compliance.ofVolumeM3PerPa(150 * ML, 1.30e9);
        assertEquals(-0.962 * BAR / 60, rate, 5e-4 * BAR / 60);
    }

    @Test
    void complianceOfALineIsTheSumOfItsParts() {
        // Hand calculation: 100 mL at 1.30 GPa (C-04), 0.01 mL/bar of hose; air of 1 % at atmosphere adds V f/p_a.
        double noAir = Compliance.isothermalM3PerPa(100 * ML, 1.30e9, EntrainedAir.none(), 0.01 * ML / BAR, 0);
        assertEquals(100 * ML / 1.30e9 + 0.01 * ML / BAR, noAir, 1e-20);
        double airy = Compliance.isothermalM3PerPa(100 * ML, 1.30e9, new EntrainedAir(0.01, 1), 0.01 * ML / BAR, 0);
        assertEquals(noAir + 1 * ML / 101_325 - 1 * ML / 1.30e9, airy, 1e-17);
    }

    @Test
    void impossibleShapesAreRefused() {
        assertThrows(IllegalArgumentException.class, () -> Tube.ofSteel(12e-3, 8e-3, 1));
        assertThrows(IllegalArgumentException.class, () -> new Hose(3e-3, Double.NaN, 1e-6, 1e7));
        assertThrows(IllegalArgumentException.class, () -> Compliance.ofVolumeM3PerPa(1e-4, 0));
    }
}
