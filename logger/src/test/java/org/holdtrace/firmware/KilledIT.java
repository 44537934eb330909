package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The shipped jar, killed as nothing can be that is still asked: what it had recorded must be there. */
class KilledIT {
    private static final Path JAR = Path.of("target", "logger.jar").toAbsolutePath();
    /** Few in the usual build; {@code -Dkills=200} to be thorough. */
    private static final int KILLS = Integer.getInteger("kills", 4);

    /** What is handed in waits at most for a block and for the next force. */
    private static final Duration MAY_BE_LOST = Duration.ofSeconds(1);

    /** Delays of this test's own so long before a kill are taken for those of the logger: the computer was busy. */
    private static final long LOOK_BACK_NS = 3_000_000_000L;

    /** Longer than any computer takes; what is waited for is the end, not this. */
    private static final long FAR_TOO_LONG_S = 600;

    private static final String RIG = """
            { "note": "Invented.", "trappedVolume": "200 cm3", "pump": { "stroke": "0.6 cm3" },
              "transducer": { "upTo": "250 bar", "whiteNoise": "0.03 bar" },
              "tests": [ { "rest": "2 s", "target": "80 bar", "hold": "60 s" } ] }
            """;

    @TempDir
    Path folder;

    private Process logger(String... words) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:+UseSerialGC",
                "-jar",
                JAR.toString()));
        command.addAll(List.of(words));
        command.addAll(List.of(
                "--simulate",
                folder.resolve("bench.rig.json").toString(),
                "--data",
                folder.resolve("data").toString()));
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("said.txt").toFile())
                .start();
    }

    private List<Path> sessions() throws IOException {
        if (Files.notExists(folder.resolve("data"))) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(folder.resolve("data"))) {
            return files.filter(file -> file.toString().endsWith(".hold"))
                    .sorted()
                    .toList();
        }
    }

    @Test
    void killedAtRandomMomentsItLosesLessThanASecondAndTheNextStartMends() throws IOException, InterruptedException {
        Files.writeString(folder.resolve("bench.rig.json"), RIG);
        SplittableRandom random = new SplittableRandom(99);
        Duration most = Duration.ZERO;
        Duration mostBusy = Duration.ZERO;
        for (int kill = 1; kill <= KILLS; kill++) {
            Process process = logger("run", "--panel", "none");
            awaitSessions(process, kill);
            Duration busy = sleepAndMeasureDelays(random.nextInt(200, 3000));
            Instant killed = Instant.now();
            process.destroyForcibly();
            awaitEnd(process);
            Session session = HoldFileReader.read(sessions().get(kill - 1));
            assertTrue(session.end().isEmpty());
            Instant last = session.header()
                    .startedAt()
                    .orElseThrow()
                    .plusNanos(session.timesNs(0)[session.sampleCount(0) - 1]);
            Duration lost = Duration.between(last, killed);
            assertTrue(
                    lost.compareTo(MAY_BE_LOST.plus(busy)) < 0,
                    "kill " + kill + " lost " + lost + ", the computer was busy for " + busy);
            most = lost.compareTo(most) > 0 ? lost : most;
            mostBusy = busy.compareTo(mostBusy) > 0 ? busy : mostBusy;
        }
        Files.writeString(
                Path.of("target", "kills.txt"),
                KILLS + " kills, lost at most " + most + ", the computer was busy for at most " + mostBusy
                        + " of the last seconds\n");
        Process mending = logger("mend");
        awaitEnd(mending);
        String said = Files.readString(folder.resolve("said.txt"));
        assertEquals(0, mending.exitValue(), said);
        // The starts between have mended all but the last.
        assertTrue(
                said.matches("(?s).*-" + String.format(Locale.ROOT, "%04d", KILLS)
                        + "\\.hold was cut short after .*; closed\\R"),
                said);
        for (Path file : sessions()) {
            assertTrue(HoldFileReader.read(file).end().isPresent(), file.toString());
        }
    }

    /** Sleeps, and tells by how much a thread that asks for 10 ms at a time was kept waiting in the last seconds of it. */
    private static Duration sleepAndMeasureDelays(int ms) throws InterruptedException {
        long untilNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(ms);
        long delaysNs = 0;
        for (long now = System.nanoTime(); now < untilNs; ) {
            Thread.sleep(10);
            long next = System.nanoTime();
            if (untilNs - next < LOOK_BACK_NS) {
                delaysNs += Math.max(0, next - now - 10_000_000);
            }
            now = next;
        }
        return Duration.ofNanos(delaysNs);
    }

    private void awaitSessions(Process process, int number) throws IOException, InterruptedException {
        awaitOrEnd(process, () -> sessions().size() >= number);
        assertEquals(number, sessions().size(), Files.readString(folder.resolve("said.txt")));
    }

    private interface Event {
        boolean come() throws IOException;
    }

    /** Waits until {@code event} has come or the process, which alone can make it come, has ended. */
    private static void awaitOrEnd(Process process, Event event) throws IOException, InterruptedException {
        long untilNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(FAR_TOO_LONG_S);
        while (process.isAlive() && !event.come() && System.nanoTime() < untilNs) {
            Thread.sleep(50);
        }
    }

    private static void awaitEnd(Process process) throws InterruptedException {
        assertTrue(process.waitFor(FAR_TOO_LONG_S, TimeUnit.SECONDS));
    }

    @Test
    void aSecondLoggerInTheSameFolderIsRefused() throws IOException, InterruptedException {
        Files.writeString(folder.resolve("bench.rig.json"), RIG);
        Process first = logger("run", "--panel", "none");
        try {
            awaitOrEnd(first, () -> Files.readString(folder.resolve("said.txt")).contains("at work"));
            Process second = logger("mend");
            awaitEnd(second);
            assertEquals(1, second.exitValue());
            assertTrue(Files.readString(folder.resolve("said.txt")).contains("a logger is at work in"));
        } finally {
            first.destroy();
            awaitEnd(first);
            assertEquals(143, first.exitValue()); // ended by SIGTERM, as a service manager does
        }
    }
}
