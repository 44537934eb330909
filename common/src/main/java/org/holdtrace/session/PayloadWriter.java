package org.holdtrace.session;

import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.List;
import java.util.Map;
import org.holdtrace.trace.Stroke;

/**
 * Writes the payloads of a session's frames as CBOR maps. Every key is in {@code docs/session-format.md}. Buffers and
 * generator are kept from frame to frame, so that a block of samples costs next to no garbage. One thread at a time.
 */
public final class PayloadWriter {
    static final String FORMAT = "holdtrace session";
    static final int MAJOR = 1;
    static final int MINOR = 0;
    static final int MICROSECOND_NS = 1000;

    private static final int INSTANT_TAG = 0;
    private static final int LARGEST_UINT16 = 0xFFFF;
    private static final long LARGEST_UINT32 = 0xFFFF_FFFFL;

    /** A byte array that grows and lets its content be read in place. */
    private static final class Scratch extends ByteArrayOutputStream {
        byte[] array() {
            return buf;
        }
    }

    private final Scratch out = new Scratch();
    private final CBORGenerator cbor;
    private ByteBuffer numbers = ByteBuffer.allocate(1 << 12).order(ByteOrder.LITTLE_ENDIAN);

    /** A writer with no payload yet. */
    public PayloadWriter() {
        try {
            cbor = new CBORFactory().createGenerator(out);
        } catch (IOException e) {
            throw new IllegalStateException("a generator that writes to memory cannot fail", e);
        }
    }

    /** The last payload is {@code array()[0 … length()-1]}. */
    public byte[] array() {
        return out.array();
    }

    /** Bytes of the last payload. */
    public int length() {
        return out.size();
    }

    private void begin(int keys) throws IOException {
        out.reset();
        cbor.writeStartObject(null, keys);
    }

    private void end() throws IOException {
        cbor.writeEndObject();
        cbor.flush();
    }

    /** Writes a header. */
    public void header(SessionHeader header) throws IOException {
        begin(header.startedAt().isPresent() ? 9 : 8);
        cbor.writeStringField("format", FORMAT);
        cbor.writeNumberField("major", MAJOR);
        cbor.writeNumberField("minor", MINOR);
        cbor.writeStringField("instrument", header.instrument());
        cbor.writeStringField("software", header.software());
        if (header.startedAt().isPresent()) {
            cbor.writeFieldName("startedAt");
            cbor.writeTag(INSTANT_TAG);
            cbor.writeString(header.startedAt().get().toString());
        }
        cbor.writeBooleanField("simulated", header.simulated());
        cbor.writeFieldName("channels");
        cbor.writeStartArray(null, header.channels().size());
        for (Channel channel : header.channels()) {
            channel(channel);
        }
        cbor.writeEndArray();
        cbor.writeFieldName("setup");
        SetupWriter.write(header.setup(), cbor);
        end();
    }

    private void channel(Channel channel) throws IOException {
        cbor.writeStartObject(null, 5);
        cbor.writeNumberField("id", channel.id());
        cbor.writeStringField("kind", channel.kind().label());
        cbor.writeStringField("name", channel.name());
        cbor.writeNumberField("rateHz", channel.nominalRateHz());
        cbor.writeFieldName("calibration");
        Calibration calibration = channel.calibration();
        int optional = (calibration.residuals().isEmpty() ? 0 : 1)
                + (calibration.reference().isPresent() ? 1 : 0)
                + (calibration.date().isPresent() ? 1 : 0);
        cbor.writeStartObject(null, 3 + optional);
        cbor.writeNumberField("voltsPerCount", calibration.voltsPerCount());
        cbor.writeNumberField("voltsAtZeroCount", calibration.voltsAtZeroCount());
        cbor.writeFieldName("points");
        cbor.writeStartArray(null, 2);
        pair(calibration.low().volts(), calibration.low().siValue());
        pair(calibration.high().volts(), calibration.high().siValue());
        cbor.writeEndArray();
        if (!calibration.residuals().isEmpty()) {
            cbor.writeFieldName("residuals");
            cbor.writeStartArray(null, calibration.residuals().size());
            for (Calibration.Residual residual : calibration.residuals()) {
                pair(residual.siValue(), residual.offBy());
            }
            cbor.writeEndArray();
        }
        if (calibration.reference().isPresent()) {
            cbor.writeStringField("reference", calibration.reference().get());
        }
        if (calibration.date().isPresent()) {
            cbor.writeStringField("date", calibration.date().get().toString());
        }
        cbor.writeEndObject();
        cbor.writeEndObject();
    }

    private void pair(double a, double b) throws IOException {
        cbor.writeStartArray(null, 2);
        cbor.writeNumber(a);
        cbor.writeNumber(b);
        cbor.writeEndArray();
    }

    /** Writes samples {@code from … to-1}, at least one. Times never decrease. */
    public void samples(int channelId, long[] timeNs, int[] counts, int from, int to) throws IOException {
        long unit = MICROSECOND_NS;
        long largest = 0;
        boolean even = true;
        boolean narrow = true;
        for (int i = from; i < to; i++) {
            narrow &= counts[i] == (short) counts[i];
            if (i > from) {
                long step = timeNs[i] - timeNs[i - 1];
                largest = Math.max(largest, step);
                even &= step == timeNs[from + 1] - timeNs[from];
                unit = step % MICROSECOND_NS == 0 ? unit : 1;
            }
        }
        boolean timed = to - from > 1;
        begin(!timed ? 3 : even || unit == 1 ? 4 : 5);
        cbor.writeNumberField("channel", channelId);
        cbor.writeNumberField("t0", timeNs[from]);
        if (timed && even) {
            cbor.writeNumberField("step", largest);
        } else if (timed) {
            steps(timeNs, from, to, unit, largest / unit);
        }
        reserve(4 * (to - from));
        for (int i = from; i < to; i++) {
            if (narrow) {
                numbers.putShort((short) counts[i]);
            } else {
                numbers.putInt(counts[i]);
            }
        }
        typedArray("raw", narrow ? TypedArray.SINT16_LE : TypedArray.SINT32_LE);
        end();
    }

    private void steps(long[] timeNs, int from, int to, long unit, long largest) throws IOException {
        if (unit != 1) {
            cbor.writeNumberField("unit", unit);
        }
        reserve(8 * (to - from));
        int tag = largest <= LARGEST_UINT16
                ? TypedArray.UINT16_LE
                : largest <= LARGEST_UINT32 ? TypedArray.UINT32_LE : TypedArray.UINT64_LE;
        for (int i = from + 1; i < to; i++) {
            long step = (timeNs[i] - timeNs[i - 1]) / unit;
            switch (tag) {
                case TypedArray.UINT16_LE -> numbers.putShort((short) step);
                case TypedArray.UINT32_LE -> numbers.putInt((int) step);
                default -> numbers.putLong(step);
            }
        }
        typedArray("dt", tag);
    }

    private void reserve(int bytes) {
        if (numbers.capacity() < bytes) {
            numbers = ByteBuffer.allocate(bytes * 2).order(ByteOrder.LITTLE_ENDIAN);
        }
        numbers.clear();
    }

    private void typedArray(String key, int tag) throws IOException {
        cbor.writeFieldName(key);
        cbor.writeTag(tag);
        cbor.writeBinary(numbers.array(), 0, numbers.position());
    }

    /** Writes an event. */
    public void event(SessionEvent event) throws IOException {
        if (event instanceof SessionEvent.PhaseMark mark) {
            event("phase", mark, 2);
            cbor.writeNumberField("holdTest", mark.holdTest());
            cbor.writeStringField("phase", mark.phase().label());
        } else if (event instanceof SessionEvent.StrokeMark stroke) {
            event("stroke", stroke, 1);
            cbor.writeNumberField("end", stroke.endNs());
        } else if (event instanceof SessionEvent.Fault fault) {
            event("fault", fault, 2);
            cbor.writeStringField("name", fault.name());
            cbor.writeStringField("text", fault.text());
        } else if (event instanceof SessionEvent.ClockJump jump) {
            event("clock jump", jump, 1);
            cbor.writeNumberField("jump", jump.jumpNs());
        } else if (event instanceof SessionEvent.Jitter jitter) {
            event("jitter", jitter, 5);
            cbor.writeNumberField("samples", jitter.samples());
            cbor.writeNumberField("missed", jitter.missed());
            cbor.writeNumberField("p50", jitter.p50Ns());
            cbor.writeNumberField("p99", jitter.p99Ns());
            cbor.writeNumberField("max", jitter.maxNs());
        } else if (event instanceof SessionEvent.Note note) {
            event("note", note, 1);
            cbor.writeStringField("text", note.text());
        }
        end();
    }

    private void event(String name, SessionEvent event, int moreKeys) throws IOException {
        begin(2 + moreKeys);
        cbor.writeStringField("event", name);
        cbor.writeNumberField("t", event.timeNs());
    }

    void truth(Truth truth) throws IOException {
        begin(4);
        cbor.writeBooleanField("simulated", true);
        cbor.writeNumberField("holdTest", truth.holdTest());
        cbor.writeFieldName("values");
        cbor.writeStartObject(null, truth.numbers().size() + truth.words().size());
        for (Map.Entry<String, Double> number : truth.numbers().entrySet()) {
            cbor.writeNumberField(number.getKey(), number.getValue());
        }
        for (Map.Entry<String, String> word : truth.words().entrySet()) {
            cbor.writeStringField(word.getKey(), word.getValue());
        }
        cbor.writeEndObject();
        cbor.writeFieldName("strokes");
        List<Stroke> strokes = truth.strokes();
        cbor.writeStartArray(null, strokes.size());
        for (Stroke stroke : strokes) {
            pair(stroke.startS(), stroke.endS());
        }
        cbor.writeEndArray();
        end();
    }

    void end(EndMark mark) throws IOException {
        begin(3);
        cbor.writeStringField("reason", mark.reason());
        cbor.writeNumberField("frames", mark.frames());
        cbor.writeFieldName("samples");
        cbor.writeStartArray(null, mark.samples().size());
        for (Map.Entry<Integer, Long> channel : mark.samples().entrySet()) {
            cbor.writeStartArray(null, 2);
            cbor.writeNumber(channel.getKey().intValue());
            cbor.writeNumber(channel.getValue().longValue());
            cbor.writeEndArray();
        }
        cbor.writeEndArray();
        end();
    }
}
