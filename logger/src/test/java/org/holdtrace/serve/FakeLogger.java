package org.holdtrace.serve;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.holdtrace.link.Status;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;

/** A logger without hardware: files in a folder, and a state that tests set. */
final class FakeLogger implements LoggerControl {
    private final Path folder;
    private final List<LiveListener> listeners = new CopyOnWriteArrayList<>();
    private final List<String> done = new CopyOnWriteArrayList<>();
    private volatile TestSetup plan = TestSetup.unknown();
    private volatile Optional<String> running = Optional.empty();
    private volatile double pressurePa = 120e5;

    FakeLogger(Path folder) {
        this.folder = folder;
    }

    /** What was asked of it, in order. */
    List<String> done() {
        return done;
    }

    TestSetup plan() {
        return plan;
    }

    int listeners() {
        return listeners.size();
    }

    void pressurePa(double pa) {
        pressurePa = pa;
    }

    void record(String name, byte[] bytes) throws IOException {
        Files.write(folder.resolve(name), bytes);
    }

    void samples(long[] timeNs, int[] counts) {
        for (LiveListener listener : listeners) {
            listener.samples(0, timeNs, counts, 0, counts.length);
        }
    }

    void event(SessionEvent event) {
        for (LiveListener listener : listeners) {
            listener.event(event);
        }
    }

    @Override
    public LoggerState state() {
        Calibration calibration =
                Calibration.line(1e-4, new Calibration.Point(0.5, 0), new Calibration.Point(4.5, 250e5));
        SessionHeader header = new SessionHeader(
                "Invented logger 7",
                "test",
                Optional.empty(),
                true,
                List.of(new Channel(0, ChannelKind.PRESSURE, "port", 250, calibration)),
                plan);
        return new LoggerState(
                new Status(
                        5_000_000_000L,
                        running,
                        pressurePa,
                        Optional.of(Phase.HOLD),
                        12,
                        1.3e-7,
                        Double.NaN,
                        "holding, wait",
                        false,
                        List.of("input.wire: the sensor's wire is broken"),
                        7_000_000L),
                header);
    }

    @Override
    public List<StoredSession> sessions() throws IOException {
        List<StoredSession> sessions = new ArrayList<>();
        try (var files = Files.list(folder)) {
            for (Path file : files.sorted().toList()) {
                String name = file.getFileName().toString();
                sessions.add(new StoredSession(name, Files.size(file), running.equals(Optional.of(name))));
            }
        }
        return sessions;
    }

    @Override
    public String start() {
        done.add("start");
        running = Optional.of("2026-001.hold");
        return "2026-001.hold";
    }

    @Override
    public void stop() {
        done.add("stop");
        running = Optional.empty();
    }

    @Override
    public void zero() throws IOException {
        if (pressurePa > 1e5) {
            throw new IOException("the line is not at rest: 120 bar");
        }
        done.add("zero");
    }

    @Override
    public void plan(TestSetup setup) {
        done.add("plan");
        plan = setup;
    }

    @Override
    public void clock(Instant now) {
        done.add("clock " + now);
    }

    @Override
    public Path file(String name) throws IOException {
        Path file = folder.resolve(name);
        if (!Files.exists(file)) {
            throw new NoSuchFileException(name);
        }
        return file;
    }

    @Override
    public void follow(LiveListener listener) {
        listeners.add(listener);
    }

    @Override
    public void forget(LiveListener listener) {
        listeners.remove(listener);
    }
}
