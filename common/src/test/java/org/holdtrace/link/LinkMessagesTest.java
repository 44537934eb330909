package org.holdtrace.link;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.holdtrace.session.FrameEncoder;
import org.holdtrace.session.InputException;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Messages to frames and back, and what is refused. */
class LinkMessagesTest {
    @TempDir
    Path folder;

    private static byte[] bytes(ByteBuffer frame) {
        byte[] bytes = new byte[frame.remaining()];
        frame.get(bytes);
        return bytes;
    }

    /** What a reader makes of those bytes; what makes no sense stands among it as an exception. */
    static List<Object> read(byte[] bytes) throws IOException {
        List<Object> found = new ArrayList<>();
        new LinkInput(new ByteArrayInputStream(bytes), new LinkInput.Handler() {
                    @Override
                    public void message(LinkMessage message) {
                        found.add(message);
                    }

                    @Override
                    public void bad(LinkReader.BadMessage bad) {
                        found.add(bad);
                    }
                })
                .run();
        return found;
    }

    @TestFactory
    Stream<DynamicTest> everyMessageArrivesAsItWasSent() {
        return Messages.all().stream()
                .map(message -> DynamicTest.dynamicTest(message.toString(), () -> {
                    byte[] frame = bytes(new LinkWriter().frame(message));
                    List<Object> found = read(frame);
                    assertEquals(1, found.size());
                    assertEquals(message.getClass(), found.get(0).getClass());
                    // Arrays in records are not equal by content: what is written of what was read must be the same
                    // frame.
                    assertArrayEquals(frame, bytes(new LinkWriter().frame((LinkMessage) found.get(0))));
                }));
    }

    @Test
    void samplesArriveAsTheyWereSent() throws IOException {
        long[] times = {5, 1_163_000, 2_326_001, 3_488_002};
        int[] counts = {0, -1, 40_000, 7};
        List<Object> found = read(bytes(new LinkWriter().samples(3, times, counts, 1, 4)));
        LinkMessage.LiveSamples samples = (LinkMessage.LiveSamples) found.get(0);
        assertEquals(3, samples.block().channelId());
        assertArrayEquals(
                new long[] {1_163_000, 2_326_001, 3_488_002}, samples.block().timesNs());
        assertArrayEquals(new long[] {-1, 40_000, 7}, samples.block().counts());
    }

    @Test
    void framesAreNumberedSoThatAMissingOneIsNoticed() throws IOException {
        LinkWriter writer = new LinkWriter();
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        for (int i = 0; i < 6; i++) {
            byte[] frame = bytes(writer.frame(new LinkMessage.Request(i, new Ask.Ping())));
            if (i == 3) {
                frame[7] ^= 0x10;
            }
            if (i != 1) {
                line.write(frame);
            }
        }
        LinkInput input = new LinkInput(new ByteArrayInputStream(line.toByteArray()), new LinkInput.Handler() {
            @Override
            public void message(LinkMessage message) {}

            @Override
            public void bad(LinkReader.BadMessage bad) {}
        });
        input.run();
        assertEquals(1, input.damaged());
        assertEquals(2, input.missing());
    }

    private static byte[] frameOf(int type, CborText text) throws IOException {
        ByteArrayOutputStream payload = new ByteArrayOutputStream();
        try (CBORGenerator cbor = new CBORFactory().createGenerator(payload)) {
            text.write(cbor);
        }
        return bytes(new FrameEncoder().encode(type, 0, payload.toByteArray(), payload.size()));
    }

    private interface CborText {
        void write(CBORGenerator cbor) throws IOException;
    }

    @Test
    void aRequestOfALaterVersionIsRefusedByItsNumberAndNotTakenForAnother() throws IOException {
        List<Object> found = read(frameOf(LinkType.REQUEST, cbor -> {
            cbor.writeStartObject();
            cbor.writeNumberField("id", 77);
            cbor.writeStringField("ask", "dance");
            cbor.writeEndObject();
        }));
        LinkReader.BadMessage bad = (LinkReader.BadMessage) found.get(0);
        assertEquals(77, bad.id());
        assertEquals(LinkException.UNKNOWN_REQUEST, bad.code());
    }

    @Test
    void keysOfALaterVersionArePassedOver() throws IOException {
        List<Object> found = read(frameOf(LinkType.REQUEST, cbor -> {
            cbor.writeStartObject();
            cbor.writeNumberField("id", 77);
            cbor.writeObjectFieldStart("mood");
            cbor.writeStringField("now", "merry");
            cbor.writeEndObject();
            cbor.writeStringField("ask", "ping");
            cbor.writeEndObject();
        }));
        assertEquals(List.of(new LinkMessage.Request(77, new Ask.Ping())), found);
    }

    @ParameterizedTest
    @ValueSource(longs = {-1, 0, LinkLimits.LONGEST_CHUNK + 1L, Long.MAX_VALUE})
    void aRequestForTooMuchAtATimeIsRefused(long length) throws IOException {
        List<Object> found = read(frameOf(LinkType.REQUEST, cbor -> {
            cbor.writeStartObject();
            cbor.writeNumberField("id", 5);
            cbor.writeStringField("ask", "fetch");
            cbor.writeStringField("name", "a.hold");
            cbor.writeNumberField("offset", 0);
            cbor.writeNumberField("length", length);
            cbor.writeEndObject();
        }));
        LinkReader.BadMessage bad = (LinkReader.BadMessage) found.get(0);
        assertEquals(5, bad.id());
        assertEquals(LinkException.BAD_REQUEST, bad.code());
    }

    @Test
    void aPlanWithAMisspeltFieldIsRefusedAndTheNearOneNamed() throws IOException {
        List<Object> found = read(frameOf(LinkType.REQUEST, cbor -> {
            cbor.writeStartObject();
            cbor.writeNumberField("id", 5);
            cbor.writeStringField("ask", "plan");
            cbor.writeObjectFieldStart("setup");
            cbor.writeStringField("trappedVolum", "48 ± 5 cm3");
            cbor.writeEndObject();
            cbor.writeEndObject();
        }));
        LinkReader.BadMessage bad = (LinkReader.BadMessage) found.get(0);
        assertEquals(5, bad.id());
        assertTrue(bad.getMessage().contains("\"trappedVolume\"?"), bad.getMessage());
    }

    @Test
    void mapsInMapsWithoutEndAreRefused() throws IOException {
        List<Object> found = read(frameOf(LinkType.REQUEST, cbor -> {
            for (int i = 0; i < 400; i++) {
                cbor.writeStartObject();
                cbor.writeFieldName("deeper");
            }
            cbor.writeNumber(1);
            for (int i = 0; i < 400; i++) {
                cbor.writeEndObject();
            }
        }));
        assertTrue(found.get(0) instanceof LinkReader.BadMessage, found.toString());
    }

    @Test
    void aFrameOfATypeThatIsNotKnownIsPassedOver() throws IOException {
        assertEquals(List.of(), read(frameOf(200, cbor -> {
            cbor.writeStartObject();
            cbor.writeEndObject();
        })));
        byte[] empty = new byte[0];
        assertNull(assertRead(200, empty));
    }

    private static LinkMessage assertRead(int type, byte[] payload) {
        try {
            return new LinkReader().read(type, payload, 0, payload.length);
        } catch (LinkReader.BadMessage e) {
            throw new AssertionError(e);
        }
    }

    @Test
    void bytesWithoutEndAreNotCollected() throws IOException {
        byte[] junk = new byte[LinkLimits.LONGEST_FRAME * 4];
        Arrays.fill(junk, (byte) 7);
        byte[] ping = bytes(new LinkWriter().frame(new LinkMessage.Request(1, new Ask.Ping())));
        ByteArrayOutputStream line = new ByteArrayOutputStream();
        line.write(junk);
        line.write(0);
        line.write(ping);
        assertEquals(List.of(new LinkMessage.Request(1, new Ask.Ping())), read(line.toByteArray()));
    }

    @Test
    void theNewestCommonVersionIsSpoken() {
        assertEquals(OptionalInt.of(2), new Versions(1, 2).newestCommon(new Versions(2, 5)));
        assertEquals(OptionalInt.of(2), new Versions(2, 5).newestCommon(new Versions(1, 2)));
        assertEquals(OptionalInt.of(3), new Versions(1, 4).newestCommon(new Versions(2, 3)));
        assertEquals(OptionalInt.empty(), new Versions(1, 2).newestCommon(new Versions(3, 4)));
        assertThrows(IllegalArgumentException.class, () -> new Versions(2, 1));
        assertThrows(IllegalArgumentException.class, () -> new Versions(0, 1));
    }

    @ParameterizedTest
    @ValueSource(strings = {"a.hold", "2026-11-25-0042b.hold", "undated-0043.hold", "A_b-1.2.hold"})
    void plainNamesArePlain(String name) {
        assertTrue(SessionNames.isPlain(name));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                ".hold",
                "..hold",
                "../a.hold",
                "a/b.hold",
                "a\\b.hold",
                "/a.hold",
                "c:a.hold",
                "a.hold\u0000",
                "a.hold.part",
                "-a.hold",
                "ä.hold",
                "a b.hold",
                "a.HOLD"
            })
    void anyOtherNameIsNot(String name) {
        assertFalse(SessionNames.isPlain(name));
    }

    @Test
    void aKeyIsReadWithoutItsLineEndAndAShortOneIsRefused() throws IOException {
        Path file = folder.resolve("link.key");
        Files.writeString(file, "a secret of our own\r\n");
        LinkKey read = LinkKey.read(file);
        LinkKey made = LinkKey.of("a secret of our own".getBytes(StandardCharsets.US_ASCII));
        assertArrayEquals(
                made.clientProof(Messages.NONCE, Messages.challenge()),
                read.clientProof(Messages.NONCE, Messages.challenge()));
        Files.writeString(file, "short\n");
        InputException e = assertThrows(InputException.class, () -> LinkKey.read(file));
        assertTrue(e.getMessage().contains("a key of 5 bytes; expected a secret of 16"), e.getMessage());
    }

    /**
     * Made outside the project with OpenSSL 3.0.19: {@code { printf 'holdtrace link client\0'; nonce; challenge; } |
     * openssl dgst -sha256 -mac HMAC -macopt key:"a secret of our own"}, nonce 00 01 … 0f, challenge 31 bytes 00 and 09.
     */
    @Test
    void theProofsAreThoseOfOpenSsl() {
        LinkKey key = LinkKey.of("a secret of our own".getBytes(StandardCharsets.US_ASCII));
        HexFormat hex = HexFormat.of();
        byte[] client = key.clientProof(Messages.NONCE, Messages.challenge());
        byte[] logger = key.loggerProof(Messages.NONCE, Messages.challenge());
        assertEquals("35edb6661abf214cbba76703ab8e2f0a20af509060cc313849e1668375f35a16", hex.formatHex(client));
        assertEquals("82295be4e59c476d0a4fc907cd8e982d53da2fd7d1b92eb448f8bdcf1bff85cb", hex.formatHex(logger));
        assertNotEquals(hex.formatHex(client), hex.formatHex(logger));
    }
}
