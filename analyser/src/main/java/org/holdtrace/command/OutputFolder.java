package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Where results are written to. */
final class OutputFolder {
    private OutputFolder() {}

    /**
     * The folder option {@code option} names, made if it is not there.
     *
     * @throws UsageException where it names what is no folder
     * @throws IOException where the disk does not take it: full, read-only, not this user's
     */
    static Path create(String option, String folder) throws UsageException, IOException {
        Path path = Inputs.path(folder);
        for (Path part = path.toAbsolutePath(); part != null; part = part.getParent()) {
            if (Files.exists(part) && !Files.isDirectory(part)) {
                throw new UsageException(option + ": " + part + " is a file; expected a folder");
            }
        }
        return Files.createDirectories(path);
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
