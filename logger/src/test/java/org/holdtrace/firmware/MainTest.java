package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MainTest {
    @TempDir
    Path folder;

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream err = new ByteArrayOutputStream();

    private int run(String... args) {
        return Main.run(
                args,
                new PrintStream(out, true, StandardCharsets.UTF_8),
                new PrintStream(err, true, StandardCharsets.UTF_8));
    }

    private static final String RIG = """
            { "note": "Invented.", "trappedVolume": "200 cm3", "pump": { "stroke": "0.6 cm3" },
              "transducer": { "upTo": "250 bar", "samplesPerSecond": "250", "whiteNoise": "0.03 bar" },
              "tests": [ { "rest": "5 s", "target": "80 bar", "hold": "10 s" } ] }
            """;

    @Test
    void theVersionIsToldAndNothingElseDone() {
        assertEquals(0, run("--version"));
        assertEquals(Version.SOFTWARE + "\n", out.toString(StandardCharsets.UTF_8));
    }

    @Test
    void mendingAFolderThatIsNotThereIsAnErrorAndMakesNone() {
        Path missing = folder.resolve("sesions");
        assertEquals(1, run("mend", "--data", missing.toString()));
        assertEquals(
                "holdtrace logger: " + missing
                        + ": there is no such folder; expected the folder a logger keeps its sessions in\n",
                err.toString(StandardCharsets.UTF_8));
        assertFalse(Files.exists(missing));
    }

    @Test
    void aFileThatIsNotThereIsToldInWords() {
        Path missing = folder.resolve("no.rig.json");
        assertEquals(1, run("run", "--simulate", missing.toString(), "--data", folder.toString()));
        assertEquals(
                "holdtrace logger: " + missing + ": there is no such file or folder\n",
                err.toString(StandardCharsets.UTF_8));
    }

    @Test
    void aFileInThePlaceOfTheFolderOfSessionsIsToldInWords() throws IOException {
        Path rig = Files.writeString(folder.resolve("a.rig.json"), RIG);
        Path file = Files.createFile(folder.resolve("sessions"));
        assertEquals(1, run("run", "--simulate", rig.toString(), "--data", file.toString()));
        assertEquals(
                "holdtrace logger: " + file + ": is a file; expected a folder\n", err.toString(StandardCharsets.UTF_8));
    }

    @Test
    void aReferenceThatCannotBeIsRefusedInWordsAndNothingOfItIsKept() throws IOException {
        Path rig = Files.writeString(folder.resolve("a.rig.json"), RIG);
        String data = folder.resolve("data").toString();
        assertEquals(0, run("calibrate", "--at", "100 bar", "--fresh", "--simulate", rig.toString(), "--data", data));
        String first = out.toString(StandardCharsets.UTF_8);
        assertTrue(
                first.matches(
                        "(?s)pressure: 10\\.\\d % of its supply at 100\\.000 bar, by the name plate -?0\\.\\d+ bar\\R"
                                + "One more point at another pressure makes a calibration\\.\\R"),
                first);
        String kept = Files.readString(folder.resolve("data").resolve("calibration.json"));
        assertEquals(1, run("calibrate", "--at", "0 bar", "--simulate", rig.toString(), "--data", data));
        String said = err.toString(StandardCharsets.UTF_8);
        assertTrue(said.startsWith("holdtrace logger: input pressure: its slope would be "), said);
        assertTrue(said.endsWith("; nothing was kept of this. calibrate --fresh forgets the points before\n"), said);
        assertEquals(kept, Files.readString(folder.resolve("data").resolve("calibration.json")));
    }

    @Test
    void mendingAFolderWhereAllIsWellSaysSo() throws IOException {
        Path sessions = Files.createDirectory(folder.resolve("sessions"));
        assertEquals(0, run("mend", "--data", sessions.toString()));
        assertEquals("every session here was ended on purpose\n", out.toString(StandardCharsets.UTF_8));
    }

    @Test
    void aSpeedThatNoSerialPortHasIsRefusedBeforeAnythingStarts() throws IOException {
        Path rig = Files.writeString(folder.resolve("a.rig.json"), RIG);
        int status = run(
                "run",
                "--simulate",
                rig.toString(),
                "--panel",
                "none",
                "--data",
                folder.toString(),
                "--serial",
                folder.resolve("tty").toString(),
                "--baud",
                "fast");
        assertEquals(2, status);
        assertEquals("""
                holdtrace logger: --baud takes bits a second, a whole number from 1200 to 4000000, not fast
                Call it with --help to see what it understands.
                """, err.toString(StandardCharsets.UTF_8));
    }
}
