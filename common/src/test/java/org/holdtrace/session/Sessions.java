package org.holdtrace.session;

import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.Stroke;

/** Sessions for tests; the machine is invented. */
final class Sessions {
    static final int PRESSURE = 0;
    static final int OIL = 2;
    static final int BLOCK = 10;
    static final long STEP_NS = 4_000_000;

    private Sessions() {}

    static Calibration pressureCalibration() {
        return new Calibration(
                125e-6,
                0,
                new Calibration.Point(0.5, 0),
                new Calibration.Point(4.5, 2.5e7),
                List.of(new Calibration.Residual(1e7, -1.5e3), new Calibration.Residual(2e7, 2e3)),
                Optional.of("invented reference gauge"),
                Optional.of(LocalDate.of(2026, 1, 15)));
    }

    static SessionHeader header(boolean simulated) {
        Calibration kelvin = Calibration.line(1e-3, new Calibration.Point(0, 273.15), new Calibration.Point(1, 373.15));
        TestSetup setup = SetupField.toSetup(Map.of(
                SetupField.MACHINE,
                "Loader 7",
                SetupField.OIL_GRADE,
                "ISO VG 46",
                SetupField.TRAPPED_VOLUME,
                new Quantity(48e-6, 5e-6),
                SetupField.TRANSDUCER_RANGE,
                new SetupField.Range(0, 2.5e7)));
        return new SessionHeader(
                "bench logger 3",
                "holdtrace 1.0",
                Optional.of(Instant.parse("2026-03-01T08:00:00.250Z")),
                simulated,
                List.of(
                        new Channel(PRESSURE, ChannelKind.PRESSURE, "port", 250, pressureCalibration()),
                        new Channel(1, ChannelKind.SECOND_PRESSURE, "pump", 250, pressureCalibration()),
                        new Channel(OIL, ChannelKind.OIL_TEMPERATURE, "", 1, kelvin)),
                setup);
    }

    static List<SessionEvent> events() {
        return List.of(
                new SessionEvent.PhaseMark(0, 1, Phase.REST),
                new SessionEvent.PhaseMark(5_000_000_000L, 1, Phase.PUMP_UP),
                new SessionEvent.StrokeMark(5_000_000_000L, 5_400_000_000L),
                new SessionEvent.Fault(6_000_000_000L, "adc.read", "loose wire?"),
                new SessionEvent.ClockJump(7_000_000_000L, -3_600_000_000_000L),
                new SessionEvent.Jitter(8_000_000_000L, 2000, 3, 25_000, 120_000, 2_400_000),
                new SessionEvent.Note(9_000_000_000L, "second port, größer"));
    }

    static Truth truth() {
        return new Truth(
                1,
                Map.of("leakM3PerS", 1.3e-7),
                Map.of("law", "laminar"),
                List.of(new Stroke(5, 5.4), new Stroke(6, 6.35)));
    }

    /** A session of {@code blocks} pressure blocks of {@link #BLOCK} samples: count i at i times 4 ms. */
    static byte[] counted(int blocks) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(out), header(true))) {
            for (int b = 0; b < blocks; b++) {
                countedBlock(writer, b);
            }
            writer.end("done");
        }
        return out.toByteArray();
    }

    static void countedBlock(HoldFileWriter writer, int block) throws IOException {
        long[] times = new long[BLOCK];
        int[] counts = new int[BLOCK];
        for (int i = 0; i < BLOCK; i++) {
            counts[i] = block * BLOCK + i;
            times[i] = counts[i] * STEP_NS;
        }
        writer.samples(PRESSURE, times, counts, 0, BLOCK);
    }

    static Session read(byte[] bytes) throws IOException {
        return HoldFileReader.read(new ByteArrayInputStream(bytes), "a.hold");
    }

    /** The frames of a session, each with its closing zero. */
    static List<byte[]> frames(byte[] session) {
        List<byte[]> frames = new ArrayList<>();
        int start = 0;
        for (int i = 0; i < session.length; i++) {
            if (session[i] == 0) {
                frames.add(Arrays.copyOfRange(session, start, i + 1));
                start = i + 1;
            }
        }
        return frames;
    }

    static byte[] join(List<byte[]> frames) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        frames.forEach(all::writeBytes);
        return all.toByteArray();
    }

    /** Writes one payload by hand. */
    interface Payload {
        void to(CBORGenerator cbor) throws IOException;
    }

    /** A frame with a payload written by hand, as another version might write it. */
    static byte[] frame(int type, long sequence, Payload payload) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (CBORGenerator cbor = new CBORFactory().createGenerator(out)) {
            cbor.writeStartObject();
            payload.to(cbor);
            cbor.writeEndObject();
        }
        ByteBuffer frame = new FrameEncoder().encode(type, sequence, out.toByteArray(), out.size());
        byte[] bytes = new byte[frame.remaining()];
        frame.get(bytes);
        return bytes;
    }
}
