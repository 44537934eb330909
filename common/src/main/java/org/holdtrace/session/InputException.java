package org.holdtrace.session;

import java.io.IOException;
import java.util.List;

/** Input that cannot be used. The message says which file, where in it, what was found and what was expected. */
public final class InputException extends IOException {
    private static final long serialVersionUID = 1L;

    /**
     * @param file name of the file as the user gave it
     * @param place where in the file ("line 12", "field pumpStroke", "byte 4096"); empty for the whole file
     * @param found what stands there
     * @param expected what would have been right
     */
    public InputException(String file, String place, String found, String expected) {
        super(file + (place.isEmpty() ? "" : ", " + place) + ": " + found + "; expected " + expected);
    }

    private InputException(String message) {
        super(message);
    }

    /** All that is wrong with one input at once, one line each; a single problem is handed back as it is. */
    public static InputException all(List<InputException> problems) {
        if (problems.size() == 1) {
            return problems.get(0);
        }
        StringBuilder lines = new StringBuilder();
        for (InputException problem : problems) {
            lines.append(lines.isEmpty() ? "" : "\n").append(problem.getMessage());
        }
        return new InputException(lines.toString());
    }
}
