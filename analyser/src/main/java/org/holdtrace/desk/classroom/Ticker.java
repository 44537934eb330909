package org.holdtrace.desk.classroom;

import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import java.util.function.DoubleConsumer;

/** Calls somebody fifty times a second on a thread of its own, with the seconds since the last call. */
final class Ticker implements AutoCloseable {
    private static final long EVERY_MS = 20;
    /** After a longer stall (a laptop that slept) time goes on from where it was, s. */
    private static final double LONGEST_S = 0.5;

    private final ScheduledExecutorService thread;
    private long lastNs = System.nanoTime();
    private volatile boolean resting;

    /** {@code failed} hears of what {@code tick} threw; it is called again all the same. */
    Ticker(String name, DoubleConsumer tick, Consumer<RuntimeException> failed) {
        thread = Executors.newSingleThreadScheduledExecutor(work -> {
            Thread daemon = new Thread(work, name);
            daemon.setDaemon(true);
            return daemon;
        });
        // Never done before it is shut down, and what the tick throws is caught.
        ScheduledFuture<?> unused = thread.scheduleWithFixedDelay(
                () -> {
                    long now = System.nanoTime();
                    double passedS = (now - lastNs) / 1e9;
                    lastNs = now;
                    if (resting) {
                        return;
                    }
                    try {
                        tick.accept(Math.min(passedS, LONGEST_S));
                    } catch (RuntimeException e) {
                        failed.accept(e);
                    }
                },
                EVERY_MS,
                EVERY_MS,
                TimeUnit.MILLISECONDS);
    }

    /** Whether time stands still for now. */
    void rest(boolean now) {
        resting = now;
    }

    /** Runs {@code work} between two calls. */
    void run(Runnable work) {
        thread.execute(work);
    }

    @Override
    public void close() {
        thread.shutdownNow();
    }
}
