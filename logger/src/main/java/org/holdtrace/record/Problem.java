package org.holdtrace.record;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.util.Locale;

/**
 * Why sessions cannot be written as they should.
 *
 * @param name stable: {@code disk.full}, {@code disk.low}, {@code disk.read-only}, {@code disk.write}, {@code disk.slow}
 * @param text what a person should know
 * @param grave whether samples are at stake
 */
public record Problem(String name, String text, boolean grave) {
    /** What {@code e} says when {@code doing} was tried. */
    static Problem of(IOException e, String doing) {
        String reason = e instanceof FileSystemException file && file.getReason() != null
                ? file.getReason()
                : String.valueOf(e.getMessage());
        String lower = reason.toLowerCase(Locale.ROOT);
        String name = "disk.write";
        if (lower.contains("no space left") || lower.contains("quota")) {
            name = "disk.full";
        } else if (lower.contains("read-only")) {
            name = "disk.read-only";
        }
        return new Problem(name, doing + ": " + reason, true);
    }
}
