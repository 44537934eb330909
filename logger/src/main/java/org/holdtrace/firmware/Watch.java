package org.holdtrace.firmware;

import java.io.IOException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.holdtrace.acquire.LiveLeak;
import org.holdtrace.acquire.LiveMarks;
import org.holdtrace.acquire.SampleRing;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.link.Status;
import org.holdtrace.panel.PanelSign;
import org.holdtrace.record.Recorder;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.Stroke;

/**
 * What is done with the samples: marks, faults, advice, and when sessions begin and end. Times are ns since the logger
 * started. One thread, but for {@link #state}.
 */
final class Watch {
    private static final int PRESSURE = 0;

    /** Pressure must have risen by so much, Pa, before a session begins by itself: less may be a knock. */
    private static final double RISE_PA = 1e5;

    /** A zero is taken at rest only: after this time of it, s. */
    private static final double REST_BEFORE_ZERO_S = 2;

    /** One that began by itself ends when for so long no hold test came, ns. */
    private static final long FALSE_START_ENDS_NS = 120_000_000_000L;

    /** Ten times a second is as fast as anybody reads. */
    private static final long STATE_NS = 100_000_000;

    private static final long TELL_STATE_NS = 1_000_000_000;
    private static final long CALIBRATE_NS = 5_000_000_000L;

    private final Equipment equipment;
    private final Recorder recorder;
    private final WallClock wallClock;
    private final Followers followers;
    private final Calibrator calibrator;
    private final List<SensorCheck> checks = new ArrayList<>();
    private final int supply;
    private final TimeCheck time;
    private final long startNs;
    private final Measuring measuring;
    private final SessionKeeper keeper;
    private final FaultBoard faults = new FaultBoard(this::event);
    private final BusCheck bus;
    private final DiskCheck disk;
    private TestSetup plan;
    private LiveLeak leak;
    private LiveMarks marks;
    private double risingSinceS = Double.NaN;
    private double restSinceS = Double.NaN;
    private boolean strokeSeen;
    private boolean byItself;
    private int testsBefore;
    private long sessionNs;
    private long calibratedNs;
    private long stateToldNs;
    private PanelSign sign;
    private volatile LoggerState state;

    Watch(
            Equipment equipment,
            Sampler sampler,
            SampleRing ring,
            Recorder recorder,
            WallClock wallClock,
            Followers followers,
            TestSetup plan)
            throws IOException {
        this.equipment = equipment;
        this.recorder = recorder;
        this.wallClock = wallClock;
        this.followers = followers;
        calibrator = new Calibrator(equipment);
        this.plan = plan;
        startNs = equipment.clock().nanoTime();
        time = new TimeCheck(sampler, wallClock);
        List<Channel> channels = calibrator.channels();
        measuring = new Measuring(ring, startNs, channels);
        Configuration configuration = equipment.configuration();
        keeper = new SessionKeeper(recorder, wallClock, configuration.habits().secondsBefore(), channels, this::header);
        bus = new BusCheck(sampler);
        disk = new DiskCheck(recorder);
        for (SensorInput input : configuration.inputs()) {
            checks.add(new SensorCheck(
                    input,
                    equipment.converter(),
                    configuration.supplyVolts(),
                    sampler,
                    faults,
                    checks.isEmpty() ? null : checks.get(PRESSURE)));
        }
        supply =
                configuration.supplyInput().map(configuration.inputs()::indexOf).orElse(-1);
        beginMarks();
        state = makeState(0);
    }

    private SessionHeader header(Optional<Instant> startedAt) {
        return new SessionHeader(
                equipment.configuration().instrument(),
                Version.SOFTWARE,
                startedAt,
                equipment.simulated(),
                measuring.channels(),
                plan);
    }

    private long nowNs() {
        return equipment.clock().nanoTime() - startNs;
    }

    /** Takes what has come since the last look, and sees to everything. */
    void look() {
        while (measuring.drain(this::samples) > 0) {
            beginWherePressureRises();
        }
        checks.forEach(SensorCheck::settleHeldBack);
        long now = nowNs();
        if (!keeper.isRunning() && now - calibratedNs > CALIBRATE_NS) {
            calibrate(now);
        }
        bus.tell(faults, now);
        disk.tell(faults, now);
        goOnWhereThereIsRoom();
        time.tell(this::event, now);
        if (keeper.isRunning()) {
            recorder.flushOlderThan(now - keeper.originNs() - 300_000_000);
        }
        endWhereOver(now);
        show(now, false);
    }

    /** Makes the state show what was just done. */
    void refresh() {
        show(nowNs(), true);
    }

    private void samples(int channel, long[] timeNs, int[] counts, int size) {
        checks.get(channel).samples(timeNs, counts, size);
        keeper.samples(channel, timeNs, counts, size);
        followers.samples(channel, timeNs, counts, size);
        if (channel == PRESSURE) {
            Calibration calibration = measuring.calibration(PRESSURE);
            for (int i = 0; i < size; i++) {
                // A plug that is put back would look like a stroke, and what follows like a hold.
                if (checks.get(channel).measures(counts[i])) {
                    marks.accept(timeNs[i] / 1e9, calibration.siValue(counts[i]));
                }
            }
        }
    }

    /** Reads the channels through what is stored and the supply of the moment. */
    private void calibrate(long now) {
        calibratedNs = now;
        if (supply >= 0) {
            calibrator.supply(measuring.value(supply, now));
        }
        measuring.calibrate(calibrator.channels());
        checks.forEach(check -> check.calibratedBy(calibrator.supplyVolts()));
    }

    private void event(SessionEvent event) {
        keeper.event(event);
        followers.event(event);
    }

    private static long ns(double seconds) {
        return Math.round(seconds * 1e9);
    }

    private final class Marked implements LiveMarks.Listener {
        @Override
        public void phase(int holdTest, Phase phase, double sinceS) {
            restSinceS = phase == Phase.REST ? sinceS : Double.NaN;
            event(new SessionEvent.PhaseMark(ns(sinceS), holdTest, phase));
        }

        @Override
        public void rising(double sinceS) {
            risingSinceS = sinceS;
        }

        @Override
        public void stroke(Stroke stroke) {
            strokeSeen = true;
            event(new SessionEvent.StrokeMark(ns(stroke.startS()), ns(stroke.endS())));
        }
    }

    private void beginMarks() {
        // A line that was at rest still is, though new marks have yet to see it.
        if (marks != null && marks.phase() == Phase.REST && Double.isNaN(restSinceS)) {
            restSinceS = marks.phaseSinceS();
        }
        leak = new LiveLeak(plan);
        double stepPa = measuring.calibration(PRESSURE).perCount()
                * equipment.converter().countsPerStep();
        marks = new LiveMarks(leak, Math.abs(stepPa), new Marked());
        testsBefore = 0;
        risingSinceS = Double.NaN;
        strokeSeen = false;
    }

    private void beginWherePressureRises() {
        boolean rises = !Double.isNaN(risingSinceS) && measuring.secondsMean(PRESSURE) - marks.zeroPa() > RISE_PA;
        if (!keeper.isRunning()
                && equipment.configuration().habits().beginOnRise()
                && (strokeSeen || rises)
                && !recorder.isFull()) {
            beginUnasked("pressure rises", true);
        }
        strokeSeen = false;
        if (marks.phase() == Phase.REST && !rises) {
            // A rise that came to nothing.
            risingSinceS = Double.isNaN(risingSinceS) || nowNs() / 1e9 - risingSinceS > 3 ? Double.NaN : risingSinceS;
        }
    }

    /** Nobody waits for the file's name; a disk that does not take it is told as a fault. */
    private void beginUnasked(String why, boolean itself) {
        CompletableFuture<String> unused = beginSession(why, itself);
    }

    private void endUnasked(String reason) {
        CompletableFuture<Void> unused = endSession(reason);
    }

    /**
     * Begins a session where none runs.
     *
     * @return hears of the name of its file, or of the one that runs
     */
    CompletableFuture<String> beginSession(String why, boolean itself) {
        if (keeper.isRunning()) {
            return CompletableFuture.completedFuture(recorder.fileName().orElse(""));
        }
        if (recorder.isFull()) {
            throw new IllegalStateException("the disk is full: no session begins");
        }
        long now = nowNs();
        calibrate(now);
        byItself = itself;
        disk.sessionBegins();
        sessionNs = now;
        testsBefore = marks.testsOver();
        List<SessionEvent> head = new ArrayList<>();
        head.addAll(faults.asEvents(now));
        head.add(new SessionEvent.Note(now, "begun: " + why));
        return keeper.begin(now, testsBefore, head);
    }

    /** Ends the session that runs; returns what hears when all of it is on the disk. */
    CompletableFuture<Void> endSession(String reason) {
        if (!keeper.isRunning()) {
            return CompletableFuture.completedFuture(null);
        }
        CompletableFuture<Void> done = keeper.end(reason);
        beginMarks();
        return done;
    }

    private void endWhereOver(long now) {
        if (!keeper.isRunning()) {
            return;
        }
        if (disk.isFull()) {
            endUnasked("the disk is full");
            disk.endsSession();
            return;
        }
        if (marks.phase() != Phase.REST) {
            return;
        }
        long restNs = now - Math.max(ns(marks.phaseSinceS()), sessionNs);
        double endsAfterS = equipment.configuration().habits().endsAfterRestS();
        if (marks.testsOver() > testsBefore && restNs > 1e9 * endsAfterS) {
            endUnasked(String.format(Locale.ROOT, "at rest for %.0f s after a hold test", endsAfterS));
        } else if (byItself && restNs > FALSE_START_ENDS_NS) {
            endUnasked("pressure rose, but no hold test came");
        }
    }

    /** Room was made while the line is still under pressure: the rest of that test is recorded, unasked. */
    private void goOnWhereThereIsRoom() {
        if (disk.hasRoomAgain() && !keeper.isRunning() && marks.phase() != Phase.REST) {
            beginUnasked("there is room on the disk again", true);
        }
    }

    private void show(long now, boolean atOnce) {
        PanelSign shown = currentSign();
        if (shown != sign) {
            sign = shown;
            equipment.panel().show(shown);
        } else if (!atOnce && now - state.status().timeNs() < STATE_NS) {
            return;
        }
        Status before = state.status();
        state = makeState(now);
        Status next = state.status();
        boolean changed = !next.phase().equals(before.phase())
                || !next.advice().equals(before.advice())
                || !next.faults().equals(before.faults())
                || !next.session().equals(before.session())
                || next.strokes() != before.strokes();
        if (changed || now - stateToldNs >= TELL_STATE_NS) {
            stateToldNs = now;
            followers.state(state);
        }
    }

    private PanelSign currentSign() {
        return SignBoard.sign(
                faults.anyGrave(true), faults.anyGrave(false), keeper.isRunning(), marks.phase(), leak.verdict());
    }

    private LoggerState makeState(long now) {
        Optional<LiveLeak.Estimate> estimate = leak.estimate();
        List<String> texts = new ArrayList<>();
        faults.all().forEach(fault -> texts.add(fault.name() + ": " + fault.text()));
        boolean seen = !Double.isNaN(marks.phaseSinceS());
        PanelSign sign = currentSign();
        Status status = new Status(
                now,
                keeper.isRunning() ? Optional.of(recorder.fileName().orElse(Status.NAMELESS)) : Optional.empty(),
                measuring.value(PRESSURE, now),
                seen ? Optional.of(marks.phase()) : Optional.empty(),
                marks.strokes(),
                estimate.map(LiveLeak.Estimate::leakM3PerS).orElse(Double.NaN),
                estimate.map(LiveLeak.Estimate::uncertaintyM3PerS).orElse(Double.NaN),
                SignBoard.advice(sign, leak.verdict()),
                SignBoard.enough(sign),
                texts,
                recorder.usableBytes());
        // Without an instant, which would be another each time, and the header be sent anew to all who follow.
        return new LoggerState(status, header(Optional.empty()));
    }

    /** How the logger is doing; from any thread. */
    LoggerState state() {
        return state;
    }

    /** A short press begins a session, or ends the one that runs. */
    void buttonShort() {
        if (keeper.isRunning()) {
            endUnasked("stopped by the button");
        } else if (!recorder.isFull()) {
            beginUnasked("started by the button", false);
        }
    }

    /** A long press takes the present pressure as zero. */
    void buttonLong() {
        String refused = zero();
        if (!refused.isEmpty()) {
            event(new SessionEvent.Note(nowNs(), refused));
        }
    }

    /** Takes the present pressure as zero; returns why not, empty where it was done. */
    String zero() {
        if (keeper.isRunning()) {
            return "no zero is taken while a session runs: its calibration stands at its head";
        }
        if (faults.anyGrave(false)) {
            return "no zero is taken while the sensor is at fault";
        }
        double restS = nowNs() / 1e9 - (Double.isNaN(restSinceS) ? marks.phaseSinceS() : restSinceS);
        if (marks.phase() != Phase.REST || !(restS >= REST_BEFORE_ZERO_S)) {
            return "no zero is taken unless the line has been at rest for " + (int) REST_BEFORE_ZERO_S + " s";
        }
        double reading = measuring.secondsMean(PRESSURE);
        try {
            calibrator.zero(PRESSURE, measuring.secondsMeanCount(PRESSURE), Calibrator.date(wallClock));
        } catch (IllegalArgumentException e) {
            return e.getMessage();
        } catch (IOException e) {
            return "the zero cannot be kept: " + e.getMessage();
        }
        calibrate(nowNs());
        event(new SessionEvent.Note(nowNs(), String.format(Locale.ROOT, "zero taken: %.3f bar before", reading / 1e5)));
        beginMarks();
        return "";
    }

    /** What is known of the next test. */
    void plan(TestSetup setup) {
        plan = setup;
        if (!keeper.isRunning() && marks.phase() == Phase.REST) {
            beginMarks();
        }
    }
}
