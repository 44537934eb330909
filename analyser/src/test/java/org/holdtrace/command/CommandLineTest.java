package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Exit codes, streams and messages; checked against the interface people script against. */
class CommandLineTest {
    @TempDir
    Path folder;

    private final InventedSteps steps = new InventedSteps();

    private Path file(String name, String word) throws IOException {
        Path file = folder.resolve(name);
        Files.createDirectories(file.getParent());
        return Files.writeString(file, word);
    }

    @Test
    void withoutACommandItSaysInOneLineThatThereIsNoDeskAndExits2() {
        Call call = Call.of(steps);
        assertEquals(2, call.exitCode());
        assertEquals("", call.out());
        assertEquals(1, call.err().lines().count());
        assertTrue(call.err().contains("desk"), call.err());
    }

    @Test
    void anUnknownCommandIsAWrongCallAndTheNearOneIsNamed() {
        Call call = Call.of(steps, "analyze", "x.csv");
        assertEquals(2, call.exitCode());
        assertTrue(call.err().contains("unknown command analyze; did you mean analyse?"), call.err());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "analyse",
                "analyse x.csv --jsn",
                "analyse x.csv --charts",
                "analyse x.csv --json=yes",
                "analyse x.csv --json --json",
                "analyse x.csv --at 140",
                "analyse x.csv --at 50degX",
                "analyse x.csv --at 1e9bar",
                "analyse x.csv --at 900degC",
                "analyse x.csv --at 140±3bar",
                "analyse x.csv --at -5bar",
                "analyse x.csv --setup nowhere.setup.json",
                "export x.csv",
                "export x.csv --out build --format xml",
                "simulate",
                "simulate a.rig.json",
                "simulate nowhere.rig.json --out a.hold"
            })
    void aWrongCallExits2AndSaysWhyOnTheErrorStreamOnly(String words) {
        Call call = Call.of(steps, (Object[]) words.split(" "));
        assertEquals(2, call.exitCode(), call.err());
        assertEquals("", call.out());
        assertTrue(call.err().startsWith("holdtrace: "), call.err());
        assertTrue(call.err().contains("--help"), call.err());
    }

    @Test
    void aBadFileIsNamedAndTheOthersAreStillAnswered() throws IOException {
        Path bad = file("a.csv", "broken");
        Path good = file("b.hold", "worn");
        Call call = Call.of(steps, "analyse", bad, good);
        assertEquals(1, call.exitCode());
        assertEquals("holdtrace: " + bad + ", line 3: \"12,x\" as pressure; expected a number\n", call.err());
        assertTrue(call.out().startsWith("b.hold: Loader 7"), call.out());
    }

    @Test
    void aSlipOfOurOwnIsReportedAsSuchAndDoesNotEndTheRun() throws IOException {
        Path bad = file("a.csv", "crash");
        Path good = file("b.hold", "worn");
        Call call = Call.of(steps, "analyse", bad, good);
        assertEquals(1, call.exitCode());
        assertTrue(call.err().contains("should not happen, please report it"), call.err());
        assertFalse(call.out().isEmpty());
    }

    @Test
    void aMissingFileIsNamedAndTheOthersAreStillAnswered() throws IOException {
        Path good = file("b.hold", "worn");
        Call call = Call.of(steps, "analyse", folder.resolve("gone.csv"), good);
        assertEquals(1, call.exitCode());
        assertTrue(call.err().contains("gone.csv: there is no such file or folder"), call.err());
        assertFalse(call.out().isEmpty());
    }

    @Test
    void aTraceWithoutAHoldTestOrALeakRateIsNamedAndExits1() throws IOException {
        Call none = Call.of(steps, "analyse", file("n.csv", "nothing"));
        assertEquals(1, none.exitCode());
        assertTrue(none.err().contains("n.csv: no hold test in it"), none.err());
        Call noRate = Call.of(steps, "analyse", file("h.csv", "no-hold"));
        assertEquals(1, noRate.exitCode());
        assertTrue(noRate.err().contains("h.csv, hold test 1: no leak rate"), noRate.err());
    }

    @Test
    void aFolderStandsForItsSessionsAndTracesByName() throws IOException {
        file("shop/c.hold", "worn");
        file("shop/a.csv", "bare");
        file("shop/b.hold", "tight");
        file("shop/a.setup.json", "Mill 3");
        file("shop/older/d.hold", "worn");
        file("shop/notes.txt", "crash");
        Call call = Call.of(steps, "analyse", folder.resolve("shop"));
        assertEquals(0, call.exitCode(), call.err());
        List<String> headings = call.out()
                .lines()
                .filter(line -> line.matches("[abcd]\\.\\w+:.*"))
                .toList();
        assertEquals(3, headings.size(), call.out());
        assertTrue(headings.get(0).startsWith("a.csv: Mill 3"), call.out());
        assertTrue(headings.get(1).startsWith("b.hold"), call.out());
        assertTrue(headings.get(2).startsWith("c.hold"), call.out());
    }

    @Test
    void anEmptyFolderIsNamed() throws IOException {
        Path empty = Files.createDirectories(folder.resolve("empty"));
        Call call = Call.of(steps, "analyse", empty);
        assertEquals(1, call.exitCode());
        assertTrue(call.err().contains("no session (.hold) and no trace (.csv)"), call.err());
    }

    @Test
    void aSetupAmongTheRecordingsIsNamedForWhatItIsAndTheOthersAreAnalysed() throws IOException {
        Path session = file("a.hold", "worn");
        Path setup = file("a.setup.json", "Mill 3");
        Call call = Call.of(steps, "analyse", session, setup);
        assertEquals(1, call.exitCode());
        assertTrue(call.out().contains("a.hold: Mill 3"), call.out());
        assertEquals(
                "holdtrace: " + setup
                        + ": a setup, no recording; expected the session (.hold) or trace (.csv) of the same"
                        + " name. A setup beside it is read with it, another one by --setup\n",
                call.err());
    }

    @Test
    void theSetupForAllWinsOverTheOneBesideWhichWinsOverTheOneInside() throws IOException {
        Path session = file("a.hold", "worn");
        assertTrue(Call.of(steps, "analyse", session).out().contains("Loader 7"));
        file("a.setup.json", "Mill 3");
        assertTrue(Call.of(steps, "analyse", session).out().contains("Mill 3"));
        Path forAll = file("all.setup.json", "Crane 1");
        assertTrue(Call.of(steps, "analyse", session, "--setup", forAll).out().contains("Crane 1"));
    }

    @Test
    void aSetupThatCannotBeUsedIsARefusedInput() throws IOException {
        Path session = file("a.hold", "worn");
        Path bad = file("bad.setup.json", "broken");
        Call call = Call.of(steps, "analyse", session, "--json", "--setup", bad);
        assertEquals(1, call.exitCode());
        assertTrue(call.err().contains("field trappedVolum: an unknown field; expected trappedVolume?"), call.err());
        assertEquals("{\"sessions\":[]}", call.out().replaceAll("\\s", ""));
    }

    @Test
    void conditionsAndLineCheckReachTheEstimate() throws IOException {
        Path session = file("a.hold", "worn");
        Path lineCheck = file("blank.hold", "tight");
        Call call = Call.of(steps, "analyse", session, "--at", "50 degC, 2000 psi", "--line-check", lineCheck);
        assertEquals(0, call.exitCode(), call.err());
        // 1 psi = 6894.757293168 Pa, 0 degC = 273.15 K: NIST SP 811, appendix B
        assertEquals(2000 * 6894.757293168, steps.lastOptions().atPa().getAsDouble(), 0.01);
        assertEquals(323.15, steps.lastOptions().atTemperatureK().getAsDouble(), 1e-9);
        assertEquals(
                "none",
                steps.lastOptions()
                        .lineCheck()
                        .orElseThrow()
                        .leak()
                        .orElseThrow()
                        .law()
                        .label());
    }

    @Test
    void chartsOfTwoSessionsOfOneNameDoNotOverwriteEachOther() throws IOException {
        Path first = file("monday/a.hold", "worn");
        Path second = file("tuesday/a.hold", "tight");
        Path third = file("tuesday/A.csv", "bare");
        Path charts = folder.resolve("charts/new");
        Call call = Call.of(steps, "analyse", first, second, third, "--charts", charts);
        assertEquals(0, call.exitCode(), call.err());
        try (Stream<Path> drawn = Files.list(charts)) {
            assertEquals(
                    List.of("A-3-1.svg", "a-1.svg", "a-2-1.svg"),
                    drawn.map(path -> path.getFileName().toString()).sorted().toList());
        }
    }

    @Test
    void exportRefusesToWriteOverWhatIsThere() throws IOException {
        Path session = file("a.hold", "worn");
        Path out = folder.resolve("out");
        assertEquals(0, Call.of(steps, "export", session, "--out", out).exitCode());
        Call again = Call.of(steps, "export", session, "--out", out);
        assertEquals(2, again.exitCode());
        assertTrue(again.err().contains("is there already"), again.err());
        assertEquals(
                0, Call.of(steps, "export", session, "--out", out, "--replace").exitCode());
    }

    @Test
    void simulateWritesASessionAndRefusesABadRig() throws IOException {
        Path out = folder.resolve("new.hold");
        assertEquals(
                0,
                Call.of(steps, "simulate", file("a.rig.json", "fine"), "--out", out)
                        .exitCode());
        assertEquals("simulated", Files.readString(out));
        Call bad = Call.of(steps, "simulate", file("b.rig.json", "broken"), "--out", folder.resolve("b.hold"));
        assertEquals(1, bad.exitCode());
        assertTrue(bad.err().contains("field oil"), bad.err());
    }

    @Test
    void simulateIntoAFolderThatIsNotThereBlamesTheFolderAndNotTheRig() throws IOException {
        Path out = folder.resolve("nowhere").resolve("a.hold");
        Call call = Call.of(steps, "simulate", file("a.rig.json", "fine"), "--out", out);
        assertEquals(2, call.exitCode());
        assertEquals(
                "holdtrace: --out: there is no folder " + out.getParent() + " to write a.hold into",
                call.err().lines().findFirst().orElseThrow());
    }

    @Test
    void exportedSamplesOfASimulatedSessionSaySo() throws IOException {
        Path out = folder.resolve("out");
        Path trace = file("a.csv", "simulated");
        assertEquals(0, Call.of(steps, "export", trace, "--out", out).exitCode());
        assertEquals(
                "# simulated by Holdtrace: nothing here was measured",
                Files.readAllLines(out.resolve("a-samples.csv")).get(0));
        assertEquals(
                0,
                Call.of(steps, "export", trace, "--out", out, "--format", "json")
                        .exitCode());
        assertTrue(Files.readString(out.resolve("export.json"))
                .contains("\"simulated by Holdtrace: nothing here was measured\""));
        Path recorded = file("b.csv", "worn");
        assertEquals(
                0,
                Call.of(steps, "export", recorded, "--out", folder.resolve("plain"))
                        .exitCode());
        assertEquals(
                "time [s],pressure [bar]",
                Files.readAllLines(folder.resolve("plain").resolve("b-samples.csv"))
                        .get(0));
    }

    @Test
    void aFileThatMayNotBeReadIsToldFromOneThatIsNotThere() throws IOException {
        Path locked = Files.createDirectory(folder.resolve("locked"));
        Path inside = Files.writeString(locked.resolve("a.hold"), "worn");
        assumeTrue(locked.toFile().setExecutable(false) && locked.toFile().setReadable(false));
        try {
            assumeFalse(Files.isReadable(inside), "this user may read everything");
            Call call = Call.of(steps, "analyse", inside, locked);
            assertEquals(1, call.exitCode());
            assertEquals(
                    "holdtrace: " + inside + ": permission denied\nholdtrace: " + locked + ": permission denied\n",
                    call.err());
        } finally {
            assertTrue(locked.toFile().setExecutable(true) && locked.toFile().setReadable(true));
        }
    }

    @Test
    void simulateWritesOverWhatWasSimulatedButNotOverARecording() throws IOException {
        Path rig = file("a.rig.json", "fine");
        Path out = folder.resolve("new.hold");
        assertEquals(0, Call.of(steps, "simulate", rig, "--out", out).exitCode());
        assertEquals(0, Call.of(steps, "simulate", rig, "--out", out).exitCode());
        Path recorded = file("recorded.hold", "worn");
        assertEquals(2, Call.of(steps, "simulate", rig, "--out", recorded).exitCode());
        assertEquals("worn", Files.readString(recorded));
        assertEquals(
                0,
                Call.of(steps, "simulate", rig, "--out", recorded, "--replace").exitCode());
    }

    @Test
    void noProgressIsShownWhereNobodyWatchesOrTheWorkIsShort() throws IOException {
        Path session = file("a.hold", "worn");
        assertEquals("", Call.of(steps, "analyse", session, session).err());
        assertEquals("", Call.atTerminal(steps, "analyse", session, session).err());
    }

    @Test
    void theProgressLineCountsInputs() {
        assertEquals("[###############...............] 4 of 8, 12 s", Progress.line(4, 8, 12));
    }
}
