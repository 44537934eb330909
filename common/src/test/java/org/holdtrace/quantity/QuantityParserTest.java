package org.holdtrace.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class QuantityParserTest {
    private static void assertReads(double value, double uncertainty, String text, Dimension dimension) {
        Quantity read = QuantityParser.parse(text, dimension);
        assertEquals(value, read.value(), Math.abs(value) * 1e-15, text);
        assertEquals(uncertainty, read.standardUncertainty(), uncertainty * 1e-14, text);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "48 ± 5 cm3",
                "48 +/- 5 cm3",
                "48±5cm3",
                "48 ± 5 cm³",
                "48 ± 5 ml",
                "0.048 ± 0.005 L",
                "4.8e1 ± .5E+1 cm3",
                "48 cm3 ± 5 cm3",
                "48 cm3 ± 0.005 l",
                "  48\t±\u00a05 cm3 "
            })
    void oneVolumeWrittenManyWaysIsOneQuantity(String text) {
        assertReads(48e-6, 5e-6, text, Dimension.VOLUME);
    }

    @Test
    void aPercentageBehindTheUnitIsOfTheValue() {
        assertReads(48e-6, 4.8e-6, "48 cm3 ± 10 %", Dimension.VOLUME);
        assertReads(48e-6, 4.8e-6, "48cm3+/-10%", Dimension.VOLUME);
        assertReads(-1e5, 1e4, "-1 bar ± 10 %", Dimension.PRESSURE);
        assertReads(0.005, 0.003, "0.5 % ± 60 %", Dimension.FRACTION);
        assertReads(0.005, 0.003, "0.5 ± 0.3 %", Dimension.FRACTION);
        assertReads(0.005, 0.003, "0.005 ± 0.003", Dimension.FRACTION);
    }

    @Test
    void withoutAnUncertaintyAQuantityIsExact() {
        assertReads(48e-6, 0, "48 cm3", Dimension.VOLUME);
        assertReads(1.42e9, 0, "1.42e9 Pa", Dimension.PRESSURE);
        assertReads(2.5e-7, 0, "15 cm3/min", Dimension.FLOW);
        assertEquals(48e-6, QuantityParser.parse("48 cm3", Dimension.VOLUME).value(), "rounded once");
    }

    @Test
    void theUncertaintyOfATemperatureIsADifference() {
        assertReads(295.15, 2, "22 ± 2 degC", Dimension.TEMPERATURE);
        assertReads(258.15, 2, "−15 ± 2 °C", Dimension.TEMPERATURE);
        assertReads(295.15, 2, "71.6 ± 3.6 degF", Dimension.TEMPERATURE);
        assertReads(300, 3, "300 K ± 1 %", Dimension.TEMPERATURE);
    }

    @Test
    void whatCannotBeReadSaysWhatWasFoundAndWhatWasExpected() {
        assertRefused(
                "\"48\": no unit; expected a unit of volume: cm3, ml, l, mm3, m3, in3 or gal, as in \"48 ± 5 cm3\"",
                "48");
        assertRefused("\"48,5 cm3\": a comma in a number; expected a decimal point, as in \"48 ± 5 cm3\"", "48,5 cm3");
        assertRefused(
                "\"48 ± 10 %\": a percentage before the unit; expected the percentage behind it, as in \"48 cm3 ± 10 %\"",
                "48 ± 10 %");
        assertRefused(
                "\"48 ± 5 cmm3\": unknown unit \"cmm3\"; expected \"cm3\"? (a unit of volume: cm3, ml, l, mm3, m3, in3 or"
                        + " gal)",
                "48 ± 5 cmm3");
        assertRefused(
                "\"48 cm3 ± 5\": an uncertainty with no unit; expected a unit or % behind it, as in \"48 ± 5 cm3\"",
                "48 cm3 ± 5");
        assertRefused(
                "\"48 ± -5 cm3\": a negative uncertainty; expected a standard uncertainty of at least 0",
                "48 ± -5 cm3");
        assertRefused(
                "\"48 ± 5 cm3 ± 10 %\": two uncertainties; expected one, as in \"48 ± 5 cm3\"", "48 ± 5 cm3 ± 10 %");
        assertRefused(
                "\"about 48 cm3\": \"about 48 cm3\" where a number belongs; expected a quantity such as \"48 ± 5 cm3\"",
                "about 48 cm3");
        assertRefused("\"\": nothing where a number belongs; expected a quantity such as \"48 ± 5 cm3\"", "");
        assertRefused(
                "\"48 ± cm3\": \"cm3\" where the standard uncertainty after ± belongs; expected a quantity such as"
                        + " \"48 ± 5 cm3\"",
                "48 ± cm3");
        assertRefused("\"1e400 cm3\": a number out of range; expected a quantity such as \"48 ± 5 cm3\"", "1e400 cm3");
        assertRefused(
                "\"NaN cm3\": \"NaN cm3\" where a number belongs; expected a quantity such as \"48 ± 5 cm3\"",
                "NaN cm3");
        assertEquals(
                "\"22 degC ± 10 %\": a percentage of a temperature in degC; expected the uncertainty in degrees, as in"
                        + " \"22 ± 2 degC\"",
                message("22 degC ± 10 %", Dimension.TEMPERATURE));
    }

    private static void assertRefused(String message, String text) {
        assertEquals(message, message(text, Dimension.VOLUME));
    }

    private static String message(String text, Dimension dimension) {
        return assertThrows(IllegalArgumentException.class, () -> QuantityParser.parse(text, dimension), text)
                .getMessage();
    }
}
