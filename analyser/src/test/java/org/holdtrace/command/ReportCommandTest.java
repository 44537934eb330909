package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.holdtrace.report.FileProof;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

class ReportCommandTest {
    private static final Pattern PICTURE = Pattern.compile("<svg.*?</svg>", Pattern.DOTALL);
    private static final Pattern STYLE = Pattern.compile("<style>.*?</style>", Pattern.DOTALL);
    /** Whatever makes a browser fetch something. The names of XML's own spaces are names and not fetched. */
    private static final Pattern FETCHED = Pattern.compile(
            "(?:src|srcset|href|data|action|poster)\\s*=\\s*\"(?!#)|url\\((?!#)|@import|<script|<link|<iframe|<base");

    @TempDir
    Path folder;

    private final InventedSteps steps = new InventedSteps();

    private Path file(String name, String word) throws IOException {
        return Files.writeString(folder.resolve(name), word);
    }

    private String html(Object... inputsAndOptions) throws IOException {
        Path out = folder.resolve("report.html");
        Object[] words = new Object[inputsAndOptions.length + 3];
        words[0] = "report";
        System.arraycopy(inputsAndOptions, 0, words, 1, inputsAndOptions.length);
        words[words.length - 2] = "--out";
        words[words.length - 1] = out;
        Call.of(steps, words);
        return Files.readString(out);
    }

    /** The page without drawings and style, against the expected file. */
    private static void assertPrinted(String name, String html) throws IOException {
        String bare = PICTURE.matcher(html).replaceAll("[drawing]");
        bare = STYLE.matcher(bare).replaceAll("<style/>");
        Files.writeString(Files.createDirectories(Path.of("target", "printed")).resolve(name), bare);
        try (InputStream in = ReportCommandTest.class.getResourceAsStream("/printed/" + name)) {
            assertEquals(new String(in.readAllBytes(), StandardCharsets.UTF_8), bare);
        }
    }

    @Test
    void aReportOfOneTestSaysAllOfIt() throws IOException {
        assertPrinted("report-one.html", html(file("port-a.hold", "worn")));
    }

    @Test
    void aReportOfSeveralTestsNamesWhatGaveNothing() throws IOException {
        String html = html(
                file("port-a.hold", "worn"),
                file("cylinder.hold", "tight"),
                file("seat.csv", "bare"),
                file("relief.hold", "doubtful"),
                file("no-hold.csv", "no-hold"),
                file("broken.csv", "broken"),
                file("nothing.csv", "nothing"),
                folder.resolve("missing.hold"),
                "--units",
                "psi, in3",
                "--paper",
                "letter");
        assertPrinted("report-several.html", html);
        assertFalse(html.contains(folder.getFileName().toString()), "names the folder it was made in");
    }

    @Test
    void whatIsRefusedIsNamedAndTheReportIsWrittenAllTheSame() throws IOException {
        Path out = folder.resolve("report.pdf");
        Call call = Call.of(steps, "report", file("port-a.hold", "worn"), file("broken.csv", "broken"), "--out", out);
        assertEquals(1, call.exitCode());
        assertEquals("", call.out());
        assertEquals(
                "holdtrace: " + folder.resolve("broken.csv") + ", line 3: \"12,x\" as pressure; expected a number\n",
                call.err());
        assertTrue(Files.size(out) > 10_000);
    }

    @Test
    void notesOfWhatWasDoneByHandAreAmongTheFilesItRestsOn() throws IOException {
        Path recording = file("port-a.hold", "worn");
        Path notes = file("port-a.work.json", "{ \"movedBoundaries\": [] }");
        String html = html(recording).replaceAll("</span>\\s*<span>", "");
        assertTrue(html.contains("<th scope=\"row\">port-a.work.json</th>"), html);
        assertTrue(html.contains(FileProof.of(notes).sha256()), html);
    }

    @Test
    void whereNothingCanBeReportedNothingIsWritten() throws IOException {
        Path out = folder.resolve("report.pdf");
        Call call = Call.of(steps, "report", file("nothing.csv", "nothing"), "--out", out);
        assertEquals(1, call.exitCode());
        assertTrue(call.err().endsWith("no hold test in any input: no report was written\n"), call.err());
        assertFalse(Files.exists(out));
    }

    @Test
    void theSameInputGivesTheSameBytes() throws IOException {
        Path input = file("port-a.hold", "worn");
        for (String ending : new String[] {".pdf", ".html"}) {
            Path first = folder.resolve("first" + ending);
            Path second = folder.resolve("second" + ending);
            assertEquals(0, Call.of(steps, "report", input, "--out", first).exitCode());
            assertEquals(0, Call.of(steps, "report", input, "--out", second).exitCode());
            assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(second), ending);
        }
    }

    @Test
    void thePageIsWellFormedAndFetchesNothing() throws IOException, ParserConfigurationException, SAXException {
        String html = html(file("port-a.hold", "worn"), file("no-hold.csv", "no-hold"));
        DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new InputSource(new StringReader(html.replace("<!DOCTYPE html>", ""))));
        Matcher fetched = FETCHED.matcher(html);
        assertFalse(fetched.find(), () -> html.substring(fetched.start(), fetched.end() + 60));
    }

    @Test
    void aWrongCallExits2() throws IOException {
        Path input = file("port-a.hold", "worn");
        for (Object[] words : new Object[][] {
            {"report", input},
            {"report", input, "--out", folder.resolve("report.txt")},
            {"report", input, "--out", folder.resolve("nowhere").resolve("report.pdf")},
            {"report", input, "--out", folder.resolve("report.pdf"), "--paper", "a5"},
            {"report", input, "--out", folder.resolve("report.pdf"), "--units", "kPa"}
        }) {
            Call call = Call.of(steps, words);
            assertEquals(2, call.exitCode(), call.err());
        }
    }
}
