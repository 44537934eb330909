package org.holdtrace.firmware;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.SetupWriter;
import org.holdtrace.session.TestSetup;

/** Keeps what is known of the next test, so that it is still known when the power comes back. */
final class PlanFile {
    private static final String NAME = "plan.setup.json";

    private final Path file;

    PlanFile(Path folder) {
        file = folder.resolve(NAME);
    }

    /** What was kept; a plan that knows nothing where there is none. */
    TestSetup read() throws IOException {
        return Files.exists(file) ? SetupReader.read(file) : TestSetup.unknown();
    }

    /** Keeps {@code plan}, on the disk when this returns. */
    void write(TestSetup plan) throws IOException {
        Path next = file.resolveSibling(NAME + ".new");
        SetupWriter.write(plan, next);
        try (FileChannel channel = FileChannel.open(next, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
        Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    }
}
