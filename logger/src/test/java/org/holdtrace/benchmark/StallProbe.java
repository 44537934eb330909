package org.holdtrace.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.locks.LockSupport;

/**
 * Sleeps a quarter of a millisecond at a time and tells each time it was woken late: what a computer does to a thread that
 * does nothing. What the kernel has booked as waiting for the processor meanwhile is taken off: then others ran, and the
 * processor did not stand still. To be started once for each processor, tied to it. Called with a number of seconds; prints
 * when each stall began and ended, ns of {@link System#nanoTime}, which on Linux all processes share.
 */
public final class StallProbe {
    private static final long PERIOD_NS = 250_000;

    /** Four times what waking takes where nothing keeps it; several such in a row cost a sample too. */
    private static final long STALL_NS = 100_000;

    private static final int MOST = 1 << 21;

    private StallProbe() {}

    /** Probes. */
    public static void main(String[] args) throws IOException {
        long endNs = System.nanoTime() + Long.parseLong(args[0]) * 1_000_000_000L;
        long[] fromNs = new long[MOST];
        long[] untilNs = new long[MOST];
        int stalls = 0;
        try (Schedstat own = Schedstat.ofThisThread()) {
            for (long dueNs = System.nanoTime(); dueNs < endNs && stalls < MOST; dueNs += PERIOD_NS) {
                for (long left = dueNs - System.nanoTime(); left > 0; left = dueNs - System.nanoTime()) {
                    LockSupport.parkNanos(left);
                }
                long nowNs = System.nanoTime();
                long waitedNs = own.waitedNs();
                own.read();
                waitedNs = own.waitedNs() - waitedNs;
                if (nowNs - dueNs > STALL_NS) {
                    if (nowNs - dueNs - waitedNs > STALL_NS) {
                        // First the timer came late, then it waited.
                        fromNs[stalls] = dueNs;
                        untilNs[stalls++] = nowNs - waitedNs;
                    }
                    dueNs = nowNs;
                }
            }
        }
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        for (int i = 0; i < stalls; i++) {
            out.println(fromNs[i] + " " + untilNs[i]);
        }
    }
}
