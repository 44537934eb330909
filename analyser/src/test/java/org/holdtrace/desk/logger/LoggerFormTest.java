package org.holdtrace.desk.logger;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.work.DeskState;
import org.holdtrace.remote.NetworkLoggers;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LoggerFormTest {
    @TempDir
    Path folder;

    @Test
    void whoWaitsForAnAnnouncementIsToldWhatToDoWithoutOne() throws Exception {
        try (DeskState state = DeskState.in(folder)) {
            SwingUtilities.invokeAndWait(() -> {
                LoggerForm form = new LoggerForm(new LoggerMemory(state));
                assertEquals("", form.announced());
                form.nothingSoFar();
                assertTrue(form.announced().startsWith("None has announced itself so far"), form.announced());
                form.heard(new NetworkLoggers.Announced("bench 2", "1", "192.0.2.7:28650"));
                String heard = form.announced();
                assertEquals("On the network: 192.0.2.7:28650 (bench 2, link version 1)", heard);
                form.nothingSoFar();
                assertEquals(heard, form.announced());
            });
        }
    }
}
