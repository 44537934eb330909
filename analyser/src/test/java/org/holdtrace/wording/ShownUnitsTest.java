package org.holdtrace.wording;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.holdtrace.quantity.QuantityException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShownUnitsTest {
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "bar | bar | cm³/min | cm³/bar | °C",
                "psi | psi | cm³/min | cm³/psi | °F",
                "in3 | bar | in³/min | in³/bar | °C",
                "psi, in3 | psi | in³/min | in³/psi | °F",
                "in³,psi | psi | in³/min | in³/psi | °F"
            })
    void flowAndComplianceFollowFromPressureAndVolume(
            String text, String pressure, String flow, String compliance, String temperature) {
        ShownUnits units = ShownUnits.parse(text);
        assertEquals(pressure, ShownUnits.name(units.pressure()));
        assertEquals(flow, ShownUnits.name(units.flow()));
        assertEquals(compliance, ShownUnits.name(units.compliance()));
        assertEquals(temperature, ShownUnits.name(units.temperature()));
    }

    /** NIST Special Publication 811 (2008), appendix B.8: 1 psi = 6.894 757 E+03 Pa; 1 in³ = 1.638 706 E-05 m³. */
    @Test
    void figuresAreThoseOfThePublishedFactors() {
        ShownUnits units = ShownUnits.parse("psi, in3");
        assertEquals("1740 psi", Phrases.pressure(120e5, units));
        assertEquals(100.0, units.pressure().fromSi(6.894757e5), 1e-5);
        assertEquals(60.0, units.flow().fromSi(1.638706e-5), 1e-4);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"kPa", "psi, bar", "in3, cm3", "psi in3", "''"})
    void anythingElseIsRefused(String text) {
        assertThrows(QuantityException.class, () -> ShownUnits.parse(text));
    }
}
