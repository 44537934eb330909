package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.holdtrace.link.Status;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.SessionEvent;
import org.junit.jupiter.api.Test;

class JournalTest {
    private final List<String> lines = Collections.synchronizedList(new ArrayList<>());

    private static LoggerState state(String session, String... faults) {
        Status status = new Status(
                0,
                Optional.ofNullable(session),
                0,
                Optional.empty(),
                0,
                Double.NaN,
                Double.NaN,
                "",
                false,
                List.of(faults),
                0);
        return new LoggerState(status, null);
    }

    @Test
    void faultsAndSessionsAreToldOnceEach() {
        try (Journal journal = new Journal(lines::add)) {
            journal.state(state(null, "the disk is full: 0 MB left"));
            journal.state(state(null, "the disk is full: 0 MB left"));
            journal.event(new SessionEvent.Fault(5, "input.wire", "pressure: the wire is broken"));
            journal.event(new SessionEvent.Jitter(6, 1, 0, 0, 0, 0));
            journal.event(new SessionEvent.Note(7, "pressure: input.wire is over, after 2.0 s"));
            journal.state(state("2026-03-01-0001.hold"));
            journal.state(state("2026-03-01-0001.hold"));
            journal.state(state("2026-03-01-0002.hold"));
            journal.state(state(null));
        }
        assertEquals(
                List.of(
                        "fault: the disk is full: 0 MB left",
                        "fault input.wire: pressure: the wire is broken",
                        "pressure: input.wire is over, after 2.0 s",
                        "session 2026-03-01-0001.hold has begun",
                        "session 2026-03-01-0001.hold has ended",
                        "session 2026-03-01-0002.hold has begun",
                        "session 2026-03-01-0002.hold has ended"),
                lines);
    }

    @Test
    void whoTakesNoLinesDoesNotHoldTheLoggerUp() {
        CountDownLatch never = new CountDownLatch(1);
        try (Journal journal = new Journal(line -> {
            try {
                never.await();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        })) {
            for (int i = 0; i < 10_000; i++) {
                journal.event(new SessionEvent.Note(i, "a line"));
            }
            never.countDown();
        }
    }
}
