package org.holdtrace.command;

/**
 * How far a long run is, as one line that is drawn over. Shown to a person only, and only once the work has taken a
 * second: a bar that flashes by helps nobody.
 */
final class Progress {
    private static final long PATIENCE_NS = 1_000_000_000L;
    private static final int BAR_WIDTH = 30;

    private final Streams streams;
    private final int total;
    private final long startNs = System.nanoTime();
    private int drawn;

    Progress(Streams streams, int total) {
        this.streams = streams;
        this.total = total;
    }

    /** Draws the bar for {@code done} finished inputs, if it is time to. */
    void show(int done) {
        long elapsedNs = System.nanoTime() - startNs;
        if (!streams.errIsTerminal() || elapsedNs < PATIENCE_NS) {
            return;
        }
        String line = line(done, total, elapsedNs / PATIENCE_NS);
        streams.err().print("\r" + line);
        streams.err().flush();
        drawn = line.length();
    }

    /** Wipes the bar before something else is printed. */
    void clear() {
        if (drawn > 0) {
            streams.err().print("\r" + " ".repeat(drawn) + "\r");
            streams.err().flush();
            drawn = 0;
        }
    }

    static String line(int done, int total, long elapsedS) {
        int filled = (int) ((long) BAR_WIDTH * done / total);
        return "[" + "#".repeat(filled) + ".".repeat(BAR_WIDTH - filled) + "] " + done + " of " + total + ", "
                + elapsedS + " s";
    }
}
