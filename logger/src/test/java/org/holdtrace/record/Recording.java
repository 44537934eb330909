package org.holdtrace.record;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import java.util.concurrent.CompletableFuture;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;

/** A session of 250 samples a second that a test records, in time that passes as it says. */
final class Recording {
    static final long MS = 1_000_000;
    private static final int RATE_HZ = 250;
    private static final long STEP_NS = 4 * MS;

    /** Samples are handed in every 20 ms, the recorder looks every 50 ms, as in the logger. */
    private static final int LOOK_STEPS = 5;

    private static final int RECORDER_STEPS = 13;

    final Recorder recorder;
    CompletableFuture<String> created;
    private final long[] timeNs = new long[LOOK_STEPS];
    private final int[] counts = new int[LOOK_STEPS];
    private int pending;
    private long next;

    Recording(Storage storage, long mostWaiting) {
        recorder = new Recorder(storage, new SessionNames(1), new Recorder.Room(0, 0), mostWaiting);
    }

    static SessionHeader header() {
        Calibration calibration =
                Calibration.line(187.5e-6, new Calibration.Point(0.5, 0), new Calibration.Point(4.5, 250e5));
        return new SessionHeader(
                "test",
                "test",
                Optional.empty(),
                false,
                List.of(new Channel(0, ChannelKind.PRESSURE, "pressure", RATE_HZ, calibration)),
                TestSetup.unknown());
    }

    /** Begins the session; {@link #created} hears of its name. */
    void begin() {
        created = recorder.begin(header(), Optional.empty());
    }

    /** The count of the sample at {@code timeNs}: known, so that a wrong one shows. */
    static int count(long timeNs) {
        return (int) (timeNs / STEP_NS * 7919 % 20_000);
    }

    long nowNs() {
        return next * STEP_NS;
    }

    /** Lets {@code ms} pass. */
    void run(long ms) {
        long until = nowNs() + ms * MS;
        while (nowNs() < until) {
            timeNs[pending] = nowNs();
            counts[pending++] = count(nowNs());
            next++;
            if (pending == LOOK_STEPS) {
                recorder.samples(0, timeNs, counts, 0, pending);
                pending = 0;
            }
            if (next % 50 == 0) {
                recorder.event(new SessionEvent.Note(nowNs(), "note at " + nowNs()));
            }
            if (next % RECORDER_STEPS == 0) {
                recorder.step(nowNs());
            }
        }
    }

    /** Ends the session and lets the recorder work until it is through, at most a minute; returns whether it is. */
    boolean end() {
        recorder.samples(0, timeNs, counts, 0, pending);
        CompletableFuture<Void> done = recorder.end("test over");
        for (int i = 0; i < 1200 && !done.isDone(); i++) {
            next += RECORDER_STEPS;
            recorder.step(nowNs());
        }
        return done.isDone();
    }

    static Session read(byte[] bytes) throws IOException {
        return HoldFileReader.read(new ByteArrayInputStream(bytes), "test");
    }

    /** Times of all samples of all files; a sample that is not what was recorded is an error. */
    static NavigableSet<Long> times(List<byte[]> files) throws IOException {
        TreeSet<Long> times = new TreeSet<>();
        for (byte[] file : files) {
            Session session = read(file);
            long[] timesNs = session.timesNs(0);
            int[] counts = session.counts(0);
            for (int i = 0; i < counts.length; i++) {
                if (counts[i] != count(timesNs[i]) || timesNs[i] % STEP_NS != 0) {
                    throw new AssertionError("a sample that was never taken: " + counts[i] + " at " + timesNs[i]);
                }
                times.add(timesNs[i]);
            }
        }
        return times;
    }

    /** Times that were handed in from 0 to before {@code endNs}. */
    static NavigableSet<Long> handedIn(long endNs) {
        TreeSet<Long> times = new TreeSet<>();
        for (long t = 0; t < endNs; t += STEP_NS) {
            times.add(t);
        }
        return times;
    }

    static List<byte[]> written(FaultyStorage storage) {
        List<byte[]> all = new ArrayList<>();
        storage.files.values().forEach(file -> all.add(file.written()));
        return all;
    }
}
