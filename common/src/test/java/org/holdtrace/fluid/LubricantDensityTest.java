package org.holdtrace.fluid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class LubricantDensityTest {
    @Test
    void volumeCorrectionMatchesTheTables() {
        // TH-01: ISO 91-1 / ASTM D1250-80 Table 54D, verified in open implementations; numbers computed.
        LubricantDensity d = new LubricantDensity(870);
        assertEquals(7.216092e-4, d.expansionAt15PerK(), 5e-11);
        assertEquals(0.996388, d.volumeCorrection(293.15), 5e-7);
        assertEquals(0.981866, d.volumeCorrection(313.15), 5e-7);
        assertEquals(0.978218, d.volumeCorrection(318.15), 5e-7);
        assertEquals(0.967233, d.volumeCorrection(333.15), 5e-7);
        assertEquals(854.223, d.atKgPerM3(313.15), 5e-4); // VI-10
        assertEquals(0.981437, new LubricantDensity(850).volumeCorrection(313.15), 5e-7);
        assertEquals(7.385882e-4, new LubricantDensity(850).expansionAt15PerK(), 5e-11);
        assertEquals(0.982473, new LubricantDensity(900).volumeCorrection(313.15), 5e-7);
        assertEquals(6.975556e-4, new LubricantDensity(900).expansionAt15PerK(), 5e-11);
    }

    @Test
    void theConstantAgreesWithTheFormInFahrenheit() {
        // TH-02: 0.34878 x 1.8, verified in an open API MPMS 11.1 formula note.
        assertEquals(0.34878 * 1.8, new LubricantDensity(870).expansionAt15PerK() * 870, 5e-6);
    }

    @Test
    void expansionGrowsWithTemperature() {
        // TH-03: form verified in a flow computer's source; numbers computed.
        LubricantDensity d = new LubricantDensity(870);
        assertEquals(7.25775e-4, d.expansionPerK(293.15), 5e-10);
        assertEquals(7.42438e-4, d.expansionPerK(313.15), 5e-10);
        assertEquals(7.59101e-4, d.expansionPerK(333.15), 5e-10);
    }

    @Test
    void densityOutsideTheTableIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new LubricantDensity(0.87));
        assertThrows(IllegalArgumentException.class, () -> new LubricantDensity(Double.NaN));
    }
}
