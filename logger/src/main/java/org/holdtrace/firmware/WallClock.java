package org.holdtrace.firmware;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * The wall clock sessions are dated by. A computer without a battery clock begins with a time long past, until somebody
 * tells it. Safe for use from several threads.
 */
final class WallClock {
    /** No clock that shows an earlier time than this program was written at can be believed. */
    static final Instant EARLIEST = Instant.parse("2026-01-01T00:00:00Z");

    private final Clock system;
    private volatile Duration offset = Duration.ZERO;

    WallClock(Clock system) {
        this.system = system;
    }

    Instant now() {
        return system.instant().plus(offset);
    }

    /** Now; empty where the clock cannot be believed. */
    Optional<Instant> believed() {
        Instant now = now();
        return now.isBefore(EARLIEST) ? Optional.empty() : Optional.of(now);
    }

    /** Sets it; the computer's own is left alone, which would take rights a logger should not have. */
    void set(Instant now) {
        offset = Duration.between(system.instant(), now);
    }
}
