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

    /** What is handed in waits at most for a block and for the next force; the rest is for a computer under load. */
    private static final Duration MAY_BE_LOST = Duration.ofSeconds(1);

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
        for (int kill = 1; kill <= KILLS; kill++) {
            Process process = logger("run", "--panel", "none");
            awaitSessions(process, kill);
            Thread.sleep(random.nextInt(200, 3000));
            Instant killed = Instant.now();
            process.destroyForcibly();
            assertTrue(process.waitFor(10, TimeUnit.SECONDS));
            Session session = HoldFileReader.read(sessions().get(kill - 1));
            assertTrue(session.end().isEmpty());
            Instant last = session.header()
                    .startedAt()
                    .orElseThrow()
                    .plusNanos(session.timesNs(0)[session.sampleCount(0) - 1]);
            Duration lost = Duration.between(last, killed);
            assertTrue(lost.compareTo(MAY_BE_LOST) < 0, "kill " + kill + " lost " + lost);
        }
        Process mending = logger("mend");
        assertTrue(mending.waitFor(30, TimeUnit.SECONDS));
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

    private void awaitSessions(Process process, int number) throws IOException, InterruptedException {
        // A Java machine that gets a twentieth of a processor takes half a minute to start.
        for (int i = 0; i < 3600 && process.isAlive() && sessions().size() < number; i++) {
            Thread.sleep(50);
        }
        assertEquals(number, sessions().size(), Files.readString(folder.resolve("said.txt")));
    }

    @Test
    void aSecondLoggerInTheSameFolderIsRefused() throws IOException, InterruptedException {
        Files.writeString(folder.resolve("bench.rig.json"), RIG);
        Process first = logger("run", "--panel", "none");
        try {
            for (int i = 0;
                    i < 600 && !Files.readString(folder.resolve("said.txt")).contains("at work");
                    i++) {
                Thread.sleep(50);
            }
            Process second = logger("mend");
            assertTrue(second.waitFor(30, TimeUnit.SECONDS));
            assertEquals(1, second.exitValue());
            assertTrue(Files.readString(folder.resolve("said.txt")).contains("a logger is at work in"));
        } finally {
            first.destroy();
            assertTrue(first.waitFor(15, TimeUnit.SECONDS));
            assertEquals(143, first.exitValue()); // ended by SIGTERM, as a service manager does
        }
    }
}
