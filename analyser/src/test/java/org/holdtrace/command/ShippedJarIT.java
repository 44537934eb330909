package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The one runnable jar, called as people call it. */
class ShippedJarIT {
    private static final Path JAR = Path.of("target", "analyser.jar");

    @TempDir
    Path folder;

    private record Ended(int exitCode, String out, String err) {}

    private Ended call(String... words) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.add("-jar");
        command.add(JAR.toAbsolutePath().toString());
        command.addAll(List.of(words));
        Path out = folder.resolve("out.txt");
        Path err = folder.resolve("err.txt");
        Process process = new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectOutput(out.toFile())
                .redirectError(err.toFile())
                .start();
        assertTrue(process.waitFor(60, TimeUnit.SECONDS), "did not end within a minute");
        return new Ended(
                process.exitValue(),
                Files.readString(out, StandardCharsets.UTF_8),
                Files.readString(err, StandardCharsets.UTF_8));
    }

    @Test
    void helpComesFromTheJar() throws IOException, InterruptedException {
        Ended help = call("--help");
        assertEquals(0, help.exitCode(), help.err());
        assertEquals("", help.err());
        assertTrue(help.out().startsWith("Holdtrace: "), help.out());
    }

    @Test
    void aCallWithoutACommandExits2() throws IOException, InterruptedException {
        Ended call = call();
        assertEquals(2, call.exitCode());
        assertEquals("", call.out());
        assertEquals(1, call.err().lines().count());
    }
}
