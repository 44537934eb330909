package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What people and programs read, whole. A wanted change is made in the expected file beside this test's resources. */
class PrintedTextTest {
    @TempDir
    Path folder;

    private final InventedSteps steps = new InventedSteps();

    private static void assertPrinted(String name, String printed) throws IOException {
        Files.writeString(Files.createDirectories(Path.of("target", "printed")).resolve(name), printed);
        try (InputStream in = PrintedTextTest.class.getResourceAsStream("/printed/" + name)) {
            assertEquals(new String(in.readAllBytes(), StandardCharsets.UTF_8), printed);
        }
    }

    private Path file(String name, String word) throws IOException {
        return Files.writeString(folder.resolve(name), word);
    }

    @Test
    void theOverviewNamesEveryCommand() throws IOException {
        Call call = Call.of(steps, "--help");
        assertEquals(0, call.exitCode());
        assertPrinted("help.txt", call.out());
        assertTrue(call.out().lines().allMatch(line -> line.length() <= 100), call.out());
    }

    @ParameterizedTest
    @ValueSource(strings = {"analyse", "report", "export", "live", "fetch", "simulate", "case"})
    void eachCommandExplainsItself(String command) throws IOException {
        Call call = Call.of(steps, command, "--help");
        assertEquals(0, call.exitCode());
        assertEquals("", call.err());
        assertPrinted("help-" + command + ".txt", call.out());
        assertTrue(call.out().lines().allMatch(line -> line.length() <= 100), call.out());
    }

    @Test
    void oneTestIsABlock() throws IOException {
        Call call = Call.of(steps, "analyse", file("port-a.hold", "worn"));
        assertPrinted("analyse-one.txt", call.out());
    }

    @Test
    void severalTestsAreBlocksAndATable() throws IOException {
        Call call = Call.of(
                steps,
                "analyse",
                file("port-a.hold", "worn"),
                file("a-cylinder-with-quite-a-long-file-name.hold", "tight"),
                file("seat.csv", "bare"),
                file("relief.hold", "doubtful"),
                file("no-hold.csv", "no-hold"));
        assertPrinted("analyse-several.txt", call.out());
        assertTrue(call.out().lines().allMatch(line -> line.length() <= 100), call.out());
    }

    @Test
    void jsonHasTheAgreedFieldsInTheAgreedOrder() throws IOException {
        file("port-a.hold", "worn");
        file("seat.csv", "bare");
        file("z-no-hold.csv", "no-hold");
        Call call = Call.of(steps, "analyse", folder, "--json");
        assertPrinted(
                "analyse.json", call.out().replace(folder.toString(), "FOLDER").replace('\\', '/'));
    }

    @Test
    void resultsForSpreadsheetsHaveALineAHoldTest() throws IOException {
        file("port-a.hold", "worn");
        file("seat.csv", "bare");
        file("z-no-hold.csv", "no-hold");
        Call.of(steps, "export", folder, "--out", folder.resolve("out"));
        assertPrinted(
                "results.csv",
                Files.readString(folder.resolve("out/results.csv")).replace("\r\n", "\n"));
        String samples = Files.readString(folder.resolve("out/seat-samples.csv"));
        assertTrue(samples.startsWith("time [s],pressure [bar]\n0.0,0.3"), samples.substring(0, 120));
    }
}
