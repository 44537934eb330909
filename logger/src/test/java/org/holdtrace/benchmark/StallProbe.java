package org.holdtrace.benchmark;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.locks.LockSupport;

/**
 * Sleeps a quarter of a millisecond at a time and tells each time it was woken late: what a computer does to a thread that
 * does nothing, and so nobody's fault who runs beside it at a lower priority. To be started once for each processor, tied
 * to it, above what is measured. Called with a number of seconds; prints when each stall began and ended, ns of
 * {@link System#nanoTime}, which on Linux all processes share.
 */
public final class StallProbe {
    private static final long PERIOD_NS = 250_000;

    /** Four times what waking takes where nothing keeps it; several such in a row cost a sample too. */
    private static final long STALL_NS = 100_000;

    private static final int MOST = 1 << 21;

    private StallProbe() {}

    /** Probes. */
    public static void main(String[] args) {
        long endNs = System.nanoTime() + Long.parseLong(args[0]) * 1_000_000_000L;
        long[] fromNs = new long[MOST];
        long[] untilNs = new long[MOST];
        int stalls = 0;
        for (long dueNs = System.nanoTime(); dueNs < endNs && stalls < MOST; dueNs += PERIOD_NS) {
            for (long left = dueNs - System.nanoTime(); left > 0; left = dueNs - System.nanoTime()) {
                LockSupport.parkNanos(left);
            }
            long nowNs = System.nanoTime();
            if (nowNs - dueNs > STALL_NS) {
                fromNs[stalls] = dueNs;
                untilNs[stalls++] = nowNs;
                dueNs = nowNs;
            }
        }
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        for (int i = 0; i < stalls; i++) {
            out.println(fromNs[i] + " " + untilNs[i]);
        }
    }
}
