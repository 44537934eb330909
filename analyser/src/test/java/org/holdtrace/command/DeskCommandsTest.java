package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.desk.work.Commands;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the desk has the commands write. */
class DeskCommandsTest {
    private static final Path RECORDING = Path.of("..", "demo-data", "08-thistle-clamp.csv");

    @TempDir
    Path folder;

    private final Commands commands = new Main(new FileSteps())::forDesk;

    @Test
    void aReportIsWritten() throws IOException {
        Path report = folder.resolve("report.pdf");
        Commands.Told told = commands.run(
                List.of("report", RECORDING.toString(), "--out", report.toString(), "--units", "psi, in3"));
        assertEquals(0, told.exitCode(), told.err());
        assertEquals("%PDF", new String(Files.readAllBytes(report), 0, 4, StandardCharsets.US_ASCII));
    }

    @Test
    void whatGoesWrongIsTold() {
        Commands.Told told = commands.run(List.of("export", "nowhere.hold", "--out", folder.toString(), "--replace"));
        assertEquals(1, told.exitCode());
        assertTrue(told.err().contains("nowhere.hold: there is no such file or folder"), told.err());
        assertFalse(told.err().contains("holdtrace: "), told.err());
    }
}
