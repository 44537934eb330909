package org.holdtrace.command;

import java.nio.file.Path;

/** What the command {@code case} prints, for tests of what else shows a case. */
public final class CaseTexts {
    private CaseTexts() {}

    /** All of it for the case in {@code file}. */
    public static String of(Path file) {
        return Call.of(new FileSteps(), "case", file).out();
    }
}
