package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdtrace.leak.CylinderDrift;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Limits against the numbers of shared reference AC-20 to AC-40, each read in documents that quote the standard. */
class StandardLimitsTest {
    private static double cm3PerMin(String text) {
        return LimitText.parse(text).m3PerS() * 6e7;
    }

    /** JB/T 10205-2000 table, bore in mm and cm³/min (AC-40), and the drift it means: area arithmetic by hand. */
    @ParameterizedTest
    @CsvSource({"40, 0.03, 0.0239", "63, 0.08, 0.0257", "100, 0.20, 0.0255", "160, 0.50, 0.0249", "250, 1.10, 0.0224"})
    void cylindersByBoreAndTheDriftTheyMayHave(double boreMm, double allowed, double mmPerMin) {
        String limit = "JB/T 10205, bore " + boreMm + " mm";
        assertEquals(allowed, cm3PerMin(limit), 1e-9);
        assertEquals(2 * allowed, cm3PerMin(limit + ", combination seal"), 1e-9);
        double speed =
                CylinderDrift.speedMPerS(LimitText.parse(limit).m3PerS(), CylinderDrift.pistonAreaM2(boreMm * 1e-3));
        assertEquals(mmPerMin, speed * 6e4, 0.00005);
    }

    @Test
    void aBoreBetweenTwoOfTheTableTakesTheSmallerLimit() {
        assertEquals(0.08, cm3PerMin("JB/T 10205, bore 70 mm"), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> LimitText.parse("JB/T 10205, bore 30 mm"));
        assertThrows(IllegalArgumentException.class, () -> LimitText.parse("JB/T 10205, bore 300 mm"));
    }

    /** ISO 5208, liquid, DN 25 (AC-20). */
    @ParameterizedTest
    @CsvSource({
        "AA, 0.0090",
        "B, 0.0150",
        "C, 0.0450",
        "CC, 0.1200",
        "D, 0.1500",
        "E, 0.4500",
        "EE, 0.5850",
        "F, 1.500",
        "G, 3.000"
    })
    void closureTestRatesByNominalSize(String rate, double allowed) {
        assertEquals(allowed, cm3PerMin("ISO 5208 rate " + rate + ", DN 25"), 1e-9);
    }

    /** API 598: NPS 8 takes 16 drops, 1.00 cm³ a minute (AC-22, AC-23); metal checks 3 cm³/min an inch. */
    @Test
    void metalSeatsByDrops() {
        assertEquals(1.0, cm3PerMin("API 598 metal seat, NPS 8"), 1e-9);
        assertEquals(6.0, cm3PerMin("API 598 metal check, NPS 2"), 1e-9);
        assertThrows(IllegalArgumentException.class, () -> LimitText.parse("API 598 metal seat, NPS 2"));
    }

    /** FCI 70-2 class V: 1 in, 1000 psi, 0.500 cm³/min; the SI form gives 0.52538 (AC-24). IV is 0.01 % of capacity. */
    @Test
    void controlValveClasses() {
        assertEquals(0.5, cm3PerMin("FCI 70-2 class V, port 1 in, 1000 psi"), 1e-9);
        assertEquals(0.52538, cm3PerMin("IEC 60534-4 class V, port 25.4 mm, 1000 psi"), 0.0003);
        assertEquals(6.0, cm3PerMin("FCI 70-2 class IV, capacity 60 l/min"), 1e-9);
        assertEquals(60.0, cm3PerMin("FCI 70-2 class III, capacity 60 l/min"), 1e-9);
        assertEquals(300.0, cm3PerMin("FCI 70-2 class II, capacity 60 l/min"), 1e-9);
    }

    @Test
    void whatComesFromMemorySaysSo() {
        assertEquals(
                Limit.Basis.STANDARD_FROM_MEMORY,
                LimitText.parse("MSS SP-61, NPS 1").basis());
        assertEquals(
                Limit.Basis.STANDARD_FROM_MEMORY,
                LimitText.parse("IEC 60534-4 class V, port 20 mm, 100 bar").basis());
        assertEquals(
                Limit.Basis.STANDARD, LimitText.parse("JB/T 10205, bore 80 mm").basis());
        assertTrue(LimitText.parse("JB/T 10205, bore 80 mm").source().contains("clause from memory"));
    }

    @Test
    void theMakersFigureMayStateItsConditions() {
        Limit limit = LimitText.parse("15 cm3/min at 120 bar, 40 degC");
        assertEquals(15.0 / 6e7, limit.m3PerS(), 1e-15);
        assertEquals(120e5, limit.atPa().orElseThrow(), 1e-6);
        assertEquals(313.15, limit.atTemperatureK().orElseThrow(), 1e-9);
        assertEquals(Limit.Basis.MAKER, limit.basis());
        assertTrue(LimitText.parse("0.5 ml/min").atPa().isEmpty());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "tight",
                "ISO 5208 rate X, DN 10",
                "ISO 5208 rate A, DN 10",
                "ISO 9000 rate B, DN 10",
                "API 598 resilient seat, NPS 1",
                "FCI 70-2 class VI, port 20 mm, 3 bar",
                "FCI 70-3 class V, port 20 mm, 100 bar",
                "MSS SP-44, NPS 1",
                "15 bar",
                "15 cm3/min at 3 cm3",
                "15 cm3/min at 120 bar, 40 degC, 3 s",
                "0 cm3/min",
                "15 ± 2 cm3/min",
                "JB/T 10205"
            })
    void whatIsNoLimitIsRefusedWithAReason(String text) {
        String message = assertThrows(IllegalArgumentException.class, () -> LimitText.parse(text))
                .getMessage();
        assertTrue(message != null && message.length() > 10, message);
    }
}
