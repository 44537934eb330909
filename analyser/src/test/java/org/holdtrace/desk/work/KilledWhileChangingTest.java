package org.holdtrace.desk.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import javax.swing.SwingUtilities;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.library.InputFile;
import org.holdtrace.session.SetupField;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The desk's work in a process of its own, killed as nothing can be that is still asked, while somebody types: every
 * change but those of the last moment is in the file beside the recording, and that file is whole.
 */
class KilledWhileChangingTest {
    private static final Path DEMO = Path.of("..", "demo-data").toAbsolutePath().normalize();
    private static final int KILLS = Integer.getInteger("kills", 5);

    /** What docs/desk.md promises, ms. */
    private static final long MAY_BE_LOST_MS = 300;

    /** Somebody who types fast, ms. */
    private static final int BETWEEN_KEYS_MS = 40;

    /** How long before the kill a computer that is busy with other work counts, ms. */
    private static final long LOOK_BACK_MS = 2000;

    @TempDir
    Path folder;

    /** Changes the limit of the recording in {@code words[0]} to 1, 2, 3 … and says of each change when it was made. */
    public static void main(String[] words) throws Exception {
        Path file = Path.of(words[0]);
        Workspace workspace = new Workspace();
        Changes.Trouble none = new Changes.Trouble() {
            @Override
            public void changedByAnother(Path recording, Path there) {
                throw new AssertionError("nobody else changes " + there);
            }

            @Override
            public void keptAsDraft(Path there, Path draft, IOException why) {
                throw new AssertionError(why);
            }

            @Override
            public void keptBesideAgain(Path recording) {}

            @Override
            public void notKept(Path there, IOException why) {
                throw new AssertionError(why);
            }

            @Override
            public void notWorkedOut(Path recording, Throwable why) {
                throw new AssertionError(why);
            }
        };
        Changes changes = new Changes(workspace, new Drafts(file.resolveSibling("drafts")), none);
        OpenRecording read = OpenRecording.read(new InputFile(file, InputFile.stemOf(file)), EstimateOptions.none());
        SwingUtilities.invokeAndWait(() -> changes.opened(read));
        for (int i = 1; ; i++) {
            String limit = i + " cm3/min";
            SwingUtilities.invokeAndWait(() -> changes.change(
                    read,
                    "limit",
                    before -> new Described(before.sheet().with(SetupField.LIMIT, limit), before.notes())));
            System.out.println(System.currentTimeMillis() + " " + i);
            Thread.sleep(BETWEEN_KEYS_MS);
        }
    }

    @Test
    void killedAtRandomMomentsItLosesWhatWasTypedInTheLastMomentAtMost() throws Exception {
        SplittableRandom random = new SplittableRandom(4);
        Path recording = Files.copy(DEMO.resolve("08-thistle-clamp.csv"), folder.resolve("clamp.csv"));
        Path setup = folder.resolve("clamp.setup.json");
        List<String> told = new ArrayList<>();
        for (int kill = 1; kill <= KILLS; kill++) {
            Files.deleteIfExists(setup);
            Path said = folder.resolve("said.txt");
            Process process = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-Djava.awt.headless=true",
                            "-cp",
                            System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                            KilledWhileChangingTest.class.getName(),
                            recording.toString())
                    .redirectOutput(said.toFile())
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            while (process.isAlive() && Files.size(said) == 0) {
                Thread.sleep(20);
            }
            long busyMs = sleepAndMeasureDelays(random.nextInt(50, 2500));
            long killedMs = System.currentTimeMillis();
            assertTrue(process.isAlive(), "it ended by itself, see above");
            process.destroyForcibly();
            assertTrue(process.waitFor(60, TimeUnit.SECONDS));
            int kept = Files.exists(setup) ? limitIn(recording) : 0;
            String after = "kill " + kill + ", the computer busy for " + busyMs + " ms: kept " + kept;
            long lostMs = 0;
            for (String line : Files.readAllLines(said)) {
                String[] parts = line.split(" ", -1);
                if (parts.length == 2 && !parts[1].isEmpty() && Integer.parseInt(parts[1]) > kept) {
                    lostMs = Math.max(lostMs, killedMs - Long.parseLong(parts[0]));
                }
            }
            told.add(after + ", the oldest change lost was " + lostMs + " ms old");
            assertTrue(lostMs <= MAY_BE_LOST_MS + busyMs, told.toString());
        }
        Files.writeString(Path.of("target", "kills-desk.txt"), String.join("\n", told) + "\n");
    }

    /** As the desk and any command reads it: a file that is not whole is refused. */
    private static int limitIn(Path recording) throws IOException {
        InputFile input = new InputFile(recording, InputFile.stemOf(recording));
        double limitM3PerS = OpenRecording.read(input, EstimateOptions.none())
                .setup()
                .limitM3PerS()
                .orElseThrow()
                .value();
        double cm3PerMin = limitM3PerS * 60e6;
        assertEquals(Math.rint(cm3PerMin), cm3PerMin, 1e-6);
        return (int) Math.rint(cm3PerMin);
    }

    /** Sleeps, and tells by how many ms a thread that asks for 10 ms at a time was kept waiting in the last of it. */
    private static long sleepAndMeasureDelays(int ms) throws InterruptedException {
        long untilNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(ms);
        long delaysNs = 0;
        for (long now = System.nanoTime(); now < untilNs; ) {
            Thread.sleep(10);
            long next = System.nanoTime();
            if (untilNs - next < TimeUnit.MILLISECONDS.toNanos(LOOK_BACK_MS)) {
                delaysNs += Math.max(0, next - now - 10_000_000);
            }
            now = next;
        }
        return TimeUnit.NANOSECONDS.toMillis(delaysNs);
    }
}
