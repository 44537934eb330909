package org.holdtrace.wording;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Locale;
import org.junit.jupiter.api.Test;

class FiguresTest {
    @Test
    void anIntervalIsGivenTwoDigitsOfItsHalfWidth() {
        // GUM (JCGM 100:2008) 7.2.6: at most two significant digits for an uncertainty; from memory, not looked up
        assertEquals(2, Figures.decimalsFor(7.31, 8.79));
        assertEquals(1, Figures.decimalsFor(10, 16));
        assertEquals(0, Figures.decimalsFor(100, 190));
        assertEquals(0, Figures.decimalsFor(1000, 5000));
        assertEquals(4, Figures.decimalsFor(0.0098, 0.0148));
        assertEquals(6, Figures.decimalsFor(0, 1e-9));
        assertEquals(2, Figures.decimalsFor(3, 3));
        assertEquals(2, Figures.decimalsFor(Double.NaN, 3));
    }

    @Test
    void numbersArePrintedPlainlyWhateverTheMachinesLanguage() {
        Locale before = Locale.getDefault();
        Locale.setDefault(Locale.GERMANY);
        try {
            assertEquals("1234.50", Figures.fixed(1234.5, 2));
            assertEquals("0.00", Figures.fixed(-0.0001, 2));
            assertEquals("-0.01", Figures.fixed(-0.01, 2));
            assertEquals("0.00001", Figures.significant(1e-5, 3));
            assertEquals("120", Figures.significant(120.0, 4));
            assertEquals("1235000", Figures.significant(1234567, 4));
        } finally {
            Locale.setDefault(before);
        }
    }

    @Test
    void whatIsNotANumberIsSaidToBeUnknown() {
        assertEquals("unknown", Figures.fixed(Double.NaN, 2));
        assertEquals("unknown", Figures.significant(Double.POSITIVE_INFINITY, 2));
    }

    @Test
    void unitsAreConvertedAtTheEdge() {
        // 1 bar = 1e5 Pa, 0 degC = 273.15 K (NIST SP 811, appendix B); the others follow by arithmetic
        assertEquals(15, Figures.cm3PerMin(15e-6 / 60), 1e-12);
        assertEquals(120, Figures.bar(12e6), 1e-12);
        assertEquals(0.009, Figures.cm3PerBar(0.009e-6 / 1e5), 1e-15);
        assertEquals(22, Figures.degC(295.15), 1e-12);
    }

    @Test
    void sixDigitsAreKeptAndNoMore() {
        assertEquals(0.123457, Figures.sixDigits(0.12345678));
        assertEquals(-123457, Figures.sixDigits(-123456.78));
        assertEquals(0, Figures.sixDigits(0));
        assertEquals(Double.NaN, Figures.sixDigits(Double.NaN));
    }

    @Test
    void aProbabilityNeverClaimsToBeNothingOrCertain() {
        assertEquals("below 0.1 %", Figures.percent(0));
        assertEquals("above 99.9 %", Figures.percent(1));
        assertEquals("2.5 %", Figures.percent(0.025));
        assertEquals("61 %", Figures.percent(0.61));
        assertEquals("97.5 %", Figures.percent(0.975));
    }
}
