package org.holdtrace.adc;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.holdtrace.adc.StoredCalibration.Check;
import org.holdtrace.adc.StoredCalibration.Line;
import org.holdtrace.adc.StoredCalibration.Zero;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.session.InputException;
import org.holdtrace.session.JsonFields;

/**
 * Keeps calibrations and zeros in {@code calibration.json}. A power cut leaves the old file or the new one, never half of
 * either. Safe for use from several threads of one process.
 */
public final class CalibrationStore {
    private static final String NAME = "calibration.json";
    private static final String EXAMPLE = "calibrations as the logger writes them, { \"inputs\": [ … ] }";

    private final Path file;

    /** The store in {@code directory}, which need not exist yet. */
    public CalibrationStore(Path directory) {
        file = directory.resolve(NAME);
    }

    /** The file it is kept in. */
    public Path file() {
        return file;
    }

    /**
     * What is stored, by names of inputs; empty where nothing ever was.
     *
     * @throws InputException where the file holds something else: nobody should record by a calibration that is not his
     * @throws IOException where it cannot be read
     */
    public synchronized Map<String, StoredCalibration> all() throws IOException {
        if (Files.notExists(file)) {
            return Map.of();
        }
        return JsonFields.read(Files.readAllBytes(file), file.toString(), EXAMPLE, CalibrationStore::parse);
    }

    /** What is stored for the input of that name. */
    public Optional<StoredCalibration> of(String input) throws IOException {
        return Optional.ofNullable(all().get(input));
    }

    /** Stores {@code calibration} for the input of that name, on the disk when this returns. */
    public synchronized void put(String input, StoredCalibration calibration) throws IOException {
        Map<String, StoredCalibration> changed = new TreeMap<>(all());
        changed.put(input, calibration);
        Path directory = file.toAbsolutePath().getParent();
        Files.createDirectories(directory);
        Path next = directory.resolve(NAME + ".new");
        try (FileChannel out = FileChannel.open(
                next, StandardOpenOption.CREATE, StandardOpenOption.TRUNCATE_EXISTING, StandardOpenOption.WRITE)) {
            ByteBuffer bytes = ByteBuffer.wrap(write(changed));
            while (bytes.hasRemaining()) {
                out.write(bytes);
            }
            out.force(true);
        }
        Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        try (FileChannel entry = FileChannel.open(directory, StandardOpenOption.READ)) {
            entry.force(true);
        } catch (IOException e) {
            // Where a directory cannot be opened (not on Linux) its entry is the file system's own business.
            Files.getLastModifiedTime(file);
        }
    }

    private static Map<String, StoredCalibration> parse(JsonFields root) {
        Map<String, StoredCalibration> all = new TreeMap<>();
        for (JsonFields input : root.list("inputs")) {
            String name = input.text("name", "");
            try {
                all.put(name, calibration(input));
            } catch (IllegalArgumentException e) {
                input.problem(e.getMessage(), "a calibration that can be");
            }
            input.finish();
        }
        root.finish();
        return all;
    }

    private static StoredCalibration calibration(JsonFields input) {
        List<Check> checks = new ArrayList<>();
        for (JsonFields check : input.list("checks")) {
            checks.add(check(check));
        }
        Optional<Line> line = Optional.empty();
        if (input.has("low") && input.has("high")) {
            Check low = check(input.object("low"));
            Check high = check(input.object("high"));
            line = Optional.of(new Line(low.signal(), low.siValue(), high.signal(), high.siValue()));
        }
        Optional<Zero> zero = Optional.empty();
        if (input.has("zero")) {
            JsonFields node = input.object("zero");
            zero = Optional.of(new Zero(node.quantity("signal", Dimension.FRACTION), date(node)));
            node.finish();
        }
        Optional<String> reference =
                input.has("reference") ? Optional.of(input.text("reference", "")) : Optional.empty();
        return new StoredCalibration(line, checks, reference, date(input), zero);
    }

    private static Check check(JsonFields node) {
        Check check =
                new Check(node.quantity("signal", Dimension.FRACTION), node.quantity("siValue", Dimension.FRACTION));
        node.finish();
        return check;
    }

    private static Optional<LocalDate> date(JsonFields node) {
        if (!node.has("date")) {
            return Optional.empty();
        }
        String text = node.text("date", "");
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException e) {
            node.problem("date", "\"" + text + "\"", "a date such as \"2026-11-25\"");
            return Optional.empty();
        }
    }

    private static byte[] write(Map<String, StoredCalibration> all) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (JsonGenerator out = new JsonFactory().createGenerator(bytes)) {
            out.setPrettyPrinter(new DefaultPrettyPrinter());
            out.writeStartObject();
            out.writeArrayFieldStart("inputs");
            for (Map.Entry<String, StoredCalibration> entry : all.entrySet()) {
                StoredCalibration stored = entry.getValue();
                out.writeStartObject();
                out.writeStringField("name", entry.getKey());
                if (stored.line().isPresent()) {
                    Line line = stored.line().get();
                    write(out, "low", line.lowSignal(), line.lowSi());
                    write(out, "high", line.highSignal(), line.highSi());
                }
                out.writeArrayFieldStart("checks");
                for (Check check : stored.checks()) {
                    write(out, null, check.signal(), check.siValue());
                }
                out.writeEndArray();
                if (stored.reference().isPresent()) {
                    out.writeStringField("reference", stored.reference().get());
                }
                if (stored.date().isPresent()) {
                    out.writeStringField("date", stored.date().get().toString());
                }
                if (stored.zero().isPresent()) {
                    Zero zero = stored.zero().get();
                    out.writeObjectFieldStart("zero");
                    out.writeStringField("signal", Double.toString(zero.signal()));
                    if (zero.date().isPresent()) {
                        out.writeStringField("date", zero.date().get().toString());
                    }
                    out.writeEndObject();
                }
                out.writeEndObject();
            }
            out.writeEndArray();
            out.writeEndObject();
        }
        bytes.write('\n');
        return bytes.toByteArray();
    }

    private static void write(JsonGenerator out, String field, double signal, double siValue) throws IOException {
        if (field == null) {
            out.writeStartObject();
        } else {
            out.writeObjectFieldStart(field);
        }
        out.writeStringField("signal", Double.toString(signal));
        out.writeStringField("siValue", Double.toString(siValue));
        out.writeEndObject();
    }
}
