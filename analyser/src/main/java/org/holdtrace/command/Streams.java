package org.holdtrace.command;

import java.io.PrintStream;

/**
 * Where a command talks: results on {@code out}, everything else on {@code err}. Commands are handed their streams, so
 * that no test has to swap those of the process.
 *
 * @param out results, UTF-8
 * @param err problems, hints, progress
 * @param errIsTerminal whether a person watches {@code err}; only then is progress shown
 * @param outIsTerminal whether a person watches {@code out}; only then is a line drawn over there
 * @param speaker what each line of a problem begins with, empty where nobody else speaks
 */
record Streams(PrintStream out, PrintStream err, boolean errIsTerminal, boolean outIsTerminal, String speaker) {
    /** The program's name, so that its problems are told from the caller's own messages. */
    private static final String PROGRAM = "holdtrace: ";

    Streams(PrintStream out, PrintStream err, boolean errIsTerminal, boolean outIsTerminal) {
        this(out, err, errIsTerminal, outIsTerminal, PROGRAM);
    }

    /** Streams of which {@code out} leads into a file or another program. */
    Streams(PrintStream out, PrintStream err, boolean errIsTerminal) {
        this(out, err, errIsTerminal, false);
    }

    /** Streams to the desk, where only this program speaks. */
    static Streams toDesk(PrintStream out, PrintStream err) {
        return new Streams(out, err, false, false, "");
    }

    /** Prints a problem, each line begun with the {@link #speaker}. */
    void problem(String sentence) {
        for (String line : sentence.split("\n", -1)) {
            err.println(speaker + line);
        }
    }
}
