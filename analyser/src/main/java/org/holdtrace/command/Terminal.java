package org.holdtrace.command;

import java.io.Console;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Tells a terminal, where a person watches, from a pipe or a file. */
final class Terminal {
    /** On Linux the process's error stream is a link to what it is connected to. */
    private static final Path ERROR_STREAM = Path.of("/proc/self/fd/2");

    private static final Path OUTPUT_STREAM = Path.of("/proc/self/fd/1");

    private Terminal() {}

    /**
     * Whether standard error is a terminal. Where the system does not tell, it is taken for one if the process has a
     * console, which Java gives only where input and output are not redirected.
     */
    static boolean isAtStandardError() {
        return isAt(ERROR_STREAM);
    }

    /** Whether standard output is a terminal, told likewise. */
    static boolean isAtStandardOutput() {
        return isAt(OUTPUT_STREAM);
    }

    private static boolean isAt(Path stream) {
        if (Files.isSymbolicLink(stream)) {
            try {
                String target = Files.readSymbolicLink(stream).toString();
                return target.startsWith("/dev/pts/") || target.startsWith("/dev/tty");
            } catch (IOException e) {
                return false;
            }
        }
        return hasConsole();
    }

    /** From Java 22 on there is always a console object, which has to be asked; before, there is one or none. */
    @SuppressWarnings("SystemConsoleNull")
    private static boolean hasConsole() {
        Console console = System.console();
        if (console == null) {
            return false;
        }
        try {
            return (Boolean) Console.class.getMethod("isTerminal").invoke(console);
        } catch (ReflectiveOperationException e) {
            return true;
        }
    }
}
