package org.holdtrace.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.locks.LockSupport;

/**
 * Looks a thousand times a second at what the kernel has booked for the thread that samples, and writes down when it waited
 * for a processor, and when it ran for long. Called with the process, the thread's name and a number of seconds; ends with
 * that process at the latest. Prints, a line each, {@code wait} or {@code run}, when it began and when it ended, ns of
 * {@link System#nanoTime}, which on Linux all processes share. A wait ended between two looks: it is taken to have ended at
 * the second, or where the next began, and so is a run.
 */
public final class ThreadProbe {
    private static final long PERIOD_NS = 1_000_000;

    /** A usual tick keeps it from sleeping for less than this between two looks. */
    private static final long LEAST_NS = 100_000;

    private static final long THREAD_COMES_WITHIN_NS = 5_000_000_000L;

    private static final int MOST = 1 << 21;

    private final long[] lookedNs = new long[MOST];
    private final long[] lengthNs = new long[MOST];
    private final boolean[] waits = new boolean[MOST];
    private int noted;

    private ThreadProbe() {}

    /** Probes. */
    public static void main(String[] args) throws IOException {
        ThreadProbe probe = new ThreadProbe();
        try (Schedstat thread = await(Long.parseLong(args[0]), args[1])) {
            probe.watch(thread, System.nanoTime() + Long.parseLong(args[2]) * 1_000_000_000L);
        }
        probe.print(true);
        probe.print(false);
    }

    /** The thread, which the process has begun soon after its own start. */
    private static Schedstat await(long pid, String name) throws IOException {
        long sinceNs = System.nanoTime();
        while (true) {
            try {
                return Schedstat.of(pid, name);
            } catch (IOException e) {
                if (System.nanoTime() - sinceNs > THREAD_COMES_WITHIN_NS) {
                    throw e;
                }
                LockSupport.parkNanos(PERIOD_NS);
            }
        }
    }

    /** One thread waits once at a time: what ended between two looks ended before the next began. */
    private void print(boolean ofWaits) {
        long nextFromNs = Long.MAX_VALUE;
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        for (int i = noted - 1; i >= 0; i--) {
            if (waits[i] == ofWaits) {
                long untilNs = Math.min(lookedNs[i], nextFromNs);
                nextFromNs = untilNs - lengthNs[i];
                out.println((ofWaits ? "wait " : "run ") + nextFromNs + " " + untilNs);
            }
        }
    }

    private void watch(Schedstat thread, long endNs) {
        for (long dueNs = System.nanoTime(); dueNs < endNs && noted < MOST - 1; dueNs += PERIOD_NS) {
            for (long left = dueNs - System.nanoTime(); left > 0; left = dueNs - System.nanoTime()) {
                LockSupport.parkNanos(left);
            }
            long ranNs = thread.ranNs();
            long waitedNs = thread.waitedNs();
            try {
                thread.read();
            } catch (IOException e) {
                return; // the process is over
            }
            long nowNs = System.nanoTime();
            note(true, nowNs, thread.waitedNs() - waitedNs);
            note(false, nowNs, thread.ranNs() - ranNs);
            dueNs = Math.max(dueNs, nowNs - PERIOD_NS);
        }
    }

    private void note(boolean wait, long nowNs, long tookNs) {
        if (tookNs >= LEAST_NS) {
            waits[noted] = wait;
            lengthNs[noted] = tookNs;
            lookedNs[noted++] = nowNs;
        }
    }
}
