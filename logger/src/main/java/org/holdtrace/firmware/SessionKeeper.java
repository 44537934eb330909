package org.holdtrace.firmware;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.function.Function;
import org.holdtrace.record.Recorder;
import org.holdtrace.session.Channel;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.trace.Phase;

/**
 * Begins and ends sessions, with what happened in the seconds before they began. Times are ns on the logger's clock; a
 * session's own time 0 is its first sample. One thread.
 */
final class SessionKeeper {
    private static final int MOST_EVENTS = 400;

    private final Recorder recorder;
    private final WallClock wallClock;
    private final Function<Optional<Instant>, SessionHeader> header;
    private final SampleHistory[] before;
    private final Deque<SessionEvent> eventsBefore = new ArrayDeque<>();
    private Phase phaseBefore = Phase.REST;
    private int testsBefore;
    private long[] shifted = new long[1024];
    private final long beforeNs;
    private boolean running;
    private long originNs;

    /**
     * @param header makes the header of a session that began at an instant, empty where that is not known
     * @param secondsBefore what came so long before a session began is in it, s
     * @param channels channel {@code i} has the id {@code i}
     */
    SessionKeeper(
            Recorder recorder,
            WallClock wallClock,
            double secondsBefore,
            List<Channel> channels,
            Function<Optional<Instant>, SessionHeader> header) {
        this.recorder = recorder;
        this.wallClock = wallClock;
        this.header = header;
        beforeNs = Math.round(secondsBefore * 1e9);
        before = new SampleHistory[channels.size()];
        for (int i = 0; i < before.length; i++) {
            before[i] = new SampleHistory((int) Math.ceil(channels.get(i).nominalRateHz() * (beforeNs / 1e9)) + 8);
        }
    }

    boolean isRunning() {
        return running;
    }

    /** Time 0 of the session that runs, or ran last. */
    long originNs() {
        return originNs;
    }

    /** Takes samples of a channel, from 0 to before {@code size}. */
    void samples(int channel, long[] timeNs, int[] counts, int size) {
        if (!running) {
            for (int i = 0; i < size; i++) {
                before[channel].add(timeNs[i], counts[i]);
            }
            return;
        }
        if (shifted.length < size) {
            shifted = new long[size];
        }
        int from = 0;
        for (int i = 0; i < size; i++) {
            shifted[i] = timeNs[i] - originNs;
            from = shifted[i] < 0 ? i + 1 : from;
        }
        recorder.samples(channel, shifted, counts, from, size);
    }

    /** Takes an event whose time is on the logger's clock. */
    void event(SessionEvent event) {
        if (running) {
            recorder.event(at(event, Math.max(0, event.timeNs() - originNs)));
            return;
        }
        eventsBefore.addLast(event);
        while (eventsBefore.size() > MOST_EVENTS) {
            forgetOldest();
        }
    }

    /** Of what is too old for the next session only the phase matters that it began with. */
    private void forgetOldest() {
        if (eventsBefore.removeFirst() instanceof SessionEvent.PhaseMark mark) {
            phaseBefore = mark.phase();
        }
    }

    /**
     * Begins a session.
     *
     * @param testsOver hold tests that were over before; the session counts from 1
     * @param nowEvents what is the case now and a reader should know
     * @return hears of the file's name
     */
    CompletableFuture<String> begin(long nowNs, int testsOver, List<SessionEvent> nowEvents) {
        originNs = nowNs;
        testsBefore = testsOver;
        for (SampleHistory history : before) {
            int oldest = firstWithin(history, nowNs);
            if (oldest < history.size()) {
                originNs = Math.min(originNs, history.timeNs(oldest));
            }
        }
        Duration ago = Duration.ofNanos(nowNs - originNs);
        Optional<Instant> startedAt = wallClock.believed().map(now -> now.minus(ago));
        CompletableFuture<String> name = recorder.begin(header.apply(startedAt), startedAt);
        running = true;
        while (!eventsBefore.isEmpty() && eventsBefore.getFirst().timeNs() < originNs) {
            forgetOldest();
        }
        event(new SessionEvent.PhaseMark(originNs, testsOver + 1, phaseBefore));
        eventsBefore.forEach(this::event);
        eventsBefore.clear();
        nowEvents.forEach(this::event);
        for (int channel = 0; channel < before.length; channel++) {
            hand(channel, before[channel], firstWithin(before[channel], nowNs));
        }
        return name;
    }

    private int firstWithin(SampleHistory history, long nowNs) {
        int oldest = 0;
        while (oldest < history.size() && nowNs - history.timeNs(oldest) > beforeNs) {
            oldest++;
        }
        return oldest;
    }

    private void hand(int channel, SampleHistory history, int from) {
        int size = history.size() - from;
        long[] timeNs = new long[size];
        int[] counts = new int[size];
        for (int i = 0; i < size; i++) {
            timeNs[i] = history.timeNs(from + i);
            counts[i] = history.count(from + i);
        }
        history.clear();
        samples(channel, timeNs, counts, size);
    }

    /** Ends the session that runs. */
    CompletableFuture<Void> end(String reason) {
        running = false;
        phaseBefore = Phase.REST; // where the detector begins anew
        return recorder.end(reason);
    }

    private SessionEvent at(SessionEvent event, long timeNs) {
        if (event instanceof SessionEvent.PhaseMark mark) {
            return new SessionEvent.PhaseMark(timeNs, Math.max(1, mark.holdTest() - testsBefore), mark.phase());
        } else if (event instanceof SessionEvent.StrokeMark stroke) {
            return new SessionEvent.StrokeMark(timeNs, Math.max(timeNs, stroke.endNs() - originNs));
        } else if (event instanceof SessionEvent.Fault fault) {
            return new SessionEvent.Fault(timeNs, fault.name(), fault.text());
        } else if (event instanceof SessionEvent.ClockJump jump) {
            return new SessionEvent.ClockJump(timeNs, jump.jumpNs());
        } else if (event instanceof SessionEvent.Jitter jitter) {
            return new SessionEvent.Jitter(
                    timeNs, jitter.samples(), jitter.missed(), jitter.p50Ns(), jitter.p99Ns(), jitter.maxNs());
        } else if (event instanceof SessionEvent.Note note) {
            return new SessionEvent.Note(timeNs, note.text());
        }
        throw new IllegalArgumentException("an event of an unknown kind: " + event);
    }
}
