package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.wording.SafetyText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The case of the demo workshop from its recorded sessions, as the command prints it. */
class CaseCommandTest {
    private static final Path DEMO = Path.of("..", "demo-data");
    private static final String NAME = "rowan-loader.case.json";

    @TempDir
    Path folder;

    private static Call call(Object... words) {
        return Call.of(new FileSteps(), words);
    }

    private static void assertPrinted(String name, String printed) throws IOException {
        Files.writeString(Files.createDirectories(Path.of("target", "printed")).resolve(name), printed);
        try (InputStream in = CaseCommandTest.class.getResourceAsStream("/printed/" + name)) {
            assertEquals(new String(in.readAllBytes(), StandardCharsets.UTF_8), printed);
        }
    }

    /** The demo case with only its first tests, its sessions beside it. */
    private Path withTests(int count) throws IOException {
        Path sessions = Files.createDirectories(folder.resolve("rowan-loader"));
        try (Stream<Path> files = Files.list(DEMO.resolve("rowan-loader"))) {
            for (Path file : files.toList()) {
                Path copy = sessions.resolve(file.getFileName());
                if (!Files.exists(copy)) {
                    Files.copy(file, copy);
                }
            }
        }
        String text = Files.readString(DEMO.resolve(NAME));
        int tests = text.indexOf("\"tests\": [") + "\"tests\": [".length();
        String[] objects = text.substring(tests, text.lastIndexOf(']')).split("(?<=\\}),", -1);
        StringBuilder kept = new StringBuilder();
        for (int i = 0; i < count; i++) {
            kept.append(i == 0 ? "" : ",").append(objects[i]);
        }
        return Files.writeString(folder.resolve(NAME), text.substring(0, tests) + kept + "] }");
    }

    @Test
    void beforeTheFirstTestItSaysWhatToTestFirst() throws IOException {
        Call call = call("case", withTests(0));
        assertEquals(0, call.exitCode());
        assertPrinted("case-0.txt", call.out());
        assertEquals("", call.err());
    }

    @Test
    void aPersonWhoWantsPsiAndInchesGetsThemThroughout() throws IOException {
        Call call = call("case", withTests(4), "--units", "psi, in3");
        assertEquals(0, call.exitCode());
        String printed = call.out().replaceAll("\\s+", " ");
        for (String part : new String[] {
            "retracts at 0.1614 ± 0.016 in/min, its load standing on 1595 ± 58 psi",
            "Limits in in³/min, carried to 1595 psi",
            " in² that carry it the rod moves ",
            "complained of are 0.161 in/min"
        }) {
            assertTrue(printed.contains(part), part + "\n" + printed);
        }
        for (String metric : new String[] {" bar", "cm³", "mm/min", "cm²", " mm", "°C"}) {
            assertFalse(printed.contains(metric), metric + "\n" + printed);
        }
    }

    @Test
    void theSheetIsInTheUnitsAskedFor() throws IOException {
        Path plans = folder.resolve("plans");
        call("case", withTests(0), "--plan", plans, "--units", "psi, in3");
        try (PDDocument sheet = Loader.loadPDF(plans.resolve("test-1.pdf").toFile())) {
            String said = new PDFTextStripper().getText(sheet).replaceAll("[\\s\u00a0]+", " ");
            assertTrue(said.contains(" psi and never above"), said);
            assertTrue(said.contains("in/min"), said);
            assertFalse(said.contains(" bar") || said.contains("cm³") || said.contains("mm/min"), said);
        }
    }

    @Test
    void aTestWhoseInputsContradictOneAnotherCountsForNothing() throws IOException {
        Path file = withTests(1);
        Path setup = folder.resolve("rowan-loader").resolve("1-port-a.setup.json");
        Files.writeString(setup, Files.readString(setup).replace("0.45 ± 0.005 cm3", "45 ± 0.5 cm3"));
        String printed = call("case", file).out().replaceAll("\\s+", " ");
        assertTrue(printed.contains("Counts for nothing: the stated inputs contradict one another."), printed);
        assertTrue(printed.contains("Not tested, and so not cleared: spool A, port relief A"), printed);
    }

    @Test
    void afterTheFirstTestItAsksForTheOneThatTellsTheSuspectsApart() throws IOException {
        assertPrinted("case-1.txt", call("case", withTests(1)).out());
    }

    @Test
    void afterTheSecondThePartIsFoundAndTheCaseStaysOpen() throws IOException {
        assertPrinted("case-2.txt", call("case", withTests(2)).out());
    }

    @Test
    void afterTheThirdThePistonSealIsLeft() throws IOException {
        assertPrinted("case-3.txt", call("case", withTests(3)).out());
    }

    @Test
    void afterTheFourthItIsDecided() throws IOException {
        Call call = call("case", DEMO.resolve(NAME));
        assertEquals(0, call.exitCode());
        assertPrinted("case-4.txt", call.out());
        assertTrue(call.out().lines().allMatch(line -> line.length() <= 100), call.out());
    }

    @Test
    void jsonHasTheFieldsThatAreDocumented() throws IOException {
        Call call = call("case", withTests(1), "--json");
        assertPrinted("case.json", call.out());
    }

    @Test
    void theNextTestIsPlannedOnPaperAndForTheLogger() throws IOException {
        Path plans = folder.resolve("plans");
        Call call = call("case", withTests(1), "--plan", plans);
        assertEquals(0, call.exitCode());
        TestSetup setup = SetupReader.read(plans.resolve("test-2.setup.json"));
        assertEquals("spool A and anti-cavitation A", setup.component().orElseThrow());
        byte[] pdf = Files.readAllBytes(plans.resolve("test-2.pdf"));
        String sheet = words(pdf);
        assertPrinted("case-sheet.txt", sheet);
        for (String rule : SafetyText.RULES) {
            assertTrue(sheet.replaceAll("\\s+", " ").contains(rule), rule);
        }
        call("case", folder.resolve(NAME), "--plan", plans);
        assertArrayEquals(pdf, Files.readAllBytes(plans.resolve("test-2.pdf")));
    }

    private static String words(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replace(System.lineSeparator(), "\n");
        }
    }

    @Test
    void anotherTestThanTheBestMayBePlanned() throws IOException {
        Path plans = folder.resolve("plans");
        assertEquals(
                0, call("case", withTests(1), "--plan", plans, "--choose", "2").exitCode());
        assertEquals(
                "spool A and port relief A",
                SetupReader.read(plans.resolve("test-2.setup.json")).component().orElseThrow());
    }

    @Test
    void aDecidedCaseHasNothingToPlan() {
        Call call = call("case", DEMO.resolve(NAME), "--plan", folder.resolve("plans"));
        assertEquals(0, call.exitCode());
        assertEquals("holdtrace: --plan: no test is left to plan, nothing was written\n", call.err());
    }

    @Test
    void aMissingSessionIsNamedAndTheOthersCount() throws IOException {
        Path file = withTests(2);
        Files.delete(folder.resolve("rowan-loader/2-port-a-relief-plugged.hold"));
        Call call = call("case", file);
        assertEquals(1, call.exitCode());
        assertTrue(call.err().contains("2-port-a-relief-plugged.hold: there is no such file or folder"), call.err());
        assertTrue(call.out().contains("- not used: "), call.out());
        assertTrue(call.out().contains("most probably it is port relief A"), call.out());
    }

    @Test
    void aHoldTestThatIsNotInTheSessionIsNamed() throws IOException {
        Path file = withTests(1);
        Files.writeString(
                file,
                Files.readString(file)
                        .replace("\"pressurised\": \"port A\"", "\"pressurised\": \"port A\", \"number\": \"3\""));
        Call call = call("case", file);
        assertEquals(1, call.exitCode());
        assertTrue(
                call.err()
                        .contains(
                                "no hold test number 3, which test \"port A\" asks for; expected a number from 1 to 1"),
                call.err());
    }

    @Test
    void aCaseThatCannotBeReadIsRefused() throws IOException {
        Path file = Files.writeString(folder.resolve("broken.case.json"), "{ \"machine\": \"x\" }");
        Call call = call("case", file);
        assertEquals(1, call.exitCode());
        assertEquals("", call.out());
        assertTrue(call.err().contains("broken.case.json, line 1: no \"complaint\""), call.err());
    }

    @Test
    void wrongCallsAreExplained() throws IOException {
        assertEquals(2, call("case").exitCode());
        assertEquals(2, call("case", folder.resolve("none.case.json")).exitCode());
        Path file = withTests(0);
        assertEquals(2, call("case", file, "--choose", "1").exitCode());
        assertEquals(
                2,
                call("case", file, "--plan", folder.resolve("p"), "--choose", "x")
                        .exitCode());
        assertEquals(
                2,
                call("case", file, "--plan", folder.resolve("p"), "--choose", "9")
                        .exitCode());
        assertTrue(call("case", file, "--jsn").err().contains("did you mean --json?"));
    }
}
