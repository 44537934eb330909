package org.holdtrace.adc;

import java.util.concurrent.locks.LockSupport;

/** Time as drivers see it. Handed in, so that a simulated converter and its driver run as fast as they can. */
public interface SteadyClock {
    /** A clock that never jumps, ns from an arbitrary zero. */
    long nanoTime();

    /** Waits about {@code durationNs}, ns; not at all where that is 0 or less. */
    void waitNs(long durationNs);

    /** The computer's own. */
    static SteadyClock system() {
        return new SteadyClock() {
            @Override
            public long nanoTime() {
                return System.nanoTime();
            }

            @Override
            public void waitNs(long durationNs) {
                long due = System.nanoTime() + durationNs;
                long left = durationNs;
                // A park may end early for no reason.
                while (left > 0 && !Thread.currentThread().isInterrupted()) {
                    LockSupport.parkNanos(left);
                    left = due - System.nanoTime();
                }
            }
        };
    }
}
