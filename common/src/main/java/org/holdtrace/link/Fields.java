package org.holdtrace.link;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.session.InputException;
import org.holdtrace.session.PayloadReader;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;

/**
 * The keys of one message, read before it is known which of them matter. Bounded in depth and number, whatever comes. A
 * key that is missing or of another kind is an {@link IllegalArgumentException} that names it.
 */
final class Fields implements PayloadReader.Key {
    private static final int MOST_VALUES = 4096;
    private static final int DEEPEST = 4;
    private static final String SETUP = "setup";

    private final Map<String, Object> values = new HashMap<>();
    private final String what;
    private final int depth;
    private final int[] count;
    private InputException setupProblem;

    private Fields(String what, int depth, int[] count) {
        this.what = what;
        this.depth = depth;
        this.count = count;
    }

    /** Reads a payload; {@code what} names the message in what goes wrong. */
    static Fields read(String what, byte[] bytes, int offset, int length) throws IOException {
        Fields fields = new Fields(what, 0, new int[1]);
        try (CBORParser parser = PayloadReader.open(bytes, offset, length)) {
            new PayloadReader(remark -> {}).map(parser, what, fields);
        }
        return fields;
    }

    @Override
    public boolean read(CBORParser parser, String key) throws IOException {
        if (depth == 0 && key.equals(SETUP)) {
            try {
                values.put(key, SetupReader.read(parser, "the plan"));
            } catch (InputException e) {
                setupProblem = e;
            }
            return true;
        }
        Object value = value(parser);
        if (value != null) {
            values.put(key, value);
        }
        return true;
    }

    private Object value(CBORParser parser) throws IOException {
        if (++count[0] > MOST_VALUES) {
            throw new IllegalArgumentException(what + " of more than " + MOST_VALUES + " values");
        }
        switch (parser.currentToken()) {
            case VALUE_NUMBER_INT -> {
                return parser.getLongValue();
            }
            case VALUE_NUMBER_FLOAT -> {
                return parser.getDoubleValue();
            }
            case VALUE_STRING -> {
                return parser.getText();
            }
            case VALUE_EMBEDDED_OBJECT -> {
                return parser.getBinaryValue();
            }
            case VALUE_TRUE -> {
                return true;
            }
            case VALUE_FALSE -> {
                return false;
            }
            case START_ARRAY -> {
                return list(parser);
            }
            case START_OBJECT -> {
                Fields inner = new Fields(what, deeper(), count);
                new PayloadReader(remark -> {}).map(parser, what, inner);
                return inner;
            }
            default -> {
                return null; // null stands for a key that is not there
            }
        }
    }

    private int deeper() {
        if (depth >= DEEPEST) {
            throw new IllegalArgumentException(what + " with maps in maps in maps");
        }
        return depth + 1;
    }

    private List<Object> list(CBORParser parser) throws IOException {
        Fields inner = new Fields(what, deeper(), count);
        List<Object> items = new ArrayList<>();
        for (JsonToken token = parser.nextToken(); token != JsonToken.END_ARRAY; token = parser.nextToken()) {
            if (token == null) {
                throw new IllegalArgumentException(what + " that ends too early");
            }
            Object item = inner.value(parser);
            if (item != null) {
                items.add(item);
            }
        }
        return items;
    }

    boolean has(String key) {
        return values.containsKey(key);
    }

    private <T> T get(String key, Class<T> kind) {
        Object value = values.get(key);
        if (value == null) {
            throw new IllegalArgumentException(what + " without \"" + key + "\"");
        }
        if (!kind.isInstance(value)) {
            throw new IllegalArgumentException(what + " with another \"" + key + "\" than expected");
        }
        return kind.cast(value);
    }

    long number(String key) {
        return get(key, Long.class);
    }

    /** A whole number of at least 0. */
    long count(String key) {
        long number = number(key);
        if (number < 0) {
            throw new IllegalArgumentException(what + " with a negative \"" + key + "\"");
        }
        return number;
    }

    int smallCount(String key) {
        return Math.toIntExact(count(key));
    }

    String text(String key) {
        return shortEnough(key, get(key, String.class));
    }

    private String shortEnough(String key, String text) {
        if (text.length() > LinkLimits.LONGEST_TEXT) {
            throw new IllegalArgumentException(
                    what + " with a \"" + key + "\" of more than " + LinkLimits.LONGEST_TEXT + " characters");
        }
        return text;
    }

    Optional<String> textIfAny(String key) {
        return has(key) ? Optional.of(text(key)) : Optional.empty();
    }

    byte[] bytes(String key) {
        return get(key, byte[].class);
    }

    byte[] bytes(String key, int length) {
        byte[] bytes = bytes(key);
        if (bytes.length != length) {
            throw new IllegalArgumentException(
                    what + " with a \"" + key + "\" of " + bytes.length + " bytes, expected " + length);
        }
        return bytes;
    }

    boolean flag(String key) {
        return get(key, Boolean.class);
    }

    /** The number, whole or not; NaN where there is none. */
    double realIfAny(String key) {
        return has(key) ? get(key, Number.class).doubleValue() : Double.NaN;
    }

    Fields map(String key) {
        return get(key, Fields.class);
    }

    List<String> texts(String key) {
        List<String> texts = new ArrayList<>();
        for (Object item : get(key, List.class)) {
            if (!(item instanceof String text)) {
                throw new IllegalArgumentException(what + " with another \"" + key + "\" than texts");
            }
            texts.add(shortEnough(key, text));
        }
        return texts;
    }

    List<Fields> maps(String key) {
        List<Fields> maps = new ArrayList<>();
        for (Object item : get(key, List.class)) {
            if (!(item instanceof Fields map)) {
                throw new IllegalArgumentException(what + " with another \"" + key + "\" than maps");
            }
            maps.add(map);
        }
        return maps;
    }

    TestSetup setup() {
        if (setupProblem != null) {
            throw new IllegalArgumentException(setupProblem.getMessage(), setupProblem);
        }
        return get(SETUP, TestSetup.class);
    }
}
