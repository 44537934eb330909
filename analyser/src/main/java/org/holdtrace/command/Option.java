package org.holdtrace.command;

import java.util.List;

/**
 * One option a command understands.
 *
 * @param name as typed, with its dashes
 * @param valueName what stands for the value in the help; null for a switch without a value
 * @param help one or more lines for the help text
 */
record Option(String name, String valueName, List<String> help) {
    Option {
        help = List.copyOf(help);
    }

    /** A switch without a value. */
    static Option flag(String name, String... help) {
        return new Option(name, null, List.of(help));
    }

    /** An option with a value. */
    static Option valued(String name, String valueName, String... help) {
        return new Option(name, valueName, List.of(help));
    }

    boolean takesValue() {
        return valueName != null;
    }
}
