package org.holdtrace.command;

import java.util.concurrent.TimeUnit;
import org.holdtrace.wording.Figures;

/** How far a copy is, as one line that is drawn over; shown to a person only. */
final class FetchBar {
    private static final long EVERY_NS = TimeUnit.MILLISECONDS.toNanos(200);
    private static final int WIDTH = 30;
    private static final double MB = 1e6;

    private final Streams streams;
    private long nextNs = System.nanoTime() + EVERY_NS;
    private int drawn;

    FetchBar(Streams streams) {
        this.streams = streams;
    }

    /** Draws it where it is time to. */
    void show(String name, long done, long total) {
        long nowNs = System.nanoTime();
        if (!streams.errIsTerminal() || nowNs - nextNs < 0) {
            return;
        }
        nextNs = nowNs + EVERY_NS;
        String line = line(name, done, total);
        streams.err().print("\r" + line + " ".repeat(Math.max(0, drawn - line.length())));
        streams.err().flush();
        drawn = line.length();
    }

    static String line(String name, long done, long total) {
        int filled = total == 0 ? WIDTH : (int) (WIDTH * done / total);
        return "[" + "#".repeat(filled) + ".".repeat(WIDTH - filled) + "] " + name + ", " + megabytes(done) + " of "
                + megabytes(total) + " MB";
    }

    static String megabytes(long bytes) {
        return Figures.fixed(bytes / MB, bytes < 100 * MB ? 2 : 0);
    }

    /** Wipes it before something else is printed. */
    void clear() {
        if (drawn > 0) {
            streams.err().print("\r" + " ".repeat(drawn) + "\r");
            streams.err().flush();
            drawn = 0;
        }
    }
}
