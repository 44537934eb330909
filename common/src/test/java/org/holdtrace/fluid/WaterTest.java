package org.holdtrace.fluid;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** The relations between moduli, tried on water. */
class WaterTest {
    @Test
    void waterItselfMatchesItsVerificationTable() {
        // WA-01: IAPWS R7-97(2012) Table 5, verified in several test suites.
        WaterRegion1 low = new WaterRegion1(300, 3e6);
        assertEquals(0.100215168e-2, low.volumeM3PerKg, 5e-12);
        assertEquals(4.17301218e3, low.specificHeat, 5e-6);
        assertEquals(1507.73921, low.soundMPerS, 5e-6);
        assertEquals(0.971180894e-3, new WaterRegion1(300, 80e6).volumeM3PerKg, 5e-13);
        assertEquals(0.120241800e-2, new WaterRegion1(500, 3e6).volumeM3PerKg, 5e-12);
    }

    @Test
    void isothermalFollowsFromIsentropicOnWater() {
        // WA-02, computed from the verified values with an open implementation.
        WaterRegion1 w = new WaterRegion1(300, 3e6);
        double density = 1 / w.volumeM3PerKg;
        double isentropic = BulkModulus.fromSoundSpeedPa(density, w.soundMPerS);
        assertEquals(2.26840e9, isentropic, 5e3);
        double isothermal = BulkModulus.isothermalPa(isentropic, w.expansionPerK, 300, density, w.specificHeat);
        assertEquals(2240.233e6, isothermal, 1e3);
        assertEquals(w.isothermalPa, isothermal, 1);
        assertEquals(1.0125717, isentropic / isothermal, 2e-7);
    }

    @Test
    void moduliOfWaterAtTwentyDegreesAreMet() {
        // WA-03, computed with an open implementation.
        WaterRegion1 atmosphere = new WaterRegion1(293.15, 0.101325e6);
        assertEquals(998.2061, 1 / atmosphere.volumeM3PerKg, 5e-5);
        assertEquals(2182.2e6, atmosphere.isothermalPa, 0.05e6);
        assertEquals(2.0661e-4, atmosphere.expansionPerK, 5e-9);
        WaterRegion1 high = new WaterRegion1(293.15, 20e6);
        assertEquals(2291.8e6, high.isothermalPa, 0.05e6);
        assertEquals(
                2312.6e6,
                BulkModulus.isentropicPa(
                        high.isothermalPa, high.expansionPerK, 293.15, 1 / high.volumeM3PerKg, high.specificHeat),
                0.06e6);
    }

    @Test
    void tangentFollowsFromSecantOnWater() {
        // BM-01 with secants of WA's water taken by difference: no formula of ours on the expected side.
        double zero = 0.101325e6;
        double p = 20e6 - zero;
        double secant = secantPa(zero, 20e6);
        assertEquals(2246.18e6, secant, 0.01e6); // WA-03
        double slope = (secantPa(zero, 20.1e6) - secantPa(zero, 19.9e6)) / 0.2e6;
        assertEquals(new WaterRegion1(293.15, 20e6).isothermalPa, BulkModulus.tangentPa(secant, p, slope), 2e3);
    }

    private static double secantPa(double fromPa, double toPa) {
        double v0 = new WaterRegion1(293.15, fromPa).volumeM3PerKg;
        double v1 = new WaterRegion1(293.15, toPa).volumeM3PerKg;
        return (toPa - fromPa) * v0 / (v0 - v1);
    }
}
