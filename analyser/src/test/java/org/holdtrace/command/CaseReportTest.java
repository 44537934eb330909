package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.text.PDFTextStripper;
import org.holdtrace.report.FileProof;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.SAXException;

/** The report of the demo case: complaint, decision, reasons, what was not tested, and by what it can be checked. */
class CaseReportTest {
    private static final Path DEMO = Path.of("..", "demo-data");
    private static final Path CASE = DEMO.resolve("rowan-loader.case.json");
    private static final Pattern TAG = Pattern.compile("<(?:svg.*?</svg|style>.*?</style|[^>]*)>", Pattern.DOTALL);

    @TempDir
    Path folder;

    private static Call call(Object... words) {
        return Call.of(new FileSteps(), words);
    }

    private String words(Object... options) throws IOException {
        Path out = folder.resolve("r.html");
        Object[] all = new Object[options.length + 2];
        all[0] = "report";
        System.arraycopy(options, 0, all, 1, options.length);
        all[all.length - 1] = "--out=" + out;
        Call call = call(all);
        assertEquals("", call.err());
        return TAG.matcher(Files.readString(out)).replaceAll("").replaceAll("[\\s\u00a0]+", " ");
    }

    /** The case with these two first tests only, and with more fields. */
    private Path cut(String more) throws IOException {
        String text =
                Files.readString(CASE).replace("\"rowan-loader/", "\"" + DEMO.toAbsolutePath() + "/rowan-loader/");
        int third = text.indexOf("{\n      \"name\": \"port B\"");
        String kept = text.substring(0, text.lastIndexOf(',', third)) + "\n  ]\n}\n";
        return Files.writeString(folder.resolve("cut.case.json"), kept.replaceFirst("\\{", "{ " + more));
    }

    @Test
    void itSaysWhatWasComplainedOfWhatWasFoundAndWhy() throws IOException {
        String said = words(CASE);
        for (String part : List.of(
                "Case report: Rowan 3, front loader (invented)",
                "SIMULATED. These recordings were computed",
                "lift cylinder retracts at 4.1 ± 0.4 mm/min, its load standing on 110 ± 4 bar",
                "PORT RELIEF A OVER ITS LIMIT",
                "One part leaks more than it may: port relief A.",
                "The leak found explains it.",
                "Where the limits come from",
                "the maker's figure: spool A and spool B",
                "a drop a minute (common practice, no source)",
                "Hold test 4 of 4",
                "looked at were, as the case states, rod seal (dry), hose A (dry), hose B (dry); nothing else.",
                "by Bayes' rule over all combinations of parts",
                "Isolate the machine's energy and lock it out.",
                "Tested by")) {
            assertTrue(said.contains(part), part + "\n" + said);
        }
        assertFalse(said.contains("What to test next"));
    }

    @Test
    void everyFileItRestsOnIsNamedWithItsHash() throws IOException {
        String said = words(CASE).replace(" ", "");
        assertTrue(said.contains(FileProof.of(CASE).sha256()));
        for (String name : List.of("1-port-a", "2-port-a-relief-plugged", "3-port-b", "4-bore-side")) {
            assertTrue(
                    said.contains(FileProof.of(DEMO.resolve("rowan-loader/" + name + ".hold"))
                            .sha256()),
                    name);
            assertTrue(
                    said.contains(FileProof.of(DEMO.resolve("rowan-loader/" + name + ".setup.json"))
                            .sha256()),
                    name);
        }
    }

    @Test
    void anOpenCaseSaysWhatToTestNextAndWhatIsNotTested() throws IOException {
        String said = words(cut(""));
        assertTrue(said.contains("PORT RELIEF A OVER ITS LIMIT; NOT ALL IS TESTED"), said);
        assertTrue(said.contains("What to test next"), said);
        assertTrue(
                said.contains(
                        "Of this circuit: spool B, port relief B, anti-cavitation B, piston seal. Nothing here says"
                                + " that they are in order."),
                said);
    }

    @Test
    void aStoppedCaseSaysThatItWasStoppedAndWhy() throws IOException {
        String said = words(cut("\"stopped\": \"the customer waits\","));
        assertTrue(said.contains("PORT RELIEF A OVER ITS LIMIT; STOPPED BEFORE ALL WAS TESTED"), said);
        assertTrue(said.contains("Testing was stopped (the customer waits) although a part"), said);
        assertTrue(said.contains("Of this circuit: spool B"), said);
        assertFalse(said.contains("What to test next"));
    }

    @Test
    void inPsiNothingIsLeftInBar() throws IOException {
        String said = words(CASE, "--units", "psi, in3", "--paper", "letter");
        assertTrue(said.contains("its load standing on 1595 ± 58 psi"), said);
        assertTrue(said.contains("At 1595 psi, the pressure of the load, "), said);
        String judged = said.substring(said.indexOf("Case report"), said.indexOf("Hold test 1 of 4"));
        assertFalse(judged.replace("0.05 cm³", "").contains("cm³"), judged);
        assertFalse(Pattern.compile("\\d bar").matcher(judged).find(), judged);
    }

    @Test
    void theSameCaseGivesTheSameBytes() throws IOException {
        Path one = folder.resolve("one.pdf");
        Path two = folder.resolve("two.pdf");
        assertEquals(0, call("report", CASE, "--out", one).exitCode());
        assertEquals(0, call("report", CASE, "--out", two).exitCode());
        assertArrayEquals(Files.readAllBytes(one), Files.readAllBytes(two));
        try (PDDocument document = Loader.loadPDF(one.toFile())) {
            assertTrue(new PDFTextStripper().getText(document).contains("PORT RELIEF A OVER ITS LIMIT"));
            for (PDPage page : document.getPages()) {
                for (var name : page.getResources().getFontNames()) {
                    PDFont font = page.getResources().getFont(name);
                    assertTrue(font.isEmbedded(), font.getName());
                }
            }
        }
    }

    /** Escapes by CSS Syntax Module Level 3, 4.3.7 (from memory): a backslash, the code point in hexadecimal, a space. */
    @Test
    void aBrowserPrintsHeadAndMarkOnEveryPage() throws IOException {
        Path file = cut("");
        Files.writeString(file, Files.readString(file).replace("Rowan 3, front", "Rowan \\\"3\\\" </style>, front"));
        Path out = folder.resolve("r.html");
        call("report", file, "--out", out);
        String page = Files.readString(out);
        assertTrue(page.contains("@top-right { content: \"SIMULATED: NOTHING HERE WAS MEASURED\";"), page);
        assertTrue(
                page.contains("content: \"Case report: Rowan \\22 3\\22  \\3c /style\\3e , front loader (invented)\";"),
                page);
        assertFalse(page.contains("class=\"head\""), "no line of it is left in the text");
    }

    @Test
    void thePageIsWellFormed() throws IOException, ParserConfigurationException, SAXException {
        Path out = folder.resolve("r.html");
        call("report", CASE, "--out", out);
        byte[] page = Files.readString(out).replace("<!DOCTYPE html>", "").getBytes(StandardCharsets.UTF_8);
        assertEquals(
                "html",
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new ByteArrayInputStream(page))
                        .getDocumentElement()
                        .getTagName());
    }

    @Test
    void wrongCallsAreExplained() throws IOException {
        Path out = folder.resolve("r.pdf");
        assertEquals(2, call("report", CASE, CASE, "--out", out).exitCode());
        Call at = call("report", CASE, "--at", "100 bar", "--out", out);
        assertEquals(2, at.exitCode());
        assertTrue(at.err().contains("--at goes with recordings; a case states its own conditions"), at.err());
        assertEquals(
                2,
                call("report", folder.resolve("none.case.json"), "--out", out).exitCode());
        Path broken = Files.writeString(folder.resolve("b.case.json"), "{}");
        assertEquals(1, call("report", broken, "--out", out).exitCode());
        assertFalse(Files.exists(out));
    }
}
