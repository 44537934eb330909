package org.holdtrace.desk.work;

import java.util.List;

/** The commands of the command line, so that what the desk writes is what they write. */
@FunctionalInterface
public interface Commands {
    /** No command is to be had, as in a window without its program. */
    Commands NONE = words -> new Told(2, "", "no command can be called here");

    /**
     * What a call said.
     *
     * @param exitCode 0 where all was done
     * @param out its results
     * @param err its problems, a line each
     */
    record Told(int exitCode, String out, String err) {}

    /** Calls {@code words} as the command line would; takes as long as that takes: not on the event thread. */
    Told run(List<String> words);
}
