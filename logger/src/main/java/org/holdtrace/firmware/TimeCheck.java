package org.holdtrace.firmware;

import java.util.function.Consumer;
import org.holdtrace.acquire.LatenessHistogram;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.record.ClockWatch;
import org.holdtrace.session.SessionEvent;

/** Tells how late samples were read, and when the wall clock was set. One thread. */
final class TimeCheck {
    private static final long LOOK_AT_CLOCK_NS = 1_000_000_000;

    private final Sampler sampler;
    private final ClockWatch clockWatch;
    private long lookedNs;

    TimeCheck(Sampler sampler, WallClock wallClock) {
        this.sampler = sampler;
        clockWatch = new ClockWatch(System::nanoTime, wallClock::now);
    }

    void tell(Consumer<SessionEvent> events, long nowNs) {
        if (nowNs - lookedNs >= LOOK_AT_CLOCK_NS) {
            lookedNs = nowNs;
            long jumpNs = clockWatch.jumpNs();
            if (jumpNs != 0) {
                events.accept(new SessionEvent.ClockJump(nowNs, jumpNs));
            }
        }
        LatenessHistogram summary = sampler.takeSummary();
        if (summary != null) {
            events.accept(new SessionEvent.Jitter(
                    nowNs,
                    summary.samples(),
                    summary.missed(),
                    summary.quantileNs(0.5),
                    summary.quantileNs(0.99),
                    summary.maxNs()));
            sampler.giveBack(summary);
        }
    }
}
