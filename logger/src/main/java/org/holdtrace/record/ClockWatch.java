package org.holdtrace.record;

import java.time.Instant;
import java.util.function.LongSupplier;
import java.util.function.Supplier;

/** Notices when the wall clock is set, by comparing it with a steady one. One thread. */
public final class ClockWatch {
    /** Less than this between two looks is a clock being drawn to the right time little by little. */
    private static final long JUMP_NS = 100_000_000;

    /** A look that took longer than this tells nothing. */
    private static final long QUICK_NS = 5_000_000;

    private final LongSupplier steadyNs;
    private final Supplier<Instant> wall;
    private boolean known;
    private long wallLessSteadyNs;

    public ClockWatch(LongSupplier steadyNs, Supplier<Instant> wall) {
        this.steadyNs = steadyNs;
        this.wall = wall;
    }

    /** Looks at both; returns by how much the wall clock was set since the last look, ns, 0 where it was not. */
    public long jumpNs() {
        long beforeNs = steadyNs.getAsLong();
        Instant now = wall.get();
        long tookNs = steadyNs.getAsLong() - beforeNs;
        if (tookNs > QUICK_NS) {
            return 0;
        }
        long difference = now.getEpochSecond() * 1_000_000_000 + now.getNano() - beforeNs - tookNs / 2;
        long jump = known ? difference - wallLessSteadyNs : 0;
        known = true;
        wallLessSteadyNs = difference;
        return Math.abs(jump) >= JUMP_NS ? jump : 0;
    }
}
