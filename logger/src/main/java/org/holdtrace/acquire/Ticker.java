package org.holdtrace.acquire;

import java.util.concurrent.locks.LockSupport;

/** The steady clock sampling goes by. Handed in, so that a test's time passes only when the test says so. */
public interface Ticker {
    /** Now, ns on a clock that is never set. */
    long nowNs();

    /** Returns when {@code dueNs} has come, or a little later; at once where it is past. */
    void awaitNs(long dueNs);

    /** The machine's own. */
    static Ticker system() {
        return new Ticker() {
            @Override
            public long nowNs() {
                return System.nanoTime();
            }

            @Override
            public void awaitNs(long dueNs) {
                for (long left = dueNs - System.nanoTime(); left > 0; left = dueNs - System.nanoTime()) {
                    LockSupport.parkNanos(left);
                    if (Thread.currentThread().isInterrupted()) {
                        return; // parking would return at once for ever
                    }
                }
            }
        };
    }
}
