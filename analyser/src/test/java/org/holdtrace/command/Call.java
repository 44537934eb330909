package org.holdtrace.command;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/** One call of the program with everything it printed. */
record Call(int exitCode, String out, String err) {
    static Call of(Steps steps, Object... words) {
        return of(steps, false, words);
    }

    /** A call whose error stream is a terminal. */
    static Call atTerminal(Steps steps, Object... words) {
        return of(steps, true, words);
    }

    private static Call of(Steps steps, boolean terminal, Object... words) {
        String[] args = new String[words.length];
        for (int i = 0; i < words.length; i++) {
            args[i] = words[i].toString();
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code;
        try (PrintStream outStream = new PrintStream(out, false, StandardCharsets.UTF_8);
                PrintStream errStream = new PrintStream(err, false, StandardCharsets.UTF_8)) {
            code = new Main(steps).run(args, new Streams(outStream, errStream, terminal));
        }
        return new Call(code, text(out), text(err));
    }

    private static String text(ByteArrayOutputStream bytes) {
        return bytes.toString(StandardCharsets.UTF_8).replace(System.lineSeparator(), "\n");
    }
}
