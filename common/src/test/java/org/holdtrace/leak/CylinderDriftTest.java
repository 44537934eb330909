package org.holdtrace.leak;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class CylinderDriftTest {
    private static final double ML_PER_MIN = 1e-6 / 60;
    private static final double MM_PER_MIN = 1e-3 / 60;

    @Test
    void driftIsLeakOverArea() {
        // C-09, computed.
        double area = CylinderDrift.pistonAreaM2(0.100);
        assertEquals(7853.98e-6, area, 5e-9);
        double speed = CylinderDrift.speedMPerS(0.20 * ML_PER_MIN, area);
        assertEquals(0.025465 * MM_PER_MIN, speed, 5e-7 * MM_PER_MIN);
        assertEquals(1.5279e-3 / 3600, speed, 5e-8 / 3600);
        assertEquals(0.20 * ML_PER_MIN, CylinderDrift.leakM3PerS(speed, area), 1e-20);
    }

    @Test
    void theStandardsLimitsAllAllowAboutTheSameDrift() {
        // AC-40: JB/T 10205-2000 table, verified in an inspection table; drift computed.
        double[][] boreMmLeakDrift = {
            {40, 0.03, 0.0239}, {63, 0.08, 0.0257}, {100, 0.20, 0.0255}, {160, 0.50, 0.0249}, {250, 1.10, 0.0224}
        };
        for (double[] row : boreMmLeakDrift) {
            double drift = CylinderDrift.speedMPerS(row[1] * ML_PER_MIN, CylinderDrift.pistonAreaM2(row[0] * 1e-3));
            assertEquals(row[2] * MM_PER_MIN, drift, 5e-5 * MM_PER_MIN);
        }
    }

    @Test
    void theRodTakesItsArea() {
        // Hand calculation: pi/4 (100^2 - 60^2) mm2 = 5026.55 mm2.
        assertEquals(5026.55e-6, CylinderDrift.annulusAreaM2(0.100, 0.060), 5e-9);
        assertThrows(IllegalArgumentException.class, () -> CylinderDrift.annulusAreaM2(0.060, 0.100));
        assertThrows(IllegalArgumentException.class, () -> CylinderDrift.pistonAreaM2(Double.NaN));
    }
}
