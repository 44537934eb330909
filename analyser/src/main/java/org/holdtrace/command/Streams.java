package org.holdtrace.command;

import java.io.PrintStream;

/**
 * Where a command talks: results on {@code out}, everything else on {@code err}. Commands are handed their streams, so
 * that no test has to swap those of the process.
 *
 * @param out results, UTF-8
 * @param err problems, hints, progress
 * @param errIsTerminal whether a person watches {@code err}; only then is progress shown
 */
record Streams(PrintStream out, PrintStream err, boolean errIsTerminal) {
    /** Prints a problem, each line begun with the program's name so that it is told from the caller's own messages. */
    void problem(String sentence) {
        for (String line : sentence.split("\n", -1)) {
            err.println("holdtrace: " + line);
        }
    }
}
