package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.WritableByteChannel;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class HoldFileDamageTest {
    private static final int BLOCKS = 9;

    private static final OptionalLong NONE = OptionalLong.empty();

    private static byte[] whole() throws IOException {
        return Sessions.counted(BLOCKS);
    }

    private static List<String> losses(Session session) {
        return session.losses().stream().map(Loss::describe).toList();
    }

    /** Counts that can be whole blocks only, each sample at the time its count says. */
    private static void assertOnlyTrueSamples(Session session, String what) {
        int[] counts = session.counts(Sessions.PRESSURE);
        long[] times = session.timesNs(Sessions.PRESSURE);
        assertEquals(0, counts.length % Sessions.BLOCK, what);
        for (int i = 0; i < counts.length; i++) {
            assertEquals(counts[i] * Sessions.STEP_NS, times[i], what);
            assertTrue(i == 0 || counts[i] > counts[i - 1], what);
            assertTrue(counts[i] >= 0 && counts[i] < BLOCKS * Sessions.BLOCK, what);
        }
    }

    @Test
    void cutAtAnyByteTheWholeFramesBeforeTheCutAreRead() throws IOException {
        byte[] whole = whole();
        List<byte[]> frames = Sessions.frames(whole);
        for (int cut = 0; cut < whole.length; cut++) {
            byte[] bytes = Arrays.copyOf(whole, cut);
            int frameCount = 0;
            int end = 0;
            while (frameCount < frames.size() && end + frames.get(frameCount).length <= cut) {
                end += frames.get(frameCount++).length;
            }
            if (frameCount == 0) {
                InputException e = assertThrows(InputException.class, () -> Sessions.read(bytes));
                assertEquals(
                        "a.hold: no whole frame; expected a session recorded or simulated by Holdtrace",
                        e.getMessage());
                continue;
            }
            Session session = Sessions.read(bytes);
            int samples = Math.min(frameCount - 1, BLOCKS) * Sessions.BLOCK;
            assertEquals(samples, session.sampleCount(Sessions.PRESSURE), "cut at byte " + cut);
            assertOnlyTrueSamples(session, "cut at byte " + cut);
            assertTrue(session.end().isEmpty(), "cut at byte " + cut);
            OptionalLong last = samples == 0 ? NONE : OptionalLong.of((samples - 1) * Sessions.STEP_NS);
            List<Loss> expected = cut == end
                    ? List.of()
                    : List.of(new Loss(Loss.Kind.TORN_TAIL, end, cut, frameCount, NONE, last, NONE));
            assertEquals(expected, session.losses(), "cut at byte " + cut);
        }
    }

    @Test
    void aTornTailReadsLikeThis() throws IOException {
        byte[] whole = whole();
        List<byte[]> frames = Sessions.frames(whole);
        int cut = whole.length - frames.get(BLOCKS + 1).length - 5;
        Session session = Sessions.read(Arrays.copyOf(whole, cut));
        int good = cut + 5 - frames.get(BLOCKS).length;
        assertEquals(
                List.of("bytes " + good + " to " + cut + ", after 0.316 s: the file ends inside a frame"),
                losses(session));
        assertEquals(List.of("the recording was not ended on purpose: there is no end frame"), session.remarks());
    }

    @Test
    void aFlipOfAnyByteIsSeenAndCostsAtMostTwoFrames() throws IOException {
        byte[] whole = whole();
        int headerLength = Sessions.frames(whole).get(0).length;
        for (int at = 0; at < whole.length; at++) {
            for (int mask : new int[] {0x01, 0xC2, whole[at] & 0xFF}) {
                byte[] bytes = whole.clone();
                bytes[at] ^= (byte) mask;
                if (mask == 0) {
                    continue;
                }
                String what = "byte " + at + " flipped by " + mask;
                if (at < headerLength) {
                    InputException e = assertThrows(InputException.class, () -> Sessions.read(bytes), what);
                    assertTrue(e.getMessage().startsWith("a.hold: its header is lost ("), e.getMessage());
                    continue;
                }
                Session session = Sessions.read(bytes);
                assertOnlyTrueSamples(session, what);
                assertFalse(session.losses().isEmpty(), what);
                assertTrue(session.sampleCount(Sessions.PRESSURE) >= (BLOCKS - 2) * Sessions.BLOCK, what);
            }
        }
    }

    @Test
    void aMissingStretchIsToldByFramesBytesAndTime() throws IOException {
        List<byte[]> frames = new ArrayList<>(Sessions.frames(whole()));
        int start = IntStream.range(0, 4).map(i -> frames.get(i).length).sum();
        frames.subList(4, 7).clear();
        Session session = Sessions.read(Sessions.join(frames));
        assertEquals(
                List.of("frames 4 to 6, bytes " + start + " to " + start + ", between 0.116 s and 0.240 s: damaged"),
                losses(session));
        assertEquals((BLOCKS - 3) * Sessions.BLOCK, session.sampleCount(Sessions.PRESSURE));
    }

    @Test
    void bytesPutInBetweenCostNoFrameAndAreTold() throws IOException {
        List<byte[]> frames = new ArrayList<>(Sessions.frames(whole()));
        frames.add(3, new byte[] {1, 2, 3, 0, 0, 0, 9, 0});
        Session session = Sessions.read(Sessions.join(frames));
        assertEquals(BLOCKS * Sessions.BLOCK, session.sampleCount(Sessions.PRESSURE));
        assertEquals(1, session.losses().size());
        assertEquals(OptionalLong.of(0), session.losses().get(0).frames());
    }

    @Test
    void aFrameReadBeforeIsLeftOut() throws IOException {
        List<byte[]> frames = new ArrayList<>(Sessions.frames(whole()));
        frames.add(6, frames.get(3));
        Session session = Sessions.read(Sessions.join(frames));
        assertEquals(BLOCKS * Sessions.BLOCK, session.sampleCount(Sessions.PRESSURE));
        assertOnlyTrueSamples(session, "a frame twice");
        assertTrue(
                losses(session).get(0).endsWith(": a frame that was read before, left out"), losses(session)::toString);
    }

    @Test
    void zeroesAtTheEndAreNoDamage() throws IOException {
        byte[] whole = whole();
        Session session = Sessions.read(Arrays.copyOf(whole, whole.length + 4096));
        assertEquals(List.of(), session.losses());
        assertTrue(session.end().isPresent());
    }

    @Test
    void theHeaderIsRepeatedSoThatALostBeginningCostsOnlyItself() throws IOException {
        byte[] whole = Sessions.counted(600);
        byte[] bytes = whole.clone();
        Arrays.fill(bytes, 0, 500, (byte) 0x55);
        Session session = Sessions.read(bytes);
        assertEquals(Sessions.header(true), session.header());
        assertEquals(1, session.losses().size());
        assertEquals(0, session.losses().get(0).firstSequence());
        int lost = (int) session.losses().get(0).frames().orElseThrow();
        assertEquals((600 - (lost - 1)) * Sessions.BLOCK, session.sampleCount(Sessions.PRESSURE));
    }

    @Test
    void whatIsNoSessionSaysSo() {
        for (byte[] bytes :
                new byte[][] {{}, "time [s],pressure [bar]\n0,1\n".getBytes(StandardCharsets.UTF_8), new byte[5000]}) {
            assertEquals(
                    "a.hold: no whole frame; expected a session recorded or simulated by Holdtrace",
                    assertThrows(InputException.class, () -> Sessions.read(bytes))
                            .getMessage());
        }
    }

    @Test
    void randomDamageNeverGivesASampleThatWasNotRecordedAndNeverBreaksTheReader() throws IOException {
        byte[] whole = Sessions.counted(BLOCKS);
        Random random = new Random(21);
        for (int run = 0; run < 1500; run++) {
            byte[] bytes = whole.clone();
            int hits = 1 + random.nextInt(4);
            for (int hit = 0; hit < hits; hit++) {
                bytes = damaged(bytes, random);
            }
            try {
                assertOnlyTrueSamples(Sessions.read(bytes), "run " + run);
            } catch (InputException e) {
                assertTrue(e.getMessage().startsWith("a.hold: "), e.getMessage());
            }
        }
    }

    private static byte[] damaged(byte[] bytes, Random random) {
        if (bytes.length == 0) {
            return bytes;
        }
        int at = random.nextInt(bytes.length);
        int length = Math.min(bytes.length - at, 1 + random.nextInt(200));
        switch (random.nextInt(4)) {
            case 0 -> bytes[at] ^= (byte) (1 << random.nextInt(8));
            case 1 -> {
                byte[] junk = new byte[length];
                random.nextBytes(junk);
                System.arraycopy(junk, 0, bytes, at, length);
            }
            case 2 -> { // moved: an old sector in a new place
                int from = random.nextInt(bytes.length - length + 1);
                System.arraycopy(bytes, from, bytes, at, length);
            }
            default -> {
                byte[] shorter = new byte[bytes.length - length];
                System.arraycopy(bytes, 0, shorter, 0, at);
                System.arraycopy(bytes, at + length, shorter, at, shorter.length - at);
                return shorter;
            }
        }
        return bytes;
    }

    /** A disk that fails once, after it has taken half of what it was given. */
    private static final class FailsOnce implements WritableByteChannel {
        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private int writesLeft;

        private FailsOnce(int failingWrite) {
            writesLeft = failingWrite;
        }

        @Override
        public int write(ByteBuffer source) throws IOException {
            boolean fails = --writesLeft == 0;
            byte[] taken = new byte[fails ? source.remaining() / 2 : source.remaining()];
            source.get(taken);
            bytes.writeBytes(taken);
            if (fails) {
                throw new IOException("no space left");
            }
            return taken.length;
        }

        @Override
        public boolean isOpen() {
            return true;
        }

        @Override
        public void close() {}
    }

    @Test
    void aWriteThatFailsCostsItsOwnFrameAndNoOther() throws IOException {
        for (int failing = 2; failing <= BLOCKS + 1; failing++) {
            FailsOnce disk = new FailsOnce(failing);
            int failures = 0;
            try (HoldFileWriter writer = HoldFileWriter.to(disk, Sessions.header(false))) {
                for (int b = 0; b < BLOCKS; b++) {
                    try {
                        Sessions.countedBlock(writer, b);
                    } catch (IOException e) {
                        failures++;
                    }
                }
                writer.end("done");
            }
            assertEquals(1, failures, "write " + failing);
            Session session = Sessions.read(disk.bytes.toByteArray());
            assertEquals((BLOCKS - 1) * Sessions.BLOCK, session.sampleCount(Sessions.PRESSURE), "write " + failing);
            assertEquals(1, session.losses().size());
            assertEquals(OptionalLong.of(1), session.losses().get(0).frames());
            assertEquals(failing - 1, session.losses().get(0).firstSequence());
        }
    }
}
