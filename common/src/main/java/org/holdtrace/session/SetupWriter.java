package org.holdtrace.session;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityFormat;
import org.holdtrace.quantity.Unit;

/** Writes a setup so that {@link SetupReader} reads the very same one back. */
public final class SetupWriter {
    private static final JsonFactory JSON = new JsonFactory();

    private SetupWriter() {}

    /** Writes {@code setup} as UTF-8 JSON to {@code file}, replacing what is there. */
    public static void write(TestSetup setup, Path file) throws IOException {
        try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
                JsonGenerator generator = JSON.createGenerator(out)) {
            generator.setPrettyPrinter(new DefaultPrettyPrinter());
            write(setup, generator);
            generator.writeRaw('\n');
        }
    }

    /** Writes {@code setup} as one object (a map where the generator writes CBOR). */
    public static void write(TestSetup setup, JsonGenerator out) throws IOException {
        out.writeStartObject();
        String open = "";
        for (Map.Entry<SetupField, Object> entry : SetupField.valuesOf(setup).entrySet()) {
            SetupField field = entry.getKey();
            if (!field.group().equals(open)) {
                if (!open.isEmpty()) {
                    out.writeEndObject();
                }
                open = field.group();
                if (!open.isEmpty()) {
                    out.writeObjectFieldStart(open);
                }
            }
            out.writeStringField(field.leaf(), text(field, entry.getValue()));
        }
        if (!open.isEmpty()) {
            out.writeEndObject();
        }
        out.writeEndObject();
    }

    private static String text(SetupField field, Object value) {
        if (value instanceof Quantity quantity) {
            return QuantityFormat.format(quantity, field.unit());
        }
        if (value instanceof SetupField.Range range) {
            return QuantityFormat.number(range.minPa(), Unit.BAR) + ".."
                    + QuantityFormat.number(range.maxPa(), Unit.BAR) + " bar";
        }
        if (value instanceof Double accuracy) {
            return QuantityFormat.format(Quantity.exactly(accuracy), Unit.PERCENT);
        }
        return (String) value;
    }
}
