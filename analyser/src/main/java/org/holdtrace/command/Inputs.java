package org.holdtrace.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.holdtrace.library.Failures;
import org.holdtrace.library.InputFile;

/**
 * What a call's PATH operands stand for.
 *
 * @param files sessions and traces in the order given, those of a folder by name
 * @param problems a sentence for each operand that stands for nothing
 */
record Inputs(List<InputFile> files, List<String> problems) {
    /** Looks the operands up; a path that does not exist or an empty folder is a problem, not an end. */
    static Inputs find(List<String> operands) throws UsageException {
        if (operands.isEmpty()) {
            throw new UsageException("a session (.hold), a trace (.csv) or a folder of them is missing");
        }
        List<InputFile> files = new ArrayList<>();
        List<String> problems = new ArrayList<>();
        Set<String> stems = new HashSet<>();
        for (String operand : operands) {
            try {
                Path given = path(operand);
                Files.readAttributes(given, BasicFileAttributes.class); // says why it cannot be had
                if (isSetup(given)) {
                    problems.add(operand
                            + ": a setup, no recording; expected the session (.hold) or trace (.csv) of the same"
                            + " name. A setup beside it is read with it, another one by --setup");
                    continue;
                }
                List<Path> inside = InputFile.inside(given);
                if (inside.isEmpty()) {
                    problems.add(operand + ": no session (.hold) and no trace (.csv) in this folder");
                }
                for (Path path : inside) {
                    files.add(new InputFile(path, uniqueStem(InputFile.stemOf(path), stems)));
                }
            } catch (IOException e) {
                problems.add(Failures.sentence(operand, e));
            }
        }
        return new Inputs(files, problems);
    }

    private static boolean isSetup(Path given) {
        return given.toString().endsWith(InputFile.SETUP_ENDING) && Files.isRegularFile(given);
    }

    /** Names the problems on the error stream and says how many there are. */
    int name(Streams streams) {
        for (String problem : problems) {
            streams.problem(problem);
        }
        return problems.size();
    }

    /** {@code text} as a path. */
    static Path path(String text) throws UsageException {
        try {
            return Path.of(text);
        } catch (InvalidPathException e) {
            throw new UsageException("\"" + text + "\" is not a path: " + e.getReason());
        }
    }

    /** Lower case decides, since some file systems tell "A" from "a" and some do not. */
    private static String uniqueStem(String stem, Set<String> taken) {
        String candidate = stem;
        for (int n = 2; !taken.add(candidate.toLowerCase(Locale.ROOT)); n++) {
            candidate = stem + "-" + n;
        }
        return candidate;
    }
}
