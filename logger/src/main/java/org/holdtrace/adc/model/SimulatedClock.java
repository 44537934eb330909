package org.holdtrace.adc.model;

import java.util.concurrent.atomic.AtomicLong;
import org.holdtrace.adc.SteadyClock;

/** A clock that stands still but for {@link #waitNs}. Safe for use from several threads. */
public final class SimulatedClock implements SteadyClock {
    private final AtomicLong nowNs;

    /** A clock at {@code startNs}. */
    public SimulatedClock(long startNs) {
        nowNs = new AtomicLong(startNs);
    }

    @Override
    public long nanoTime() {
        return nowNs.get();
    }

    @Override
    public void waitNs(long durationNs) {
        if (durationNs > 0) {
            nowNs.addAndGet(durationNs);
        }
    }
}
