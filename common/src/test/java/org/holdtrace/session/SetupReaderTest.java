package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.holdtrace.quantity.Quantity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class SetupReaderTest {
    /** The example of the input contract, every field there is. */
    private static final String WHOLE = """
            {
              "machine": "Loader 7", "component": "Bucket valve", "componentKind": "spool valve port", "port": "A",
              "oil": { "grade": "ISO VG 46", "temperature": "22 ± 2 degC", "bulkModulus": "1.42 ± 0.05 GPa", "air": "0.5 ± 0.3 %" },
              "trappedVolume": "48 ± 5 cm3",
              "lineCompliance": "0.0090 ± 0.0005 cm3/bar",
              "pumpStroke": "0.45 ± 0.01 cm3",
              "bledVolume": "1.32 ± 0.02 cm3",
              "transducer": { "range": "0..250 bar", "accuracy": "0.25 %" },
              "referencePressure": "120 bar",
              "reliefSetting": "172 bar",
              "limit": "15 cm3/min"
            }
            """;

    private static TestSetup parse(String json) throws InputException {
        return SetupReader.parse(json.getBytes(StandardCharsets.UTF_8), "a.setup.json");
    }

    private static String refusal(String json) {
        return assertThrows(InputException.class, () -> parse(json), json).getMessage();
    }

    @Test
    void everyFieldOfTheContractIsRead() throws IOException {
        TestSetup expected = new TestSetup(
                Optional.of("Loader 7"),
                Optional.of("Bucket valve"),
                Optional.of("spool valve port"),
                Optional.of("A"),
                Optional.of("ISO VG 46"),
                quantity(295.15, 2),
                quantity(1.42e9, 5e7),
                quantity(0.005, 0.003),
                quantity(48e-6, 5e-6),
                quantity(9e-14, 5e-15),
                quantity(0.45e-6, 1e-8),
                quantity(1.32e-6, 2e-8),
                Optional.of(0.0),
                Optional.of(2.5e7),
                Optional.of(0.0025),
                quantity(1.2e7, 0),
                quantity(1.72e7, 0),
                quantity(2.5e-7, 0));
        assertEquals(expected, parse(WHOLE));
    }

    private static Optional<Quantity> quantity(double value, double uncertainty) {
        return Optional.of(new Quantity(value, uncertainty));
    }

    @Test
    void aByteOrderMarkAndWindowsLineEndsAreNoMatter() throws IOException {
        assertEquals(parse(WHOLE), parse("\uFEFF" + WHOLE.replace("\n", "\r\n")));
    }

    @Test
    void anEmptyObjectAndNullsAreASetupThatKnowsNothing() throws IOException {
        assertEquals(TestSetup.unknown(), parse("{}"));
        assertEquals(TestSetup.unknown(), parse("{ \"limit\": null, \"oil\": null, \"machine\": \" \" }"));
    }

    @Test
    void allProblemsOfAFileAreReportedAtOnceWithLineAndField() {
        assertEquals("""
                a.setup.json, line 2, column 3, field traped: unknown field "traped"; expected one of machine, component, \
                componentKind, port, oil, trappedVolume, lineCompliance, pumpStroke, bledVolume, transducer, \
                referencePressure, reliefSetting, limit
                a.setup.json, line 3, column 17, field pumpStroke: the bare number 0.45; expected text such as "0.45 ± 0.01 cm3"
                a.setup.json, line 4, column 12, field oil.grad: unknown field "grad"; expected "grade"?
                a.setup.json, line 4, column 41, field oil.air: "120 %" is not possible; expected a volume fraction from \
                0 to 30 %, such as "0.5 ± 0.3 %"
                a.setup.json, line 5, column 12, field limit: "15 cm3/mim": unknown unit "cm3/mim"; expected "cm3/min"? \
                (a unit of flow: cm3/min, ml/min, l/min, l/h, in3/min, gpm or m3/s)""", refusal("""
                        {
                          "traped": "48 cm3",
                          "pumpStroke": 0.45,
                          "oil": { "grad": "±±±± VG 46", "air": "120 %" },
                          "limit": "15 cm3/mim"
                        }"""));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "trapedVolume  | \"trappedVolume\"?",
                "TrappedVolume | \"trappedVolume\"?",
                "air           | \"air\" inside \"oil\"?",
                "bulkmodulus   | \"bulkModulus\" inside \"oil\"?",
                "accuracy      | \"accuracy\" inside \"transducer\"?",
                "pumpstorke    | \"pumpStroke\"?"
            })
    void anUnknownFieldSuggestsTheNearMatch(String name, String suggestion) {
        assertEquals(
                "a.setup.json, line 1, column 3, field " + name + ": unknown field \"" + name + "\"; expected "
                        + suggestion,
                refusal("{ \"" + name + "\": \"1\" }"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "trappedVolume | \"0 cm3\"  | \"0 cm3\" is not possible; expected a volume from 0.001 cm3 to 1000 m3, such as \"48 ± 5 cm3\"",
                "trappedVolume | \"-4 cm3\" | \"-4 cm3\" is not possible; expected a volume from 0.001 cm3 to 1000 m3, such as \"48 ± 5 cm3\"",
                "trappedVolume | \"1e30 cm3\" | \"1e30 cm3\" is not possible; expected a volume from 0.001 cm3 to 1000 m3, such as \"48 ± 5 cm3\"",
                "lineCompliance | \"0 cm3/bar\" | \"0 cm3/bar\" is not possible; expected a compliance above 0 and up to 1000 l/bar, such as \"0.0090 ± 0.0005 cm3/bar\"",
                "referencePressure | \"12 GPa\" | \"12 GPa\" is not possible; expected a pressure above 0 and up to 10 000 bar, such as \"120 bar\"",
                "pumpStroke | \"1 ± -1 cm3\" | \"1 ± -1 cm3\": a negative uncertainty; expected a standard uncertainty of at least 0",
                "limit         | [1]        | a list; expected text such as \"15 cm3/min\"",
                "limit         | true       | true; expected text such as \"15 cm3/min\"",
                "oil           | \"VG 46\"  | the text \"VG 46\"; expected an object with grade, temperature, bulkModulus, air",
                "machine       | 7          | the bare number 7; expected text such as \"Loader 7\"",
            })
    void aValueThatCannotBeIsNamedTogetherWithWhatCould(String field, String json, String message) {
        String line = refusal("{ \"" + field + "\":\n" + json + " }");
        assertEquals("a.setup.json, line 2, column 1, field " + field + ": " + message, line);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "oil.bulkModulus  | 1.42 MPa    | \"1.42 MPa\" is not possible; expected a modulus from 0.1 to 10 GPa, such as \"1.42 ± 0.05 GPa\"",
                "oil.temperature  | 295 degC    | \"295 degC\" is not possible; expected a temperature from -80 to 250 degC, such as \"22 ± 2 degC\"",
                "oil.grade        | ISO VG 45   | \"ISO VG 45\": 45 is no ISO 3448 grade; expected \"ISO VG 46\"?",
                "oil.grade        | thick       | \"thick\" is no viscosity grade; expected a grade such as \"ISO VG 46\"",
                "oil.grade        | 46 cSt at 40 degC | \"46 cSt at 40 degC\" is no viscosity grade; expected a grade such as \"ISO VG 46\"",
                "transducer.range | 250..0 bar  | \"250..0 bar\" ends at or below its start; expected the lower end first, such as \"0..250 bar\"",
                "transducer.range | 0-250 bar   | \"0-250 bar\" is no range; expected two ends and a unit, such as \"0..250 bar\"",
                "transducer.range | 0...250 bar | \"0...250 bar\" is no range; expected two ends and a unit, such as \"0..250 bar\"",
                "transducer.range | 0..250      | \"250\": no unit; expected a unit of pressure: bar, psi, kPa, MPa, Pa or GPa, as in \"120 ± 2 bar\"",
                "transducer.accuracy | 0 %      | \"0 %\" is not possible; expected a part of the span above 0 and up to 10 %, such as \"0.25 %\"",
                "transducer.accuracy | 0.25    | \"0.25\" is not possible; expected a part of the span above 0 and up to 10 %, such as \"0.25 %\"",
                "transducer.accuracy | 0.25 FS | \"0.25 FS\": unknown unit \"FS\"; expected a unit of fraction: %, or none for a plain number",
                "oil.air | 0.5    | \"0.5\" is not possible; expected a volume fraction from 0 to 30 %, such as \"0.5 ± 0.3 %\"",
                "transducer.accuracy | 0.25 ± 0.1 % | \"0.25 ± 0.1 %\" has an uncertainty; expected a value without one, such as \"0.25 %\"",
            })
    void aNestedValueThatCannotBeIsNamedTogetherWithWhatCould(String path, String value, String message) {
        String[] names = path.split("\\.", 2);
        String json = "{ \"" + names[0] + "\": { \"" + names[1] + "\":\n\"" + value + "\" } }";
        assertEquals("a.setup.json, line 2, column 1, field " + path + ": " + message, refusal(json));
    }

    @ParameterizedTest
    @ValueSource(strings = {"ISO VG 46", "VG46", "46", "ISO 46", "HLP 46", "ISO HM 68", "hvlp-32", "ISO-VG-100"})
    void commonWaysToWriteAGradeAreKeptAsWritten(String grade) throws IOException {
        assertEquals(
                Optional.of(grade),
                parse("{ \"oil\": { \"grade\": \" " + grade + " \" } }").oilGrade());
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.25 %", "0.25 % FS", "0.25 %FS", "0.25 % FSO", "0.25 % F.S.", "0.25 % of span"})
    void anAccuracyMayBeWrittenAsDataSheetsDo(String accuracy) throws IOException {
        assertEquals(
                Optional.of(0.0025),
                parse("{ \"transducer\": { \"accuracy\": \"" + accuracy + "\" } }")
                        .transducerAccuracy());
    }

    @Test
    void aTransducerRangeMayBeginBelowZeroAndUseAnyUnitOfPressure() throws IOException {
        TestSetup setup = parse("{ \"transducer\": { \"range\": \"-1 .. 2.5e2 bar\", \"accuracy\": \"0.0025\" } }");
        assertEquals(Optional.of(-1e5), setup.transducerMinPa());
        assertEquals(Optional.of(2.5e7), setup.transducerMaxPa());
        assertEquals(
                Optional.of(1e6),
                parse("{ \"transducer\": { \"range\": \"0..1MPa\" } }").transducerMaxPa());
    }

    @Test
    void aFieldThatStandsTwiceIsRefused() {
        assertEquals(
                "a.setup.json, line 1, column 22, field limit: the field stands here a second time; expected it once",
                refusal("{ \"limit\": \"1 l/h\" , \"limit\": \"2 l/h\" }"));
    }

    @Test
    void whatIsNoJsonSaysSoAndWhere() {
        assertEquals(
                "a.setup.json: nothing in the file; expected an object such as { \"trappedVolume\": \"48 ± 5 cm3\" }",
                refusal(" "));
        assertEquals(
                "a.setup.json: no JSON object; expected an object such as { \"trappedVolume\": \"48 ± 5 cm3\" }",
                refusal("[]"));
        assertEquals(
                "a.setup.json, line 1, column 4: more text behind the closing brace; expected one object and nothing more",
                refusal("{} {}"));
        assertTrue(
                refusal("{ \"limit\": \"1 l/h\"\n \"port\": \"A\" }")
                        .startsWith("a.setup.json, line 2, column 2: not valid"),
                () -> refusal("{ \"limit\": \"1 l/h\"\n \"port\": \"A\" }"));
        byte[] latin1 = "{ \"limit\": \"1 ± 1 l/h\" }".getBytes(StandardCharsets.ISO_8859_1);
        String message = assertThrows(InputException.class, () -> SetupReader.parse(latin1, "a.setup.json"))
                .getMessage();
        assertEquals("a.setup.json: text that is not UTF-8; expected UTF-8; ± may be written +/-", message);
    }

    @Test
    void problemsBeforeBrokenJsonAreReportedToo() {
        String[] lines = refusal("{ \"limit\": 3,\n").split("\n", -1);
        assertEquals(
                "a.setup.json, line 1, column 12, field limit: the bare number 3; expected text such as \"15 cm3/min\"",
                lines[0]);
        assertTrue(lines[1].startsWith("a.setup.json, line 2, column 1: not valid JSON ("), lines[1]);
    }

    @Test
    void aFileIsNamedAsItWasGiven(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("port-a.setup.json");
        Files.writeString(file, "{ \"limit\": 3 }");
        String message =
                assertThrows(InputException.class, () -> SetupReader.read(file)).getMessage();
        assertTrue(message.startsWith(file + ", line 1, column 12, field limit: "), message);
    }
}
