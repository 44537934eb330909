package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTraceReaderErrorTest {
    private static String refusal(String csv) {
        byte[] bytes = csv.getBytes(StandardCharsets.UTF_8);
        return assertThrows(
                        InputException.class, () -> CsvTraceReader.read(new ByteArrayInputStream(bytes), "a.csv"), csv)
                .getMessage();
    }

    private static String row(String... rows) {
        return refusal("# comment\ntime [s],pressure [bar]\n0,1\n" + String.join("\n", rows) + "\n9,9\n");
    }

    @Test
    void aRowThatCannotBeReadIsNamedByItsLine() {
        assertEquals("a.csv, line 4: \"abc\" in column \"pressure [bar]\"; expected a number", row("1,abc"));
        assertEquals("a.csv, line 5: an empty cell in column \"pressure [bar]\"; expected a number", row("1,2", "2,"));
        assertEquals("a.csv, line 4: an empty cell in column \"time [s]\"; expected a number", row(",2"));
        assertEquals("a.csv, line 4: 1 cell; expected 2 cells, as in the header", row("1"));
        assertEquals(
                "a.csv, line 4: more cells than columns, \"5\" among them; expected 2 cells, as in the header; a decimal comma "
                        + "needs ; or a tab between the cells",
                row("1,2,5"));
        assertEquals(
                "a.csv, line 6: time goes back from 2.0 s to 1.5 s; expected time that never decreases",
                row("1,2", "2,2", "1.5,2"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "NaN",
                "nan",
                "Infinity",
                "-inf",
                "1e999",
                "0x10",
                "1f",
                "1e",
                "e5",
                ".",
                "--1",
                "1 000",
                "1.2.3",
                "１"
            })
    void whatIsNoPlainFiniteNumberIsRefused(String cell) {
        assertEquals(
                "a.csv, line 4: \"" + cell + "\" in column \"pressure [bar]\"; expected a number", row("1," + cell));
    }

    @Test
    void aDecimalCommaBesideACommaSeparatorIsRefused() {
        assertEquals("a.csv, line 4: \"1,5\" in column \"time [s]\"; expected a number", row("\"1,5\",2"));
        assertEquals(
                "a.csv, line 4: more cells than columns, \"2\" among them; expected 2 cells, as in the header; a decimal comma "
                        + "needs ; or a tab between the cells",
                row("1,5,2,5"));
    }

    @Test
    void whatNoTransducerCanReadIsRefusedWithAHintAtTheUnit() {
        assertEquals(
                "a.csv, line 4: \"1e308\" in column \"pressure [bar]\" is not possible; expected a pressure up to 10 000 "
                        + "bar; is the unit in the header right?",
                row("1,1e308"));
        assertEquals(
                "a.csv, line 2: \"-300\" in column \"oil temperature [degC]\" is not possible; expected a temperature "
                        + "above -273.15 degC and up to 700 degC; is the unit in the header right?",
                refusal("time [s],pressure [bar],oil temperature [degC]\n0,1,-300\n"));
    }

    @Test
    void zeroBytesThatAPowerCutLeavesAreNoNumbersAndAreNotShownAsTheyAre() {
        assertEquals(
                "a.csv, line 4: \"1\uFFFD\uFFFD\" in column \"pressure [bar]\"; expected a number", row("1,1\0\0"));
    }

    @Test
    void aHeaderThatIsNoTextIsShownWithoutItsControlCharacters() {
        assertEquals(
                "a.csv, line 1: no time column in \"\uFFFD\uFFFDab\"; expected a column \"time [s]\", in s, ms, min or "
                        + "UTC\na.csv, line 1: no pressure column in \"\uFFFD\uFFFDab\"; expected a column \"pressure [bar]\", "
                        + "in bar, psi, kPa, MPa or Pa",
                refusal("\u0001\u001bab\n1\n"));
    }

    @Test
    void commasAndPointsInOneFileAreNotGuessedAt() {
        assertEquals(
                "a.csv, line 3: \"1.234\" in column \"pressure [bar]\"; expected a decimal comma, as in the rows before",
                refusal("time [s];pressure [bar]\n0,5;1\n1;1.234\n"));
        assertEquals(
                "a.csv, line 2: \"1.234,5\" in column \"pressure [bar]\"; expected a number",
                refusal("time [s];pressure [bar]\n0;1.234,5\n"));
    }

    @Test
    void aMissingColumnIsNamedTogetherWithThoseFound() {
        assertEquals(
                "a.csv, line 1: no pressure column in \"time [s]\", \"presure [bar]\"; expected a column"
                        + " \"pressure [bar]\", in bar, psi, kPa, MPa or Pa (is \"presure\" meant to be it?)",
                refusal("time [s],presure [bar]\n0,1\n"));
        assertEquals(
                "a.csv, line 2: no time column in \"t [s]\", \"pressure [bar]\"; expected a column \"time [s]\", in s, ms,"
                        + " min or UTC",
                refusal("#\nt [s];pressure [bar]\n0;1\n"));
        assertEquals("""
                a.csv, line 1: no time column in "0", "1"; expected a column "time [s]", in s, ms, min or UTC
                a.csv, line 1: no pressure column in "0", "1"; expected a column "pressure [bar]", in bar, psi, kPa, MPa \
                or Pa""", refusal("0,1\n1,2\n"));
    }

    @Test
    void aWrongUnitIsNamedTogetherWithTheRightOnes() {
        assertEquals("""
                a.csv, line 1: column "time [sec]": unknown unit "sec"; expected a unit of time: s, ms, min or h, or \
                UTC for ISO 8601 instants
                a.csv, line 1: column "pressure [barg]": unknown unit "barg"; expected "bar"? (a unit of pressure: bar, \
                psi, kPa, MPa, Pa or GPa)""", refusal("time [sec],pressure [barg]\n0,1\n"));
        assertEquals(
                "a.csv, line 1: column \"pressure (bar)\": no unit in square brackets; expected \"pressure [bar]\", in bar,"
                        + " psi, kPa, MPa or Pa",
                refusal("time [s],pressure (bar)\n0,1\n"));
        assertEquals(
                "a.csv, line 1: column \"pressure\": no unit in square brackets; expected \"pressure [bar]\", in bar,"
                        + " psi, kPa, MPa or Pa",
                refusal("time [s],pressure\n0,1\n"));
        assertEquals(
                "a.csv, line 1: column \"oil temperature [bar]\": \"bar\" is a unit of pressure; expected a unit of"
                        + " temperature: degC, degF or K",
                refusal("time [s],pressure [bar],oil temperature [bar]\n0,1,2\n"));
        assertEquals(
                "a.csv, line 1: column \"pressure [psi]\": a second pressure column; expected one",
                refusal("time [s],pressure [bar],pressure [psi]\n0,1,2\n"));
    }

    @Test
    void anInstantThatIsNoneIsRefused() {
        for (String bad : new String[] {
            "2026-13-01T00:00:00Z", "2026-02-30T00:00:00Z", "2026-02-03", "12:00:00", "2026-02-03T24:00:00Z",
            "2026-02-03T10:00:60Z", "2026-02-03T10:00:00.Z", "2026-02-03T10:00:00+1", "2026-02-03T10:00:00Zulu", "17"
        }) {
            assertEquals(
                    "a.csv, line 2: \"" + bad + "\" in column \"time [UTC]\"; expected an ISO 8601 instant such as"
                            + " 2026-03-01T08:00:00.250Z",
                    refusal("time [UTC],pressure [bar]\n" + bad + ",1\n"));
        }
    }

    @Test
    void aFileWithNothingInItSaysSo() {
        String header = "a.csv: no header line; expected a line such as \"time [s],pressure [bar]\" and rows of numbers"
                + " below it";
        assertEquals(header, refusal(""));
        assertEquals(header, refusal("# only\n\n# comments\n"));
        assertEquals(
                "a.csv: a header line and nothing below it; expected rows of numbers",
                refusal("time [s],pressure [bar]\n# none\n"));
    }

    @Test
    void aQuoteThatIsNeverClosedIsRefusedWithItsLine() {
        String message = refusal("time [s],pressure [bar]\n0,1\n1,\"2\n2,3\n3,4\n");
        assertEquals("a.csv, line 3: \"2 2,3 3,4\" in column \"pressure [bar]\"; expected a number", message);
    }

    @Property
    void textThatIsNoTraceIsRefusedAndNeverBreaksTheReader(@ForAll String text) {
        assertTrue(refusal("x," + text).startsWith("a.csv"));
    }

    @Property(tries = 300)
    void rowsOfAnyTextGiveATraceOrAnErrorWithALine(@ForAll String rows) throws IOException {
        byte[] csv = ("time [s],pressure [bar]\n0,1\n" + rows).getBytes(StandardCharsets.UTF_8);
        try {
            assertTrue(CsvTraceReader.read(new ByteArrayInputStream(csv), "a.csv")
                            .trace()
                            .size()
                    >= 1);
        } catch (InputException e) {
            assertTrue(e.getMessage().startsWith("a.csv, line "), e.getMessage());
        }
    }
}
