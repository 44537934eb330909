package org.holdtrace.remote;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.holdtrace.link.Status;
import org.holdtrace.serve.LiveListener;
import org.holdtrace.serve.LoggerControl;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;

/** A logger that has a folder of sessions and a state that tests set, and nothing else. */
public final class FolderLogger implements LoggerControl {
    private final Path folder;
    private final List<LiveListener> listeners = new CopyOnWriteArrayList<>();
    private volatile Optional<String> running = Optional.empty();
    private volatile Phase phase = Phase.REST;
    private volatile double leakM3PerS = Double.NaN;
    private volatile List<String> faults = List.of();
    private final List<String> asked = new CopyOnWriteArrayList<>();
    private volatile Optional<String> zeroRefused = Optional.empty();
    private volatile String instrument = "Invented logger 7";

    public FolderLogger(Path folder) {
        this.folder = folder;
    }

    /** The session that is being recorded. */
    public void running(String name) {
        running = Optional.ofNullable(name);
    }

    /** What the logger has to tell from now on; whoever follows is told at once. */
    public void tell(Phase now, double leak, String... wrong) {
        phase = now;
        leakM3PerS = leak;
        faults = List.of(wrong);
        listeners.forEach(listener -> listener.state(state()));
    }

    /** Samples of the pressure channel that were just taken, times in ns on this machine's steady clock. */
    public void measured(long[] timeNs, int[] counts, int size) {
        listeners.forEach(listener -> listener.samples(0, timeNs, counts, 0, size));
    }

    /** How many follow. */
    public int followers() {
        return listeners.size();
    }

    @Override
    public LoggerState state() {
        Calibration calibration =
                Calibration.line(1e-4, new Calibration.Point(0.5, 0), new Calibration.Point(4.5, 250e5));
        SessionHeader header = new SessionHeader(
                instrument,
                "test",
                Optional.empty(),
                true,
                List.of(new Channel(0, ChannelKind.PRESSURE, "port", 250, calibration)),
                TestSetup.unknown());
        boolean holding = phase == Phase.HOLD;
        return new LoggerState(
                new Status(
                        System.nanoTime(),
                        running,
                        holding ? 120.25e5 : 0.2e5,
                        Optional.of(phase),
                        holding ? 12 : 0,
                        leakM3PerS,
                        leakM3PerS / 20,
                        holding ? "holding, wait" : "ready",
                        false,
                        faults,
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

    /** What was asked for, in its order. */
    public List<String> asked() {
        return asked;
    }

    /** From now on no zero is taken. */
    public void refuseZero(String why) {
        zeroRefused = Optional.of(why);
    }

    @Override
    public String start() {
        asked.add("start");
        return "none.hold";
    }

    @Override
    public void stop() {
        asked.add("stop");
        running = Optional.empty();
    }

    @Override
    public void zero() throws IOException {
        if (zeroRefused.isPresent()) {
            throw new IOException(zeroRefused.get());
        }
        asked.add("zero");
    }

    @Override
    public void plan(TestSetup setup) {
        asked.add("plan, stroke " + setup.pumpStrokeM3().map(Object::toString).orElse("unknown"));
    }

    @Override
    public void clock(Instant now) {
        boolean right = Math.abs(Duration.between(now, Instant.now()).toSeconds()) < 60;
        asked.add(right ? "clock" : "a wrong clock");
    }

    @Override
    public Path file(String name) {
        return folder.resolve(name);
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
