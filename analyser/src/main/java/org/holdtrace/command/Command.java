package org.holdtrace.command;

import java.io.IOException;
import java.util.List;

/** One command of the program. */
interface Command {
    /** The word that calls it. */
    String name();

    /** One line for the list of commands. */
    String summary();

    /** What follows the name, for the first line of the help. */
    String synopsis();

    /** Paragraphs for the help, each a line of at most 100 columns. */
    List<String> description();

    /** The options it understands, {@code --help} aside. */
    List<Option> options();

    /**
     * Does it.
     *
     * @return the exit code
     * @throws UsageException if the call was wrong
     * @throws IOException if results cannot be written
     */
    int run(Arguments arguments, Streams streams) throws UsageException, IOException;
}
