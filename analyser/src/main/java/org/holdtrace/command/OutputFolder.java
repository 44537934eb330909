package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.library.Failures;

/** Where results are written to. */
final class OutputFolder {
    private OutputFolder() {}

    /** The folder option {@code option} names, made if it is not there. */
    static Path create(String option, String folder) throws UsageException {
        Path path = Inputs.path(folder);
        try {
            return Files.createDirectories(path);
        } catch (IOException e) {
            throw new UsageException(option + ": the folder cannot be made; " + Failures.sentence(folder, e));
        }
    }

    /**
     * Refuses to write over what is there: a recording cannot be made again. A file of no length holds nothing to lose.
     */
    static void refuseExisting(List<Path> targets, String wayOut) throws UsageException, IOException {
        for (Path target : targets) {
            if (Files.exists(target) && Files.size(target) > 0) {
                throw new UsageException(
                        target + " is there already and is not written over; " + wayOut + " would do so");
            }
        }
    }
}
