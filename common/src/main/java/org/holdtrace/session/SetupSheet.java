package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.holdtrace.quantity.QuantityException;

/**
 * A setup as somebody writes it: each field's own words, and whatever else stands in the file, both kept as they are
 * when one field is changed. Immutable.
 */
public final class SetupSheet {
    private static final JsonFactory JSON = new JsonFactory();

    /** What is no text, object or list: a number, true, false or null, as it was written. */
    private record Bare(String text) {}

    private final Map<String, Object> fields;

    private SetupSheet(Map<String, Object> fields) {
        this.fields = fields;
    }

    /** A sheet on which nothing stands. */
    public static SetupSheet empty() {
        return new SetupSheet(Map.of());
    }

    /** The sheet that says what {@code setup} knows. */
    public static SetupSheet of(TestSetup setup) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (JsonGenerator generator = JSON.createGenerator(out)) {
            SetupWriter.write(setup, generator);
        } catch (IOException e) {
            throw new UncheckedIOException("memory cannot fail", e);
        }
        try {
            return parse(out.toByteArray(), "setup");
        } catch (InputException e) {
            throw new IllegalStateException("what was just written is JSON", e);
        }
    }

    /**
     * Reads {@code utf8}, a JSON object; what its fields say is not judged here.
     *
     * @param name stands for the file in messages
     * @throws InputException where it is no JSON object
     */
    public static SetupSheet parse(byte[] utf8, String name) throws InputException {
        String text = new String(utf8, StandardCharsets.UTF_8);
        try (JsonParser parser = Parsers.json(text.startsWith("\uFEFF") ? text.substring(1) : text)) {
            if (parser.nextToken() != JsonToken.START_OBJECT) {
                throw new InputException(name, "", "no JSON object", SetupParser.EXAMPLE);
            }
            return new SetupSheet(object(parser));
        } catch (JsonProcessingException e) {
            throw new InputException(
                    name,
                    SetupParser.place(e.getLocation(), ""),
                    "not valid JSON (" + Parsers.why(e) + ")",
                    SetupParser.EXAMPLE);
        } catch (InputException e) {
            throw e;
        } catch (IOException e) {
            throw new UncheckedIOException("memory cannot fail", e);
        }
    }

    private static Map<String, Object> object(JsonParser parser) throws IOException {
        Map<String, Object> object = new LinkedHashMap<>();
        while (parser.nextToken() == JsonToken.FIELD_NAME) {
            String name = parser.currentName();
            parser.nextToken();
            object.put(name, value(parser));
        }
        return object;
    }

    private static Object value(JsonParser parser) throws IOException {
        return switch (parser.currentToken()) {
            case START_OBJECT -> object(parser);
            case START_ARRAY -> {
                List<Object> list = new ArrayList<>();
                while (parser.nextToken() != JsonToken.END_ARRAY) {
                    list.add(value(parser));
                }
                yield list;
            }
            case VALUE_STRING -> parser.getText();
            default -> new Bare(parser.getText());
        };
    }

    /** What stands in {@code field}; empty for nothing. */
    public String text(SetupField field) {
        Object holder = field.group().isEmpty() ? fields : fields.get(field.group());
        Object text = holder instanceof Map<?, ?> group ? group.get(field.leaf()) : null;
        return text instanceof String words ? words : "";
    }

    /** The same with {@code text} in {@code field}; a blank text takes the field away. */
    public SetupSheet with(SetupField field, String text) {
        Map<String, Object> next = new LinkedHashMap<>(fields);
        if (field.group().isEmpty()) {
            put(next, field.leaf(), text);
        } else {
            Map<String, Object> group = new LinkedHashMap<>();
            if (next.get(field.group()) instanceof Map<?, ?> before) {
                before.forEach((name, value) -> group.put((String) name, value));
            }
            put(group, field.leaf(), text);
            if (group.isEmpty()) {
                next.remove(field.group());
            } else {
                next.put(field.group(), group);
            }
        }
        return new SetupSheet(next);
    }

    private static void put(Map<String, Object> object, String name, String text) {
        if (text.isBlank()) {
            object.remove(name);
        } else {
            object.put(name, text.strip());
        }
    }

    /** What is wrong with {@code text} in {@code field}, in words; empty where it is right or blank. */
    public static Optional<String> problem(SetupField field, String text) {
        try {
            if (!text.isBlank()) {
                SetupParser.read(field, text.strip());
            }
            return Optional.empty();
        } catch (QuantityException e) {
            return Optional.of(e.getMessage());
        }
    }

    /** What the sheet says, without the fields that are wrong. */
    public TestSetup setup() {
        Map<SetupField, Object> values = new LinkedHashMap<>();
        for (SetupField field : SetupField.values()) {
            String text = text(field);
            if (!text.isBlank() && problem(field, text).isEmpty()) {
                values.put(field, SetupParser.read(field, text));
            }
        }
        values.values().removeIf(Objects::isNull);
        return SetupField.toSetup(values);
    }

    /** The whole sheet as JSON, UTF-8. */
    public byte[] json() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (JsonGenerator generator = JSON.createGenerator(out)) {
            generator.setPrettyPrinter(new DefaultPrettyPrinter());
            write(generator, fields);
            generator.writeRaw('\n');
        } catch (IOException e) {
            throw new UncheckedIOException("memory cannot fail", e);
        }
        return out.toByteArray();
    }

    private static void write(JsonGenerator out, Object value) throws IOException {
        if (value instanceof Map<?, ?> object) {
            out.writeStartObject();
            for (Map.Entry<?, ?> field : object.entrySet()) {
                out.writeFieldName((String) field.getKey());
                write(out, field.getValue());
            }
            out.writeEndObject();
        } else if (value instanceof List<?> list) {
            out.writeStartArray();
            for (Object each : list) {
                write(out, each);
            }
            out.writeEndArray();
        } else if (value instanceof Bare bare) {
            out.writeRawValue(bare.text());
        } else {
            out.writeString((String) value);
        }
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof SetupSheet sheet && fields.equals(sheet.fields);
    }

    @Override
    public int hashCode() {
        return fields.hashCode();
    }
}
