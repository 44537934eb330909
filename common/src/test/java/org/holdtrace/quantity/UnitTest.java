package org.holdtrace.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class UnitTest {
    private static double si(Dimension dimension, double value, String unit) {
        return Unit.of(dimension, unit).toSi(value);
    }

    @Test
    void pressureUnitsFollowTheirDefinitions() {
        // UN-01: 1 lbf = 4.4482216152605 N, 1 in = 0.0254 m, 1 psi = 6894.757293168361 Pa. NIST SP 811 (2008) App. B.8,
        // read via unit libraries quoting it [verified]
        assertEquals(6894.757293168361, si(Dimension.PRESSURE, 1, "psi"), 1e-12);
        assertEquals(4.4482216152605 / (0.0254 * 0.0254), si(Dimension.PRESSURE, 1, "psi"), 1e-11);
        // UN-02: 1 bar = 1e5 Pa exactly [verified] = 14.503773773 psi; 1 MPa = 145.03773773 psi [calc]
        assertEquals(1e5, si(Dimension.PRESSURE, 1, "bar"));
        assertEquals(14.503773773, Unit.PSI.fromSi(si(Dimension.PRESSURE, 1, "bar")), 5e-10);
        assertEquals(145.03773773, Unit.PSI.fromSi(si(Dimension.PRESSURE, 1, "MPa")), 5e-9);
        assertEquals(1e3, si(Dimension.PRESSURE, 1, "kPa"));
        assertEquals(1e9, si(Dimension.PRESSURE, 1, "GPa"));
        assertEquals(1, si(Dimension.PRESSURE, 1, "Pa"));
    }

    @Test
    void volumeAndFlowUnitsFollowTheirDefinitions() {
        // UN-03: 1 in³ = 16.387064 mL, 1 US gal = 231 in³ = 3.785411784 L exactly (NIST SP 811) [verified], numbers
        // calc
        assertEquals(16.387064, Unit.ML.fromSi(si(Dimension.VOLUME, 1, "in3")), 1e-12);
        assertEquals(3.785411784, Unit.L.fromSi(si(Dimension.VOLUME, 231, "in³")), 1e-12);
        assertEquals(si(Dimension.VOLUME, 231, "in3"), si(Dimension.VOLUME, 1, "gal"), 1e-17);
        // As they stand on gauges and syringes; 1 cc = 1 cm³, common practice, no source
        assertEquals(Unit.CM3, Unit.of(Dimension.VOLUME, "cc"));
        assertEquals(1e-6 / 60, si(Dimension.FLOW, 1, "cc/min"), 1e-22);
        assertEquals(Unit.PSI, Unit.of(Dimension.PRESSURE, "PSI"));
        // UN-04: 1 US gpm = 6.309020e-5 m³/s = 3.785411784 L/min; 1 in³/min = 16.387064 mL/min [calc]
        assertEquals(6.309020e-5, si(Dimension.FLOW, 1, "gpm"), 5e-12);
        assertEquals(3.785411784, Unit.of(Dimension.FLOW, "L/min").fromSi(si(Dimension.FLOW, 1, "gpm")), 1e-12);
        assertEquals(16.387064, Unit.of(Dimension.FLOW, "mL/min").fromSi(si(Dimension.FLOW, 1, "in3/min")), 1e-12);
        assertEquals(1 / 3.6e6, si(Dimension.FLOW, 1, "l/h"), 1e-21);
        // 1 cm³/bar = 1e-6 m³ / 1e5 Pa by definition
        assertEquals(1e-11, si(Dimension.COMPLIANCE, 1, "cm3/bar"), 1e-26);
        assertEquals(1e-11, si(Dimension.COMPLIANCE, 1, "ml/bar"), 1e-26);
        assertEquals(1.6387064e-5 / 6894.757293168361, si(Dimension.COMPLIANCE, 1, "in3/psi"), 1e-23);
    }

    @Test
    void temperatureHasAnOffsetAndItsDifferenceHasNone() {
        // UN-07: t/°C = (t/°F − 32)/1.8; T/K = t/°C + 273.15; 1 °F interval = 1/1.8 K [verified]
        assertEquals(273.15, si(Dimension.TEMPERATURE, 0, "degC"), 1e-12);
        assertEquals(273.15, si(Dimension.TEMPERATURE, 32, "degF"), 1e-12);
        assertEquals(373.15, si(Dimension.TEMPERATURE, 212, "°F"), 1e-12);
        assertEquals(1 / 1.8, Unit.DEG_F.differenceToSi(1), 1e-15);
        assertEquals(212, Unit.DEG_F.fromSi(373.15), 1e-11);
    }

    @Test
    void viscosityAndTimeAndFraction() {
        // UN-06: 1 cSt = 1e-6 m²/s exactly [memory]
        assertEquals(46e-6, si(Dimension.VISCOSITY, 46, "cSt"));
        assertEquals(46e-6, si(Dimension.VISCOSITY, 46, "mm2/s"));
        assertEquals(0.25, si(Dimension.TIME, 250, "ms"));
        assertEquals(5400, si(Dimension.TIME, 1.5, "h"));
        assertEquals(0.005, si(Dimension.FRACTION, 0.5, "%"));
    }

    @Test
    void aWrongUnitIsNamedWithWhatWouldBeRight() {
        assertEquals(
                "unknown unit \"cm4\"; expected \"cm3\"? (a unit of volume: cm3, ml, l, mm3, m3, in3 or gal)",
                message(Dimension.VOLUME, "cm4"));
        assertEquals(
                "unknown unit \"cm3/mim\"; expected \"cm3/min\"? (a unit of flow: cm3/min, ml/min, l/min, l/h, in3/min,"
                        + " gpm or m3/s)",
                message(Dimension.FLOW, "cm3/mim"));
        assertEquals(
                "\"bar\" is a unit of pressure; expected a unit of volume: cm3, ml, l, mm3, m3, in3 or gal",
                message(Dimension.VOLUME, "bar"));
        assertEquals(
                "unknown unit \"furlong\"; expected a unit of pressure: bar, psi, kPa, MPa, Pa or GPa",
                message(Dimension.PRESSURE, "furlong"));
    }

    private static String message(Dimension dimension, String name) {
        return assertThrows(IllegalArgumentException.class, () -> Unit.of(dimension, name))
                .getMessage();
    }
}
