package org.holdtrace.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.Tag;
import net.jqwik.api.constraints.Size;
import org.holdtrace.session.Cobs;
import org.holdtrace.session.FrameEncoder;

/**
 * Bytes and messages from nobody in particular. Each property is one seed's worth of many messages: 100 000 messages in
 * all in the plain build, a million under the tag {@code fuzz}.
 */
class LinkFuzzTest {
    private static final int MESSAGES_A_TRY = 500;

    /** Counts, and keeps nothing. */
    private static final class Counting implements LinkInput.Handler {
        private long good;
        private long bad;

        @Override
        public void message(LinkMessage message) {
            good++;
        }

        @Override
        public void bad(LinkReader.BadMessage e) {
            bad++;
            assertTrue(e.getMessage().length() <= LinkLimits.LONGEST_TEXT, "words without end");
        }
    }

    /** Payloads of every message, as they stand in a frame. */
    private static List<byte[]> frames() {
        List<byte[]> frames = new ArrayList<>();
        LinkWriter writer = new LinkWriter();
        for (LinkMessage message : Messages.all()) {
            frames.add(copy(writer.frame(message)));
        }
        frames.add(copy(writer.samples(0, new long[] {5, 9, 14, 20}, new int[] {1, -2, 40_000, 7}, 0, 4)));
        return frames;
    }

    private static byte[] copy(ByteBuffer frame) {
        byte[] bytes = new byte[frame.remaining()];
        frame.get(bytes);
        return bytes;
    }

    private static Counting read(byte[] line) throws IOException {
        Counting counting = new Counting();
        new LinkInput(new ByteArrayInputStream(line), counting).run();
        return counting;
    }

    @Property(tries = 2000, shrinking = ShrinkingMode.OFF)
    void bytesOfNoKindAreNeverAMessageAndNeverStopTheReader(@ForAll @Size(max = 3000) byte[] junk) throws IOException {
        byte[] ping = copy(new LinkWriter().frame(new LinkMessage.Request(1, new Ask.Ping())));
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        line.write(junk);
        line.write(0);
        line.write(ping);
        Counting counting = read(line.toByteArray());
        assertEquals(1, counting.good, "the ping behind the junk and nothing else");
    }

    @Property(tries = 100, shrinking = ShrinkingMode.OFF)
    void damagedMessagesAreRefusedOrSkipped(@ForAll long seed) throws IOException {
        damaged(seed);
    }

    @Property(tries = 100, shrinking = ShrinkingMode.OFF)
    void nonsenseWithARightChecksumIsRefusedOrSkipped(@ForAll long seed) throws IOException {
        nonsense(seed);
    }

    @Tag("fuzz")
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void halfAMillionDamagedMessages(@ForAll long seed) throws IOException {
        damaged(seed);
    }

    @Tag("fuzz")
    @Property(tries = 1000, shrinking = ShrinkingMode.OFF)
    void halfAMillionMessagesOfNonsense(@ForAll long seed) throws IOException {
        nonsense(seed);
    }

    /** Real frames with bits flipped, bytes lost or put in: what a bad line does. */
    private static void damaged(long seed) throws IOException {
        Random random = new Random(seed);
        List<byte[]> frames = frames();
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        int spoilt = 0;
        for (int i = 0; i < MESSAGES_A_TRY; i++) {
            byte[] frame = frames.get(random.nextInt(frames.size())).clone();
            int at = random.nextInt(frame.length);
            switch (random.nextInt(4)) {
                case 0 -> {
                    frame[at] ^= (byte) (1 << random.nextInt(8));
                    spoilt++;
                    line.write(frame);
                }
                case 1 -> {
                    spoilt++;
                    line.write(frame, 0, at);
                }
                case 2 -> {
                    spoilt++;
                    line.write(frame, 0, at);
                    line.write(1 + random.nextInt(255));
                    line.write(frame, at, frame.length - at);
                }
                default -> line.write(frame);
            }
        }
        Counting counting = read(line.toByteArray());
        assertEquals(0, counting.bad, "a checksum that was right although the frame was not");
        // One spoilt frame costs itself and, where its end is spoilt, the one behind it.
        assertTrue(counting.good >= MESSAGES_A_TRY - 2 * spoilt, counting.good + " of " + MESSAGES_A_TRY);
        assertTrue(counting.good <= MESSAGES_A_TRY - spoilt + 2, counting.good + " although " + spoilt + " are spoilt");
    }

    /** Payloads that are damaged before they get their checksum, or random altogether: what a stranger sends. */
    private static void nonsense(long seed) throws IOException {
        Random random = new Random(seed);
        List<byte[]> frames = frames();
        FrameEncoder encoder = new FrameEncoder();
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        byte[] plain = new byte[1 << 12];
        for (int i = 0; i < MESSAGES_A_TRY; i++) {
            byte[] frame = frames.get(random.nextInt(frames.size()));
            int length = Cobs.decode(frame, frame.length - 1, plain);
            int payload = length - 9; // type and number before it, checksum behind it
            byte[] bytes = new byte[payload + 8];
            System.arraycopy(plain, 5, bytes, 0, payload);
            int type = random.nextInt(8) == 0 ? random.nextInt(256) : plain[0] & 0xFF;
            int used = payload;
            switch (random.nextInt(5)) {
                case 0 -> bytes[random.nextInt(payload)] = (byte) random.nextInt(256);
                case 1 -> used = random.nextInt(payload + 1);
                case 2 -> {
                    for (int k = 0; k < 1 + random.nextInt(6); k++) {
                        bytes[random.nextInt(payload)] ^= (byte) (1 << random.nextInt(8));
                    }
                }
                case 3 -> {
                    int from = random.nextInt(payload);
                    int to = random.nextInt(payload);
                    int n = Math.min(1 + random.nextInt(20), payload - Math.max(from, to));
                    System.arraycopy(bytes.clone(), from, bytes, to, n);
                }
                default -> {
                    random.nextBytes(bytes);
                    used = bytes.length;
                }
            }
            line.write(copy(encoder.encode(type, i, bytes, used)));
        }
        Counting counting = read(line.toByteArray());
        assertTrue(counting.good + counting.bad <= MESSAGES_A_TRY);
        assertTrue(counting.bad > MESSAGES_A_TRY / 10, "only " + counting.bad + " were refused: is this nonsense?");
    }
}
