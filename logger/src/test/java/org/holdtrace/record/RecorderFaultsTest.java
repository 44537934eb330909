package org.holdtrace.record;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableSet;
import java.util.SplittableRandom;
import org.holdtrace.session.Loss;
import org.holdtrace.session.Session;
import org.holdtrace.session.SessionEvent;
import org.junit.jupiter.api.Test;

/** A disk that fails in every way; what must hold is promised in docs/session-format.md and docs/logger.md. */
class RecorderFaultsTest {
    private static final long MOST = 100_000;
    private static final long SESSION_MS = 4000;

    private static List<String> names(Recording recording) {
        return recording.recorder.problems().stream().map(Problem::name).toList();
    }

    @Test
    void aSoundDiskGetsEverySampleAndEveryEventOnceAndNothingIsMissing() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(SESSION_MS);
        long end = recording.nowNs();
        assertTrue(recording.end());
        assertEquals(1, storage.files.size());
        Session session = Recording.read(Recording.written(storage).get(0));
        assertEquals(end / (4 * Recording.MS), session.sampleCount(0));
        assertEquals(SESSION_MS / 200, session.events().size());
        assertEquals(List.of(), session.losses());
        assertEquals("test over", session.end().orElseThrow().reason());
        assertEquals(
                (long) session.sampleCount(0),
                session.end().orElseThrow().samples().get(0));
        assertEquals(List.of(), names(recording));
    }

    @Test
    void eachWriteFailingOnceLosesNothingAndTheTornFrameIsToldExactly() throws IOException {
        int writes = soundSession().writes;
        assertTrue(writes > 30);
        for (int failing = 0; failing < writes; failing++) {
            for (double tear : new double[] {0, 0.4, 0.8}) {
                FaultyStorage storage = new FaultyStorage();
                storage.failingWrite = failing;
                storage.tear = tear;
                Recording recording = new Recording(storage, MOST);
                recording.begin();
                recording.run(SESSION_MS);
                long end = recording.nowNs();
                assertTrue(recording.end(), "write " + failing);
                assertEquals(Recording.handedIn(end), Recording.times(Recording.written(storage)), "write " + failing);
                assertEquals(1, storage.files.size(), "write " + failing);
                Session session = Recording.read(Recording.written(storage).get(0));
                assertTrue(session.end().isPresent());
                // The header of a new file is written before anything is promised: its file is made anew.
                List<Loss> losses = session.losses();
                assertEquals(failing == 0 ? 0 : 1, losses.size(), "write " + failing + ": " + losses);
                if (failing > 0) {
                    assertEquals(1, losses.get(0).frames().orElseThrow());
                    boolean told = session.events().stream()
                            .anyMatch(e -> e instanceof SessionEvent.Fault fault
                                    && fault.name().equals("record.rewritten"));
                    assertTrue(told || failing == writes - 1, "write " + failing);
                }
            }
        }
    }

    @Test
    void aWriteThatFailsAtItsVeryLastByteGivesNoSampleTwice() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        storage.failingWrite = 10;
        storage.tear = 0.9999; // all but the zero byte that ends the frame
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(SESSION_MS);
        long end = recording.nowNs();
        assertTrue(recording.end());
        Session session = Recording.read(Recording.written(storage).get(0));
        assertEquals(Recording.handedIn(end), Recording.times(Recording.written(storage)));
        assertEquals(end / (4 * Recording.MS), session.sampleCount(0));
        assertEquals(List.of(), session.losses());
    }

    private static FaultyStorage soundSession() {
        FaultyStorage storage = new FaultyStorage();
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(SESSION_MS);
        assertTrue(recording.end());
        return storage;
    }

    @Test
    void eachForceFailingOnceAndForgettingWhatWasNotForcedLosesNothing() throws IOException {
        int forces = soundSession().forces;
        assertTrue(forces > 8);
        for (int failing = 0; failing < forces; failing++) {
            FaultyStorage storage = new FaultyStorage();
            storage.failingForce = failing;
            Recording recording = new Recording(storage, MOST);
            recording.begin();
            recording.run(SESSION_MS);
            long end = recording.nowNs();
            assertTrue(recording.end(), "force " + failing);
            assertEquals(Recording.handedIn(end), Recording.times(Recording.written(storage)), "force " + failing);
            assertEquals(failing == 0 ? 1 : 2, storage.files.size(), "force " + failing);
            if (failing > 0) {
                byte[] second = Recording.written(storage).get(1);
                assertTrue(Recording.read(second).events().stream()
                        .anyMatch(e -> e instanceof SessionEvent.Note note
                                && note.text().startsWith("continues undated-0001.hold")));
            }
        }
    }

    @Test
    void aFileThatNeverTakesAWriteAgainIsContinuedInAnother() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(1500);
        storage.unwritable = "undated-0001.hold";
        recording.run(6000);
        long end = recording.nowNs();
        assertTrue(recording.end());
        assertEquals(List.of("undated-0001.hold", "undated-0001b.hold"), new ArrayList<>(storage.files.keySet()));
        assertEquals(Recording.handedIn(end), Recording.times(Recording.written(storage)));
    }

    @Test
    void aDiskThatIsFullForAWhileLosesNothing() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(1000);
        storage.capacity = 700;
        recording.run(20_000);
        assertEquals(List.of("disk.full"), names(recording));
        assertTrue(recording.recorder.waitingSamples() > 4000);
        storage.capacity = Long.MAX_VALUE;
        recording.run(1500);
        assertEquals(List.of(), names(recording));
        long end = recording.nowNs();
        assertTrue(recording.end());
        assertEquals(Recording.handedIn(end), Recording.times(Recording.written(storage)));
    }

    @Test
    void aDiskThatGoesFromLowToFullIsLowStill() {
        FaultyStorage storage = new FaultyStorage();
        Recorder recorder = new Recorder(storage, new SessionNames(1), new Recorder.Room(2000, 1000), MOST);
        List<List<String>> seen = new ArrayList<>();
        long nowNs = System.nanoTime();
        for (long room : new long[] {1500, 500, 1500, 5000}) {
            storage.capacity = room;
            nowNs += 2500 * Recording.MS;
            recorder.step(nowNs);
            seen.add(recorder.problems().stream().map(Problem::name).toList());
        }
        assertEquals(
                List.of(List.of("disk.low"), List.of("disk.low", "disk.full"), List.of("disk.low"), List.of()), seen);
    }

    @Test
    void aCardThatIsReadOnlyForGoodIsNamedAndWhatMemoryCannotKeepIsCountedExactly() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        Recording recording = new Recording(storage, 1000);
        recording.begin();
        recording.run(1000);
        storage.readOnly = true;
        recording.run(20_000);
        assertEquals(1, recording.recorder.problems().size());
        Problem problem = recording.recorder.problems().get(0);
        assertEquals("disk.read-only", problem.name());
        assertTrue(problem.grave());
        assertTrue(recording.recorder.waitingSamples() <= 1000);
        storage.readOnly = false;
        recording.run(3000);
        long end = recording.nowNs();
        assertTrue(recording.end());
        NavigableSet<Long> missing = Recording.handedIn(end);
        missing.removeAll(Recording.times(Recording.written(storage)));
        long told = 0;
        for (byte[] file : Recording.written(storage)) {
            for (SessionEvent event : Recording.read(file).events()) {
                if (event instanceof SessionEvent.Fault fault && fault.name().equals("record.lost")) {
                    told += Long.parseLong(
                            fault.text().substring(0, fault.text().indexOf(' ')));
                }
            }
        }
        assertFalse(missing.isEmpty());
        assertEquals(missing.size(), told);
    }

    @Test
    void aSessionThatCannotBeBegunIsKeptInMemoryUntilItCan() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        storage.readOnly = true;
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(5000);
        assertFalse(recording.created.isDone());
        assertEquals(List.of("disk.read-only"), names(recording));
        storage.readOnly = false;
        recording.run(1500);
        assertEquals("undated-0001.hold", recording.created.join());
        long end = recording.nowNs();
        assertTrue(recording.end());
        assertEquals(Recording.handedIn(end), Recording.times(Recording.written(storage)));
    }

    @Test
    void powerCutAtTwoHundredRandomMomentsLosesLessThanASecond() throws IOException {
        SplittableRandom random = new SplittableRandom(20_261_125);
        for (int cut = 0; cut < 200; cut++) {
            FaultyStorage storage = new FaultyStorage();
            Recording recording = new Recording(storage, MOST);
            recording.begin();
            recording.run(random.nextInt(20, 9000));
            long diedNs = recording.nowNs();
            if (storage.files.isEmpty()) {
                assertTrue(diedNs < 60 * Recording.MS);
                continue;
            }
            byte[] left = storage.files.values().iterator().next().afterPowerCut(random);
            NavigableSet<Long> there = Recording.times(List.of(left));
            NavigableSet<Long> missing = Recording.handedIn(diedNs);
            missing.removeAll(there);
            assertTrue(
                    missing.isEmpty() || missing.first() > diedNs - 1_000_000_000,
                    "died at " + diedNs + ", first missing " + (missing.isEmpty() ? "" : missing.first()));
            // What is missing is the end, not a hole.
            assertTrue(missing.isEmpty() || there.isEmpty() || missing.first() > there.last());
        }
    }

    @Test
    void aFileThatIsThereIsNeverWrittenOver() throws IOException {
        FaultyStorage storage = new FaultyStorage();
        storage.create("undated-0001.hold");
        Recording recording = new Recording(storage, MOST);
        recording.begin();
        recording.run(1000);
        assertTrue(recording.end());
        assertEquals("undated-0001b.hold", recording.created.join());
        assertEquals(0, storage.files.get("undated-0001.hold").written().length);
    }
}
