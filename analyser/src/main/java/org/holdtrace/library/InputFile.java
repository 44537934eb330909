package org.holdtrace.library;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * A session or trace to work on.
 *
 * @param path where it is, as it was given or found in a folder that was given
 * @param stem its name without folder and ending, made unique among the inputs of one call, so that files written for
 *     two inputs of one name do not overwrite each other
 */
public record InputFile(Path path, String stem) {
    /** How the names of sessions end. */
    public static final String SESSION_ENDING = ".hold";
    /** How the names of traces end. */
    public static final String TRACE_ENDING = ".csv";
    /** How the names of setups end. */
    public static final String SETUP_ENDING = ".setup.json";

    /** The name in output: the file's own, without the folder. */
    public String name() {
        return path.getFileName().toString();
    }

    /** Whether it is a session, and so not a trace. */
    public boolean isSession() {
        return name().endsWith(SESSION_ENDING);
    }

    /** Where this input's setup would stand beside it. */
    public Path setupBeside() {
        return path.resolveSibling(stemOf(path) + SETUP_ENDING);
    }

    /** Sessions and traces that stand directly in a folder, by name; a file stands for itself. */
    public static List<Path> inside(Path given) throws IOException {
        if (!Files.isDirectory(given)) {
            return List.of(given);
        }
        List<Path> found = new ArrayList<>();
        try (DirectoryStream<Path> children = Files.newDirectoryStream(given)) {
            for (Path child : children) {
                String name = child.getFileName().toString();
                if ((name.endsWith(SESSION_ENDING) || name.endsWith(TRACE_ENDING)) && Files.isRegularFile(child)) {
                    found.add(child);
                }
            }
        } catch (DirectoryIteratorException e) {
            throw e.getCause();
        }
        Collections.sort(found);
        return found;
    }

    /** A file's name without folder and ending. */
    public static String stemOf(Path path) {
        String name = path.getFileName().toString();
        for (String ending : List.of(SESSION_ENDING, TRACE_ENDING)) {
            if (name.endsWith(ending) && name.length() > ending.length()) {
                return name.substring(0, name.length() - ending.length());
            }
        }
        return name;
    }
}
