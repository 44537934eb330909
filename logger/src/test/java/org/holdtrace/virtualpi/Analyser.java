package org.holdtrace.virtualpi;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The shipped analyser on the computer at the other end of the cable. */
final class Analyser {
    static final Path JAR = Path.of("..", "analyser", "target", "analyser.jar").toAbsolutePath();
    private static final int PATIENCE_S = 240;
    private static final int MOST_TRIES = 5;

    private final Path folder;

    Analyser(Path folder) {
        this.folder = folder;
    }

    /** A call that runs on; what it says comes into the file {@code output}. */
    Process start(String output, String... words) throws IOException {
        List<String> command = new ArrayList<>(
                List.of(Path.of(System.getProperty("java.home"), "bin", "java").toString(), "-jar", JAR.toString()));
        command.addAll(List.of(words));
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve(output).toFile())
                .start();
        process.getOutputStream().close();
        return process;
    }

    String said(String output) {
        try {
            return Files.readString(folder.resolve(output));
        } catch (IOException e) {
            return "";
        }
    }

    /** A {@code live} that shows something: a guest that has just begun may be too slow to answer the first one. */
    Process follow(String output, Path port) throws IOException, InterruptedException {
        for (int i = 1; ; i++) {
            Process process = start(output, "live", port.toString());
            while (process.isAlive() && !said(output).contains(" bar | ")) {
                Thread.sleep(100);
            }
            if (process.isAlive()) {
                return process;
            }
            assertTrue(i < MOST_TRIES, said(output));
        }
    }

    /** Waits for a call to end well; returns what it said. */
    String ended(Process process, String output) throws InterruptedException {
        boolean ended = process.waitFor(PATIENCE_S, TimeUnit.SECONDS);
        process.destroyForcibly();
        assertTrue(ended, output + " did not end: " + said(output));
        assertEquals(0, process.exitValue(), said(output));
        return said(output);
    }

    String call(String output, String... words) throws IOException, InterruptedException {
        return ended(start(output, words), output);
    }

    /** Fetches all sessions into a folder; returns them in the order of recording. */
    List<Path> fetch(Path port, String into) throws IOException, InterruptedException {
        call(
                into + ".txt",
                "fetch",
                port.toString(),
                "--out",
                folder.resolve(into).toString());
        return sessions(into);
    }

    List<Path> sessions(String into) throws IOException {
        try (Stream<Path> files = Files.list(folder.resolve(into))) {
            return files.filter(file -> file.toString().endsWith(".hold"))
                    .sorted()
                    .toList();
        }
    }

    /** The leak rate of the first hold test and its 95 % interval, cm³/min. */
    Leak leak(Path session) throws IOException, InterruptedException {
        String json = call("analysis.json", "analyse", session.toString(), "--json");
        return new Leak(number(json, "cm3PerMin"), number(json, "lower95"), number(json, "upper95"));
    }

    record Leak(double cm3PerMin, double lower95, double upper95) {}

    private static double number(String json, String name) {
        Matcher matcher = Pattern.compile("\"leak\"\\s*:\\s*\\{[^}]*?\"" + name + "\"\\s*:\\s*([-+0-9.eE]+)")
                .matcher(json);
        assertTrue(matcher.find(), json);
        return Double.parseDouble(matcher.group(1));
    }
}
