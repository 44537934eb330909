package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A folder results are written to. */
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
}
