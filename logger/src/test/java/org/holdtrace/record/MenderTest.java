package org.holdtrace.record;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import org.holdtrace.session.InputException;
import org.holdtrace.session.Loss;
import org.holdtrace.session.Session;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Closing sessions that were cut short; what is there is never changed. */
class MenderTest {
    @TempDir
    Path folder;

    private static byte[] whole;
    private static Set<Long> all;

    @BeforeAll
    static void aSession() throws IOException {
        whole = session(2500);
        all = new HashSet<>(Recording.times(List.of(whole)));
    }

    private static byte[] session(long ms) {
        FaultyStorage storage = new FaultyStorage();
        Recording recording = new Recording(storage, 100_000);
        recording.begin();
        recording.run(ms);
        assertTrue(recording.end());
        return Recording.written(storage).get(0);
    }

    private Path file(byte[] bytes) throws IOException {
        Path file = folder.resolve("undated-0001.hold");
        Files.write(file, bytes);
        return file;
    }

    @Test
    void aSessionThatWasEndedIsLeftAlone() throws IOException {
        Path file = file(whole);
        assertNull(Mender.mendOne(file));
        assertArrayEquals(whole, Files.readAllBytes(file));
    }

    @Test
    void aFileCutAtEachOfItsBytesIsClosedAndNothingThatWasThereIsTouched() throws IOException {
        byte[] cutUp = session(700);
        int closed = 0;
        int headersClosed = 0;
        for (int cut = 0; cut < cutUp.length; cut++) {
            byte[] left = Arrays.copyOf(cutUp, cut);
            Path file = file(left);
            Mender.Finding finding = Mender.mendOne(file);
            byte[] after = Files.readAllBytes(file);
            assertArrayEquals(left, Arrays.copyOf(after, cut), "cut at " + cut);
            Session before;
            try {
                before = Recording.read(left);
            } catch (InputException e) {
                if (finding.deed() == Mender.Deed.CLOSED) {
                    // The header lacked nothing but its closing zero.
                    assertEquals(0, Recording.read(after).sampleCount(0));
                    headersClosed++;
                } else {
                    assertEquals(cut, after.length);
                }
                continue;
            }
            if (finding == null) {
                assertEquals(cutUp.length - 1, cut); // only the zero byte behind the end frame is missing
                continue;
            }
            closed++;
            assertEquals(Mender.Deed.CLOSED, finding.deed(), finding.text());
            Session mended = Recording.read(after);
            assertTrue(mended.end().isPresent());
            // One block more may be there: a frame that lacked nothing but its closing zero is whole now.
            assertTrue(mended.sampleCount(0) >= before.sampleCount(0), "cut at " + cut);
            assertEquals(
                    (long) mended.sampleCount(0),
                    mended.end().orElseThrow().samples().get(0));
            assertTrue(all.containsAll(Recording.times(List.of(after))));
            assertTrue(mended.losses().size() <= 1, "cut at " + cut + ": " + mended.losses());
            for (Loss loss : mended.losses()) {
                assertEquals(1, loss.frames().orElseThrow());
            }
            assertNull(Mender.mendOne(file), "mended twice");
        }
        assertTrue(closed > cutUp.length / 2);
        assertEquals(1, headersClosed);
    }

    @Test
    void theFindingSaysHowMuchIsThere() throws IOException {
        Mender.Finding finding = Mender.mendOne(file(Arrays.copyOf(whole, whole.length * 2 / 3)));
        assertTrue(
                finding.text()
                        .matches(
                                "undated-0001.hold was cut short after 1\\.\\d{3} s; \\d+ samples are there.*; closed"),
                finding.text());
    }

    @Test
    void tenThousandFlippedBitsCrashNothingAndEveryDamagedFrameIsTold() throws IOException {
        SplittableRandom random = new SplittableRandom(4711);
        int frames = (int) Recording.read(whole).end().orElseThrow().frames();
        int noHeader = 0;
        for (int trial = 0; trial < 10_000; trial++) {
            byte[] damaged = whole.clone();
            int at = random.nextInt(damaged.length);
            damaged[at] ^= (byte) (1 << random.nextInt(8));
            Session session;
            try {
                session = Recording.read(damaged);
            } catch (InputException e) {
                noHeader++; // this short session has one header only
                assertTrue(at < 400, "byte " + at + ": " + e.getMessage());
                continue;
            }
            long missing = 0;
            for (Loss loss : session.losses()) {
                missing += loss.frames().orElse(0);
            }
            // A flipped byte lies in one frame; where it was or became a zero, two frames run together or one falls
            // apart.
            boolean lastFrame = session.end().isEmpty();
            assertTrue((missing >= 1 && missing <= 2) || lastFrame, "byte " + at + ": " + session.losses());
            assertTrue(all.containsAll(Recording.times(List.of(damaged))));
            assertTrue(session.losses().get(0).firstByte() <= at
                    && session.losses().get(0).endByte() > at);
            if (trial % 50 == 0) {
                Mender.Finding finding = Mender.mendOne(file(damaged));
                assertEquals(lastFrame, finding != null);
            }
        }
        assertTrue(frames > 20 && noHeader < 10_000);
    }

    @Test
    void whatIsNoSessionIsLeftAndTold() throws IOException {
        Path text = Files.writeString(folder.resolve("notes.hold"), "not a session at all");
        Path empty = Files.createFile(folder.resolve("empty.hold"));
        List<Mender.Finding> findings = Mender.mend(folder);
        assertEquals(2, findings.size());
        assertTrue(findings.stream().allMatch(f -> f.deed() == Mender.Deed.LEFT));
        assertEquals("not a session at all", Files.readString(text));
        assertEquals(0, Files.size(empty));
    }

    @Test
    void aSessionDamagedInTheMiddleAndCutShortTellsBoth() throws IOException {
        byte[] damaged = Arrays.copyOf(whole, whole.length * 3 / 4);
        damaged[whole.length / 2] ^= 0x55;
        Path file = file(damaged);
        Mender.Finding finding = Mender.mendOne(file);
        assertEquals(Mender.Deed.CLOSED, finding.deed());
        assertTrue(finding.text().contains("damaged"), finding.text());
        Session mended = Recording.read(Files.readAllBytes(file));
        assertTrue(mended.end().isPresent());
        assertEquals("test", mended.header().instrument());
    }
}
