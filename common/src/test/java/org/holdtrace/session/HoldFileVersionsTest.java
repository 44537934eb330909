package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class HoldFileVersionsTest {
    private static final String NO_END = "the recording was not ended on purpose: there is no end frame";

    private static void head(CBORGenerator cbor, int major, int minor) throws IOException {
        cbor.writeStringField("format", "holdtrace session");
        cbor.writeNumberField("major", major);
        cbor.writeNumberField("minor", minor);
    }

    private static void channel(CBORGenerator cbor, String kind) throws IOException {
        cbor.writeStartObject();
        cbor.writeNumberField("id", kind.equals("pressure") ? 0 : 5);
        cbor.writeStringField("kind", kind);
        cbor.writeNumberField("rateHz", 250);
        cbor.writeStringField("colour", "green");
        cbor.writeObjectFieldStart("calibration");
        cbor.writeNumberField("voltsPerCount", 1);
        cbor.writeFieldName("points");
        cbor.writeStartArray();
        cbor.writeArray(new int[] {0, 0}, 0, 2);
        cbor.writeArray(new int[] {1, 1}, 0, 2);
        cbor.writeEndArray();
        cbor.writeEndObject();
        cbor.writeEndObject();
    }

    private static byte[] header(int minor) throws IOException {
        return Sessions.frame(1, 0, cbor -> {
            head(cbor, 1, minor);
            cbor.writeObjectFieldStart("weather");
            cbor.writeStringField("sky", "grey");
            cbor.writeEndObject();
            cbor.writeArrayFieldStart("channels");
            channel(cbor, "pressure");
            channel(cbor, "sound level");
            cbor.writeEndArray();
            cbor.writeObjectFieldStart("setup");
            cbor.writeStringField("limit", "15 cm3/min");
            cbor.writeStringField("moonPhase", "new");
            cbor.writeStringField("pumpStroke", "a cupful");
            cbor.writeEndObject();
        });
    }

    private static Session read(byte[]... frames) throws IOException {
        return Sessions.read(Sessions.join(List.of(frames)));
    }

    @Test
    void aLaterMinorVersionIsReadAndWhatIsNewIsToldOnce() throws IOException {
        Session session = read(
                header(7),
                Sessions.frame(2, 1, cbor -> {
                    cbor.writeNumberField("channel", 0);
                    cbor.writeNumberField("t0", 5);
                    cbor.writeNumberField("gain", 2);
                    cbor.writeFieldName("raw");
                    cbor.writeTag(73);
                    cbor.writeBinary(new byte[] {0x01, 0x00});
                }),
                Sessions.frame(9, 2, cbor -> cbor.writeStringField("of", "the future")),
                Sessions.frame(9, 3, cbor -> cbor.writeStringField("of", "the future")),
                Sessions.frame(3, 4, cbor -> {
                    cbor.writeStringField("event", "eclipse");
                    cbor.writeNumberField("t", 6);
                }));
        assertEquals(
                List.of(
                        "skipped \"weather\" of the header, which this version does not know",
                        "skipped \"colour\" of a channel, which this version does not know",
                        "channel 5 measures \"sound level\", which this version does not know",
                        "skipped in the header: setup, field moonPhase: unknown field \"moonPhase\"; expected one of"
                                + " machine, component, componentKind, port, oil, trappedVolume, lineCompliance, pumpStroke,"
                                + " bledVolume, transducer, referencePressure, reliefSetting, limit",
                        "skipped in the header: setup, field pumpStroke: \"a cupful\": \"a cupful\" where a number belongs;"
                                + " expected a quantity such as \"48 ± 5 cm3\"",
                        "written in format 1.7, this version knows 1.0",
                        "skipped \"gain\" of a sample block, which this version does not know",
                        "skipped frames of type 9, which this version does not know",
                        "skipped an event \"eclipse\", which this version does not know",
                        NO_END),
                session.remarks());
        assertArrayEquals(new int[] {256}, session.counts(0), "big-endian counts are read too");
        assertEquals(2.5e-7, session.setup().limitM3PerS().orElseThrow().value());
        assertEquals(List.of(), session.losses());
    }

    @Test
    void aLaterMajorVersionIsRefused() {
        assertEquals(
                "a.hold, header: a session in format 2.1; expected format 1.x; a newer version of this program may read it",
                assertThrows(
                                InputException.class,
                                () -> read(Sessions.frame(1, 0, cbor -> {
                                    head(cbor, 2, 1);
                                    cbor.writeStringField("channels", "elsewhere now");
                                })))
                        .getMessage());
    }

    @Test
    void aHeaderOfSomethingElseIsRefused() {
        assertEquals(
                "a.hold, header: the format \"cooking recipe\"; expected \"holdtrace session\"",
                assertThrows(
                                InputException.class,
                                () -> read(Sessions.frame(1, 0, cbor -> {
                                    cbor.writeStringField("format", "cooking recipe");
                                    cbor.writeNumberField("major", 1);
                                    cbor.writeNumberField("minor", 0);
                                })))
                        .getMessage());
    }

    private interface Odd extends Sessions.Payload {}

    @Test
    void aPayloadThatMakesNoSenseIsSkippedAndTold() throws IOException {
        List<Odd> oddities = List.of(
                cbor -> cbor.writeStringField("channel", "zero"),
                cbor -> cbor.writeNumberField("channel", 0),
                cbor -> samples(cbor, 77, new byte[3]),
                cbor -> samples(cbor, 82, new byte[8]),
                cbor -> samples(cbor, 79, new byte[8]),
                cbor -> {
                    samples(cbor, 77, new byte[4]);
                    cbor.writeNumberField("step", -1);
                },
                cbor -> {
                    samples(cbor, 77, new byte[4]);
                    cbor.writeNumberField("step", Long.MAX_VALUE);
                });
        List<byte[]> frames = new ArrayList<>(List.of(header(0)));
        for (Odd odd : oddities) {
            frames.add(Sessions.frame(2, frames.size(), odd));
        }
        frames.add(Sessions.frame(2, frames.size(), cbor -> samples(cbor, 77, new byte[] {7, 0})));
        frames.add(Sessions.frame(3, frames.size(), cbor -> cbor.writeStringField("event", "note")));
        frames.add(Sessions.frame(5, frames.size(), cbor -> cbor.writeStringField("samples", "many")));
        Session session = Sessions.read(Sessions.join(frames));
        assertArrayEquals(new int[] {7}, session.counts(0));
        assertEquals(List.of(), session.losses());
        long told = session.remarks().stream()
                .filter(remark -> remark.startsWith("skipped frame ") && remark.contains("which cannot be read: "))
                .count();
        assertEquals(oddities.size() + 2, told, session.remarks().toString());
    }

    private static void samples(CBORGenerator cbor, int tag, byte[] raw) throws IOException {
        cbor.writeNumberField("channel", 0);
        cbor.writeNumberField("t0", 9);
        cbor.writeFieldName("raw");
        cbor.writeTag(tag);
        cbor.writeBinary(raw);
    }

    @Test
    void aPayloadThatIsNoCborIsSkippedAndTold() throws IOException {
        byte[] junk = {(byte) 0xFF, 0x1C, 0x33};
        ByteBuffer frame = new FrameEncoder().encode(2, 1, junk, junk.length);
        byte[] bytes = new byte[frame.remaining()];
        frame.get(bytes);
        Session session = read(header(0), bytes);
        assertEquals(0, session.sampleCount(0));
        assertEquals(List.of(), session.losses());
    }
}
