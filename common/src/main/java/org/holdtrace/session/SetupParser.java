package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.NearMatch;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityException;
import org.holdtrace.quantity.QuantityParser;

/**
 * Collects the fields of one setup from a token stream, JSON or CBOR, together with everything wrong in it. A field with
 * a problem is left out; who calls decides whether that ends the matter.
 */
final class SetupParser {
    /** How data sheets say that a percentage is one of the span, longest first. */
    private static final List<String> SPAN_ENDINGS = List.of("of full scale", "of span", "F.S.", "FSO", "FS");

    static final String EXAMPLE = "an object such as { \"trappedVolume\": \"48 ± 5 cm3\" }";

    private final String file;
    private final List<InputException> problems;
    private final Map<SetupField, Object> values = new EnumMap<>(SetupField.class);
    private final Set<String> seen = new HashSet<>();

    SetupParser(String file, List<InputException> problems) {
        this.file = file;
        this.problems = problems;
    }

    /** What could be read. */
    TestSetup setup() {
        return SetupField.toSetup(values);
    }

    /** Reads one object; the parser stands on its start and is left on its end. */
    void object(JsonParser parser) throws IOException {
        group(parser, "");
    }

    private void group(JsonParser parser, String group) throws IOException {
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            if (parser.currentToken() == null) {
                return;
            }
            String name = parser.currentName();
            String path = group.isEmpty() ? name : group.concat(".").concat(name);
            JsonLocation nameAt = parser.currentTokenLocation();
            JsonToken token = parser.nextToken();
            SetupField field = SetupField.at(path);
            boolean isGroup = field == null && !SetupField.namesIn(path).isEmpty() && !path.isEmpty();
            if (field == null && !isGroup) {
                problem(nameAt, path, "unknown field \"" + name + "\"", suggestion(name, group));
            } else if (!seen.add(path)) {
                problem(nameAt, path, "the field stands here a second time", "it once");
            } else if (isGroup && token == JsonToken.START_OBJECT) {
                group(parser, path);
            } else if (isGroup && token != JsonToken.VALUE_NULL) {
                problem(parser.currentTokenLocation(), path, found(parser), "an object with " + list(path));
            } else if (token == JsonToken.VALUE_STRING) {
                value(parser, field);
            } else if (token != JsonToken.VALUE_NULL) {
                problem(parser.currentTokenLocation(), path, found(parser), "text such as " + field.example());
            }
            parser.skipChildren();
        }
    }

    private void value(JsonParser parser, SetupField field) throws IOException {
        String text = parser.getText();
        try {
            Object value = read(field, text);
            if (value != null) {
                values.put(field, value);
            }
        } catch (QuantityException e) {
            problem(parser.currentTokenLocation(), field.path(), e.found(), e.expected());
        }
    }

    /** What {@code text} means in {@code field}; null for nothing. */
    static Object read(SetupField field, String text) {
        return switch (field) {
            case MACHINE, COMPONENT, COMPONENT_KIND, PORT -> text.isBlank() ? null : text;
            case OIL_GRADE -> OilGrade.check(text);
            case TRANSDUCER_RANGE -> range(text);
            case TRANSDUCER_ACCURACY -> accuracy(text);
            default -> quantity(field, text);
        };
    }

    private static Quantity quantity(SetupField field, String text) {
        Quantity quantity = QuantityParser.parse(text, field.dimension());
        if (!field.allows(quantity.value())) {
            throw new QuantityException(
                    "\"" + text + "\" is not possible", field.possible() + ", such as " + field.example());
        }
        return quantity;
    }

    private static Double accuracy(String text) {
        SetupField field = SetupField.TRANSDUCER_ACCURACY;
        double accuracy = exact(percentOfSpan(text), text, Dimension.FRACTION, field);
        // A quarter of a per cent, written without its sign, would be 25 % and widen every interval past use.
        if (!(accuracy > 0 && accuracy <= 0.1)) {
            throw new QuantityException(
                    "\"" + text + "\" is not possible",
                    "a part of the span above 0 and up to 10 %, such as " + field.example());
        }
        return accuracy;
    }

    /** Data sheets write {@code 0.25 % FS}; a share of the span is what is meant here without it too. */
    private static String percentOfSpan(String text) {
        String stripped = text.strip();
        for (String ending : SPAN_ENDINGS) {
            if (stripped.endsWith(ending)) {
                String rest = stripped.substring(0, stripped.length() - ending.length())
                        .strip();
                return rest.endsWith("%") ? rest : text;
            }
        }
        return text;
    }

    private static double exact(String text, String whole, Dimension dimension, SetupField field) {
        Quantity quantity = QuantityParser.parse(text, dimension);
        if (quantity.standardUncertainty() != 0) {
            throw new QuantityException(
                    "\"" + whole + "\" has an uncertainty", "a value without one, such as " + field.example());
        }
        return quantity.value();
    }

    /** {@code 0..250 bar}: two numbers, two points between them, one unit behind them. */
    private static SetupField.Range range(String text) {
        SetupField field = SetupField.TRANSDUCER_RANGE;
        int dots = text.indexOf("..");
        if (dots < 0 || text.indexOf("..", dots + 1) >= 0) {
            throw new QuantityException(
                    "\"" + text + "\" is no range", "two ends and a unit, such as " + field.example());
        }
        String upper = text.substring(dots + 2);
        double maxPa = exact(upper, text, Dimension.PRESSURE, field);
        String unit = upper.strip().substring(numberLength(upper.strip()));
        double minPa = exact(text.substring(0, dots).concat(unit), text, Dimension.PRESSURE, field);
        if (!(minPa < maxPa)) {
            throw new QuantityException(
                    "\"" + text + "\" ends at or below its start", "the lower end first, such as " + field.example());
        }
        return new SetupField.Range(minPa, maxPa);
    }

    private static int numberLength(String text) {
        int i = 0;
        while ((i < text.length() && !Character.isLetter(text.charAt(i))) || isExponent(text, i)) {
            i++;
        }
        return i;
    }

    private static boolean isExponent(String text, int i) {
        return i + 1 < text.length()
                && (text.charAt(i) == 'e' || text.charAt(i) == 'E')
                && !Character.isLetter(text.charAt(i + 1));
    }

    private static String suggestion(String name, String group) {
        Optional<String> here = NearMatch.of(name, SetupField.namesIn(group));
        if (here.isPresent()) {
            return "\"" + here.get() + "\"?";
        }
        List<String> leaves = new ArrayList<>();
        for (SetupField field : SetupField.values()) {
            leaves.add(field.leaf());
        }
        Optional<String> elsewhere = NearMatch.of(name, leaves);
        for (SetupField field : SetupField.values()) {
            if (elsewhere.isPresent() && field.leaf().equals(elsewhere.get())) {
                String where = field.group().isEmpty() ? "at the top" : "inside \"" + field.group() + "\"";
                return "\"" + field.leaf() + "\" " + where + "?";
            }
        }
        return "one of " + list(group);
    }

    private static String list(String group) {
        return String.join(", ", SetupField.namesIn(group));
    }

    private static String found(JsonParser parser) throws IOException {
        return switch (parser.currentToken()) {
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> "the bare number " + parser.getText();
            case VALUE_TRUE, VALUE_FALSE -> parser.getText();
            case VALUE_STRING -> "the text \"" + parser.getText() + "\"";
            case START_ARRAY -> "a list";
            case START_OBJECT -> "an object";
            default -> "something that is no text";
        };
    }

    private void problem(JsonLocation location, String path, String found, String expected) {
        problems.add(new InputException(file, place(location, path), found, expected));
    }

    /** "line 3, column 12, field oil.air"; without the line where the source has none. */
    static String place(JsonLocation location, String path) {
        String line = location == null || location.getLineNr() < 1
                ? ""
                : "line " + location.getLineNr() + ", column " + location.getColumnNr();
        return path.isEmpty() ? line : line.isEmpty() ? "field " + path : line + ", field " + path;
    }
}
