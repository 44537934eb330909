package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdtrace.rig.RigFile;
import org.holdtrace.rig.WorkedRig;
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

    /** At rest for as long as a reading can take on the busiest computer: nobody pumps into it. */
    private static final String RIG = """
            { "note": "Invented.", "trappedVolume": "200 cm3", "pump": { "stroke": "0.6 cm3" },
              "transducer": { "upTo": "250 bar", "samplesPerSecond": "250", "whiteNoise": "0.03 bar" },
              "tests": [ { "rest": "1 h", "target": "80 bar", "hold": "10 s" } ] }
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
        assertTrue(
                said.matches("(?s)holdtrace logger: input pressure: its readings at the references hardly differ, by"
                        + " 0\\.\\d\\d % of its span\\. Check the pressure at the transducer.*"),
                said);
        assertTrue(said.endsWith("; nothing was kept of this. calibrate --fresh forgets the points before\n"), said);
        assertEquals(kept, Files.readString(folder.resolve("data").resolve("calibration.json")));
    }

    /**
     * A transducer that gives 1.2 % too much and 0.8 bar on top, on a tight line that stands at three pressures one after the
     * other, as a reference shows them: what is recorded then is what the reference shows.
     */
    @Test
    void aCalibrationOfSeveralPointsMakesAWrongTransducerRight() throws IOException {
        String data = folder.resolve("data").toString();
        double[] references = new double[3];
        String[] rigs = new String[3];
        for (int i = 0; i < 3; i++) {
            Path rig = Files.writeString(folder.resolve(i + ".rig.json"), """
                    { "note": "Invented.", "trappedVolume": "500 cm3", "pump": { "stroke": "0.6 cm3" },
                      "hand": { "stroke": "0.2 s", "pause": "0.1 s" },
                      "transducer": { "upTo": "250 bar", "whiteNoise": "0.03 bar", "gainError": "1.2 %%", "zeroError": "0.8 bar" },
                      "tests": [ %s ] }
                    """.formatted(
                            i == 0
                                    ? "{ \"rest\": \"600 s\", \"target\": \"50 bar\", \"hold\": \"10 s\" }"
                                    : "{ \"target\": \"" + 90 * i
                                            + " bar\", \"hold\": \"600 s\", \"startsPumpedUp\": \"yes\" }"));
            rigs[i] = rig.toString();
            WorkedRig line = new WorkedRig(
                    RigFile.read(rig).rig(),
                    new SplittableRandom(RigFile.read(rig).seed()));
            line.advanceTo(3);
            references[i] = line.pressurePa() / 1e5;
            String at = String.format(Locale.ROOT, "%.3f bar", references[i]);
            assertEquals(
                    0,
                    run("calibrate", "--at", at, "--reference", "gauge 3", "--simulate", rigs[i], "--data", data),
                    () -> err.toString(StandardCharsets.UTF_8));
        }
        out.reset();
        for (int i = 0; i < 3; i++) {
            assertEquals(0, run("check", "--simulate", rigs[i], "--data", data));
        }
        Matcher read = Pattern.compile("pressure (-?[0-9.]+) bar, scatter [^;]*; calibrated 20")
                .matcher(out.toString(StandardCharsets.UTF_8));
        for (double reference : references) {
            assertTrue(read.find(), out.toString(StandardCharsets.UTF_8));
            assertEquals(reference, Double.parseDouble(read.group(1)), 0.05);
        }
    }

    @Test
    void twoReadingsAtOnePressureAreNoCalibrationYet() throws IOException {
        Path rig = Files.writeString(folder.resolve("a.rig.json"), RIG);
        for (int i = 0; i < 2; i++) {
            out.reset();
            assertEquals(
                    0, run("calibrate", "--at", "0 bar", "--simulate", rig.toString(), "--data", folder.toString()));
            assertTrue(out.toString(StandardCharsets.UTF_8)
                    .endsWith("One more point at another pressure makes a calibration." + System.lineSeparator()));
        }
    }

    @Test
    void mendingAFolderWhereAllIsWellSaysSo() throws IOException {
        Path sessions = Files.createDirectory(folder.resolve("sessions"));
        assertEquals(0, run("mend", "--data", sessions.toString()));
        assertEquals("every session here was ended on purpose\n", out.toString(StandardCharsets.UTF_8));
    }

    @Test
    void aPortThatIsTakenIsRefusedBeforeAnythingSaysThatItIsReady() throws IOException {
        Path rig = Files.writeString(folder.resolve("a.rig.json"), RIG);
        try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            String port = String.valueOf(taken.getLocalPort());
            int status = run(
                    "run",
                    "--simulate",
                    rig.toString(),
                    "--panel",
                    "terminal",
                    "--data",
                    folder.toString(),
                    "--tcp",
                    port);
            assertEquals(1, status);
            assertEquals(
                    "holdtrace logger: cannot listen on 127.0.0.1 port " + port + ": Address already in use\n",
                    err.toString(StandardCharsets.UTF_8).replace(" (Bind failed)", ""));
            assertEquals("", out.toString(StandardCharsets.UTF_8));
        }
    }

    @Test
    void aKeyWithoutAPortToListenOnIsAWrongCall() throws IOException {
        Path rig = Files.writeString(folder.resolve("a.rig.json"), RIG);
        Path key = Files.writeString(folder.resolve("link.key"), "0123456789abcdef0123456789abcdef");
        int status = run(
                "--simulate", rig.toString(), "--panel", "none", "--data", folder.toString(), "--key", key.toString());
        assertEquals(2, status);
        assertEquals("""
                holdtrace logger: --key goes with --tcp: without it there is no listening on the network
                Call it with --help to see what it understands.
                """, err.toString(StandardCharsets.UTF_8));
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
