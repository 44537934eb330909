package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.NearMatch;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;

/**
 * An object of a JSON file that people write, from which fields are taken one by one. What is wrong is noted with its line
 * and the reading goes on with a stand-in, so that all problems of a file come at once; what nobody took is an unknown
 * field.
 */
public final class JsonFields {
    private static final JsonFactory JSON = new JsonFactory();
    private static final int MOST_FIELDS = 10_000;

    private final String file;
    private final String path;
    private final String place;
    private final List<InputException> problems;
    private final Map<String, Value> fields = new LinkedHashMap<>();
    private final Set<String> asked = new LinkedHashSet<>();

    private record Value(String place, String text, String bare, JsonFields object, Items list, String found) {}

    /** The items of a list: its objects, and what is none, a text where it is one and null where it is neither. */
    private record Items(List<JsonFields> objects, List<Item> others) {}

    private record Item(String place, String text) {}

    private JsonFields(String file, String path, String place, List<InputException> problems) {
        this.file = file;
        this.path = path;
        this.place = place;
        this.problems = problems;
    }

    /** Makes something of the fields of an object. */
    @FunctionalInterface
    public interface Taker<T> {
        /** Takes the fields it knows; problems are noted in the object. */
        T take(JsonFields fields);
    }

    /**
     * Reads a file that holds one object.
     *
     * @param utf8 UTF-8 JSON
     * @param name stands for the file in messages
     * @param example what would have been right, for messages
     * @throws InputException where it is no such object or has problems; its message has one line for each
     */
    public static <T> T read(byte[] utf8, String name, String example, Taker<T> taker) throws InputException {
        List<InputException> problems = new ArrayList<>();
        T result = null;
        try (JsonParser parser = JSON.createParser(decode(utf8))) {
            if (parser.nextToken() == JsonToken.START_OBJECT) {
                result = taker.take(read(parser, name, "", problems));
                if (parser.nextToken() != null) {
                    problems.add(new InputException(
                            name,
                            place(parser.currentTokenLocation(), ""),
                            "more text behind the closing brace",
                            "one object and nothing more"));
                }
            } else {
                problems.add(new InputException(name, "", "no JSON object", example));
            }
        } catch (JsonProcessingException e) {
            problems.clear();
            problems.add(new InputException(
                    name, place(e.getLocation(), ""), "not valid JSON (" + Parsers.why(e) + ")", "a JSON object"));
        } catch (CharacterCodingException e) {
            problems.add(new InputException(name, "", "text that is not UTF-8", "UTF-8"));
        } catch (IOException e) {
            throw new IllegalStateException("text in memory could not be read", e);
        }
        if (!problems.isEmpty()) {
            throw InputException.all(problems);
        }
        return result;
    }

    private static String decode(byte[] utf8) throws CharacterCodingException {
        return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(utf8)).toString();
    }

    private static JsonFields read(JsonParser parser, String file, String path, List<InputException> problems)
            throws IOException {
        JsonFields node = new JsonFields(file, path, place(parser.currentTokenLocation(), path), problems);
        while (parser.nextToken() == JsonToken.FIELD_NAME && node.fields.size() < MOST_FIELDS) {
            String name = parser.currentName();
            String inner = path.isEmpty() ? name : path + "." + name;
            JsonToken token = parser.nextToken();
            String where = place(parser.currentTokenLocation(), inner);
            Value value;
            if (token == JsonToken.START_OBJECT) {
                value = new Value(where, null, null, read(parser, file, inner, problems), null, "an object");
            } else if (token == JsonToken.START_ARRAY) {
                value = new Value(where, null, null, null, readList(parser, file, inner, problems), "a list");
            } else if (token == JsonToken.VALUE_STRING) {
                value = new Value(where, parser.getText(), null, null, null, "\"" + parser.getText() + "\"");
            } else {
                value = new Value(where, null, parser.getText(), null, null, "the bare value " + parser.getText());
            }
            if (node.fields.put(name, value) != null) {
                problems.add(new InputException(file, where, "the field stands here a second time", "it once"));
            }
        }
        return node;
    }

    private static Items readList(JsonParser parser, String file, String path, List<InputException> problems)
            throws IOException {
        Items items = new Items(new ArrayList<>(), new ArrayList<>());
        int number = 1;
        while (parser.nextToken() != JsonToken.END_ARRAY && parser.currentToken() != null) {
            String item = path + "[" + number++ + "]";
            if (parser.currentToken() == JsonToken.START_OBJECT) {
                items.objects().add(read(parser, file, item, problems));
            } else {
                boolean text = parser.currentToken() == JsonToken.VALUE_STRING;
                items.others()
                        .add(new Item(place(parser.currentTokenLocation(), item), text ? parser.getText() : null));
                parser.skipChildren();
            }
        }
        return items;
    }

    private static String place(JsonLocation location, String path) {
        String line = "line " + location.getLineNr();
        return path.isEmpty() ? line : line + ", field " + path;
    }

    /** Where this object stands, for messages. */
    public String place() {
        return place;
    }

    /** Whether there is such a field. */
    public boolean has(String name) {
        asked.add(name);
        return fields.containsKey(name);
    }

    /** Whether there is such a field, which is none of those expected. */
    public boolean hasUnexpected(String name) {
        return fields.containsKey(name);
    }

    /** A quantity without an uncertainty that must be there, in SI. */
    public double quantity(String name, Dimension dimension) {
        return optional(name, dimension).orElseGet(() -> missing(name, QuantityParser.exactExample(dimension)));
    }

    /** A quantity without an uncertainty in SI, {@code otherwise} where it is not there. */
    public double quantity(String name, Dimension dimension, double otherwise) {
        return optional(name, dimension).orElse(otherwise);
    }

    /** As {@link #quantity(String, Dimension)}, and above 0. */
    public double positive(String name, Dimension dimension) {
        return above0(name, quantity(name, dimension));
    }

    /** As {@link #optional}, and above 0. */
    public Optional<Double> optionalPositive(String name, Dimension dimension) {
        return optional(name, dimension).map(value -> above0(name, value));
    }

    /** As {@link #uncertain}, and above 0. */
    public Optional<Quantity> uncertainPositive(String name, Dimension dimension) {
        Optional<Quantity> quantity = uncertain(name, dimension);
        quantity.ifPresent(each -> above0(name, each.value()));
        return quantity;
    }

    private double above0(String name, double value) {
        if (value > 0) {
            return value;
        }
        problem(name, fields.get(name).found(), "a value above 0");
        return 1;
    }

    private double missing(String name, String example) {
        if (!fields.containsKey(name)) {
            problems.add(new InputException(file, place, "no field \"" + name + "\"", "it, such as " + example));
        }
        return 1;
    }

    /** A quantity without an uncertainty in SI, where it is there. */
    public Optional<Double> optional(String name, Dimension dimension) {
        Optional<Quantity> quantity = uncertain(name, dimension);
        if (quantity.isPresent() && quantity.get().standardUncertainty() > 0) {
            problem(name, "\"" + fields.get(name).text() + "\" has an uncertainty", "the true value, without one");
        }
        return quantity.map(Quantity::value);
    }

    /** A quantity with or without an uncertainty in SI, where it is there. */
    public Optional<Quantity> uncertain(String name, Dimension dimension) {
        asked.add(name);
        Value value = fields.get(name);
        if (value == null) {
            return Optional.empty();
        }
        if (value.text() == null) {
            problem(name, value.found(), "text such as " + QuantityParser.exactExample(dimension));
            return Optional.empty();
        }
        try {
            return Optional.of(QuantityParser.parse(value.text(), dimension));
        } catch (QuantityException e) {
            problem(name, e.found(), e.expected());
            return Optional.empty();
        }
    }

    /** A difference of temperature in K, 0 where it is not there. */
    public double kelvins(String name) {
        double kelvins = quantity(name, Dimension.TEMPERATURE, 0);
        if (Math.abs(kelvins) > 100) {
            problem(name, kelvins + " K", "a difference of temperature such as \"0.3 K\", not a temperature");
        }
        return kelvins;
    }

    /** A text, {@code otherwise} where it is not there. */
    public String text(String name, String otherwise) {
        asked.add(name);
        Value value = fields.get(name);
        if (value == null) {
            return otherwise;
        }
        if (value.text() == null) {
            problem(name, value.found(), "text");
            return otherwise;
        }
        return value.text();
    }

    /** Whether the field stands there and is this very text. */
    public boolean isText(String name, String text) {
        asked.add(name);
        Value value = fields.get(name);
        return value != null && text.equals(value.text());
    }

    /** "yes" or "no"; no where it is not there. */
    public boolean flag(String name) {
        String text = text(name, "no");
        if (!text.equals("yes") && !text.equals("no")) {
            problem(name, "\"" + text + "\"", "\"yes\" or \"no\"");
        }
        return text.equals("yes");
    }

    /** A whole number, as text or bare; {@code otherwise} where it is not there. */
    public long whole(String name, long otherwise) {
        asked.add(name);
        Value value = fields.get(name);
        if (value == null) {
            return otherwise;
        }
        try {
            return Long.parseLong(value.text() != null ? value.text().strip() : String.valueOf(value.bare()));
        } catch (NumberFormatException e) {
            problem(name, value.found(), "a whole number such as \"" + otherwise + "\"");
            return otherwise;
        }
    }

    /** An inner object; an empty one where it is not there. */
    public JsonFields object(String name) {
        asked.add(name);
        Value value = fields.get(name);
        if (value != null && value.object() != null) {
            return value.object();
        }
        if (value != null) {
            problem(name, value.found(), "an object");
        }
        return new JsonFields(file, path.isEmpty() ? name : path + "." + name, place, problems);
    }

    /** A list of objects; empty where it is not there. */
    public List<JsonFields> list(String name) {
        Items items = items(name, "a list of objects");
        for (Item other : items.others()) {
            problems.add(
                    new InputException(file, other.place(), "something that is no object", "objects in this list"));
        }
        return items.objects();
    }

    /** A list of texts; empty where it is not there. */
    public List<String> texts(String name) {
        Items items = items(name, "a list of texts such as [\"one\", \"another\"]");
        for (JsonFields object : items.objects()) {
            object.problem("an object", "texts in this list");
        }
        List<String> texts = new ArrayList<>();
        for (Item item : items.others()) {
            if (item.text() == null) {
                problems.add(new InputException(file, item.place(), "something that is no text", "texts in this list"));
            } else {
                texts.add(item.text());
            }
        }
        return texts;
    }

    private Items items(String name, String expected) {
        asked.add(name);
        Value value = fields.get(name);
        if (value != null && value.list() != null) {
            return value.list();
        }
        if (value != null) {
            problem(name, value.found(), expected);
        }
        return new Items(List.of(), List.of());
    }

    /** Notes a problem of a field. */
    public void problem(String name, String found, String expected) {
        Value value = fields.get(name);
        problems.add(new InputException(file, value == null ? place : value.place(), found, expected));
    }

    /** Notes a problem of the object as a whole. */
    public void problem(String found, String expected) {
        problems.add(new InputException(file, place, found, expected));
    }

    /**
     * What {@code taker} makes of this object; a field that it does not ask for is unknown.
     *
     * @param possible what is expected, for messages
     * @return null where {@link #checked} gives that
     */
    public <T> T take(Taker<T> taker, String possible) {
        T result = checked(() -> taker.take(this), possible);
        finish();
        return result;
    }

    /**
     * What {@code maker} makes; where its own checks refuse, that is noted as a problem of this object, and null.
     *
     * @param possible what is expected, for messages
     */
    public <T> T checked(Supplier<T> maker, String possible) {
        try {
            return maker.get();
        } catch (IllegalArgumentException e) {
            problem(e.getMessage(), possible);
            return null;
        }
    }

    /** To be called when all known fields have been asked for: what is left is unknown. */
    public void finish() {
        for (Map.Entry<String, Value> field : fields.entrySet()) {
            if (!asked.contains(field.getKey())) {
                problems.add(new InputException(
                        file,
                        field.getValue().place(),
                        "unknown field \"" + field.getKey() + "\"",
                        NearMatch.expected(field.getKey(), asked)));
            }
        }
    }
}
