package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.sym.ByteQuadsCanonicalizer;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.Stroke;

/**
 * Reads the payloads of frames whose CRC was right. A key it does not know is skipped and remarked on. What cannot be
 * read at all ends in an {@link IOException} or an {@link IllegalArgumentException}; that is the writer's doing, not
 * damage.
 */
public final class PayloadReader {
    private final Consumer<String> remarks;
    private final ByteQuadsCanonicalizer names = Parsers.names();

    /** A reader that tells {@code remarks} what it skips. */
    public PayloadReader(Consumer<String> remarks) {
        this.remarks = remarks;
    }

    /** What to do with the value of a key; false where the key is not known. */
    public interface Key {
        /** Reads the value the parser stands on. */
        boolean read(CBORParser parser, String key) throws IOException;
    }

    /** A parser that stands at the start of the payload's map. */
    public static CBORParser open(byte[] bytes, int offset, int length) throws IOException {
        return open(Parsers.names(), bytes, offset, length);
    }

    private static CBORParser open(ByteQuadsCanonicalizer names, byte[] bytes, int offset, int length)
            throws IOException {
        CBORParser parser = Parsers.cbor(names, bytes, offset, length);
        if (parser.nextToken() != JsonToken.START_OBJECT) {
            throw new IllegalArgumentException("a payload that is no map");
        }
        return parser;
    }

    /** Reads the map the parser stands at the start of. */
    public void map(CBORParser parser, String what, Key keys) throws IOException {
        if (parser.currentToken() != JsonToken.START_OBJECT) {
            throw new IllegalArgumentException(what + " that is no map");
        }
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            String key = parser.currentName();
            if (parser.nextToken() == null) {
                throw new IllegalArgumentException(what + " that ends too early");
            }
            if (!keys.read(parser, key)) {
                remarks.accept("skipped \"" + key + "\" of " + what + ", which this version does not know");
                parser.skipChildren();
            }
        }
    }

    private static TypedArray typedArray(CBORParser parser) throws IOException {
        return TypedArray.of(parser.getCurrentTag(), parser.getBinaryValue());
    }

    /** A block of samples. */
    public SampleBlock samples(byte[] bytes, int offset, int length) throws IOException {
        Samples block = new Samples();
        try (CBORParser parser = open(names, bytes, offset, length)) {
            map(parser, "a sample block", block);
        }
        return new SampleBlock(block.channel, block.t0, block.step, block.dt, block.unit, block.raw);
    }

    private static final class Samples implements Key {
        private int channel = -1;
        private long t0;
        private long step;
        private long unit = 1;
        private TypedArray dt;
        private TypedArray raw;

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            switch (key) {
                case "channel" -> channel = parser.getIntValue();
                case "t0" -> t0 = parser.getLongValue();
                case "step" -> step = parser.getLongValue();
                case "unit" -> unit = parser.getLongValue();
                case "dt" -> dt = typedArray(parser);
                case "raw" -> raw = typedArray(parser);
                default -> {
                    return false;
                }
            }
            return true;
        }
    }

    /** The event; null, with a remark, for one of a kind that is not known. */
    public SessionEvent event(byte[] bytes, int offset, int length) throws IOException {
        Event event = new Event();
        try (CBORParser parser = open(names, bytes, offset, length)) {
            map(parser, "an event", event);
        }
        SessionEvent read = event.build();
        if (read == null) {
            remarks.accept("skipped an event \"" + event.word("event") + "\", which this version does not know");
        }
        return read;
    }

    private static final class Event implements Key {
        private final Map<String, Long> numbers = new TreeMap<>();
        private final Map<String, String> words = new TreeMap<>();

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            switch (key) {
                case "event", "phase", "name", "text" -> words.put(key, parser.getText());
                case "t", "holdTest", "end", "jump", "samples", "missed", "p50", "p99", "max" ->
                    numbers.put(key, parser.getLongValue());
                default -> {
                    return false;
                }
            }
            return true;
        }

        private long number(String key) {
            Long number = numbers.get(key);
            if (number == null) {
                throw new IllegalArgumentException("an event without \"" + key + "\"");
            }
            return number;
        }

        private String word(String key) {
            return words.getOrDefault(key, "");
        }

        private SessionEvent build() {
            long t = number("t");
            return switch (word("event")) {
                case "phase" -> phase(t);
                case "stroke" -> new SessionEvent.StrokeMark(t, number("end"));
                case "fault" -> new SessionEvent.Fault(t, word("name"), word("text"));
                case "clock jump" -> new SessionEvent.ClockJump(t, number("jump"));
                case "jitter" ->
                    new SessionEvent.Jitter(
                            t, number("samples"), number("missed"), number("p50"), number("p99"), number("max"));
                case "note" -> new SessionEvent.Note(t, word("text"));
                default -> null;
            };
        }

        private SessionEvent phase(long t) {
            for (Phase phase : Phase.values()) {
                if (phase.label().equals(word("phase"))) {
                    return new SessionEvent.PhaseMark(t, Math.toIntExact(number("holdTest")), phase);
                }
            }
            return null;
        }
    }

    Truth truth(byte[] bytes, int offset, int length) throws IOException {
        TruthKeys truth = new TruthKeys();
        try (CBORParser parser = open(names, bytes, offset, length)) {
            map(parser, "a truth", truth);
        }
        return new Truth(truth.holdTest, truth.values.numbers, truth.values.words, truth.strokes);
    }

    private final class TruthKeys implements Key {
        private int holdTest;
        private final Values values = new Values();
        private final List<Stroke> strokes = new ArrayList<>();

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            switch (key) {
                case "simulated" -> parser.getBooleanValue();
                case "holdTest" -> holdTest = parser.getIntValue();
                case "values" -> map(parser, "the truth's values", values);
                case "strokes" -> {
                    for (double[] pair : pairs(parser)) {
                        strokes.add(new Stroke(pair[0], pair[1]));
                    }
                }
                default -> {
                    return false;
                }
            }
            return true;
        }
    }

    /** Numbers and words under any names. */
    private static final class Values implements Key {
        private final Map<String, Double> numbers = new TreeMap<>();
        private final Map<String, String> words = new TreeMap<>();

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            if (parser.currentToken().isNumeric()) {
                numbers.put(key, parser.getDoubleValue());
                return true;
            }
            boolean word = parser.currentToken() == JsonToken.VALUE_STRING;
            if (word) {
                words.put(key, parser.getText());
            }
            return word;
        }
    }

    /** A list of pairs of numbers. */
    static List<double[]> pairs(CBORParser parser) throws IOException {
        List<double[]> pairs = new ArrayList<>();
        if (parser.currentToken() != JsonToken.START_ARRAY) {
            throw new IllegalArgumentException("pairs that are no list");
        }
        while (parser.nextToken() == JsonToken.START_ARRAY) {
            double[] pair = new double[2];
            for (int i = 0; i < 2; i++) {
                parser.nextToken();
                pair[i] = parser.getDoubleValue();
            }
            if (parser.nextToken() != JsonToken.END_ARRAY) {
                throw new IllegalArgumentException("a pair of more than two numbers");
            }
            pairs.add(pair);
        }
        return pairs;
    }

    EndMark end(byte[] bytes, int offset, int length) throws IOException {
        EndKeys end = new EndKeys();
        try (CBORParser parser = open(names, bytes, offset, length)) {
            map(parser, "an end", end);
        }
        return new EndMark(end.reason, end.frames, end.samples);
    }

    private static final class EndKeys implements Key {
        private String reason = "";
        private long frames;
        private final Map<Integer, Long> samples = new TreeMap<>();

        @Override
        public boolean read(CBORParser parser, String key) throws IOException {
            switch (key) {
                case "reason" -> reason = parser.getText();
                case "frames" -> frames = parser.getLongValue();
                case "samples" -> {
                    for (double[] pair : pairs(parser)) {
                        samples.put((int) pair[0], (long) pair[1]);
                    }
                }
                default -> {
                    return false;
                }
            }
            return true;
        }
    }

    /**
     * The header.
     *
     * @throws InputException where its format is none that this version reads
     */
    public SessionHeader header(byte[] bytes, int offset, int length, String file) throws IOException {
        HeaderKeys header = new HeaderKeys(file, this, remarks);
        try (CBORParser parser = open(names, bytes, offset, length)) {
            map(parser, "the header", header);
        }
        return header.build();
    }
}
