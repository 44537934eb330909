package org.holdtrace.library;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.session.CsvPlan;
import org.holdtrace.session.InputException;
import org.holdtrace.session.JsonFields;
import org.holdtrace.session.SetupField;
import org.holdtrace.trace.Boundaries;
import org.holdtrace.trace.Boundary;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.Figures;

/**
 * What somebody worked out by hand on one recording; stands beside it as {@code NAME.work.json}, see {@code docs/desk.md}.
 * Immutable.
 *
 * @param moved boundaries that were moved
 * @param parts what the trapped volume of the setup was added up from
 * @param columns what the columns of a trace are, where its header does not tell
 * @param unfinished what is written in fields of the setup and is not right yet, so that it does not count
 */
public record WorkNotes(
        List<MovedBoundary> moved,
        List<VolumePart> parts,
        Optional<CsvPlan> columns,
        Map<SetupField, String> unfinished) {
    /** How the names of such files end. */
    public static final String ENDING = ".work.json";

    /** Nothing was done by hand. */
    public static final WorkNotes NONE = new WorkNotes(List.of(), List.of(), Optional.empty(), Map.of());

    /** A boundary found farther away than this from where it was when it was moved is another one, s. */
    private static final double SAME_S = 0.5;

    private static final String EXAMPLE = "an object such as { \"movedBoundaries\": [ … ] }";

    public WorkNotes {
        moved = List.copyOf(moved);
        parts = List.copyOf(parts);
        unfinished = Map.copyOf(unfinished);
    }

    /** Where the notes on {@code input} stand. */
    public static Path fileBeside(InputFile input) {
        return input.path().resolveSibling(InputFile.stemOf(input.path()) + ENDING);
    }

    /**
     * The notes beside {@code input}; none where there is no such file.
     *
     * @throws IOException where it cannot be read; an {@link InputException} where it cannot be understood
     */
    public static WorkNotes beside(InputFile input) throws IOException {
        Path file = fileBeside(input);
        return Files.exists(file) ? parse(Files.readAllBytes(file), file.toString()) : NONE;
    }

    /**
     * Reads {@code utf8}; {@code name} stands for the file in messages.
     *
     * @throws InputException where these are no notes; its message has one line for each problem
     */
    public static WorkNotes parse(byte[] utf8, String name) throws InputException {
        return JsonFields.read(utf8, name, EXAMPLE, fields -> {
            List<MovedBoundary> moved = new ArrayList<>();
            for (JsonFields each : fields.list("movedBoundaries")) {
                Boundary boundary = boundary(each);
                moved.add(new MovedBoundary(
                        (int) each.whole("holdTest", 1),
                        boundary,
                        each.quantity("found", Dimension.TIME),
                        each.quantity("to", Dimension.TIME)));
                each.finish();
            }
            List<VolumePart> parts = new ArrayList<>();
            for (JsonFields each : fields.list("trappedVolume")) {
                parts.add(new VolumePart(
                        each.text("part", ""),
                        each.text("bore", ""),
                        each.text("rod", ""),
                        each.text("length", ""),
                        each.text("volume", "")));
                each.finish();
            }
            List<String> names = new ArrayList<>();
            for (JsonFields each : fields.list("columns")) {
                names.add(each.text("is", ""));
                each.finish();
            }
            boolean firstRowIsData = fields.flag("firstRowIsData");
            Map<SetupField, String> unfinished = new EnumMap<>(SetupField.class);
            for (JsonFields each : fields.list("unfinished")) {
                field(each).ifPresent(field -> unfinished.put(field, each.text("text", "")));
                each.finish();
            }
            fields.finish();
            return new WorkNotes(
                    moved,
                    parts,
                    names.isEmpty() ? Optional.empty() : Optional.of(new CsvPlan(names, firstRowIsData)),
                    unfinished);
        });
    }

    private static Boundary boundary(JsonFields fields) {
        String label = fields.text("boundary", "");
        List<String> labels = new ArrayList<>();
        for (Boundary each : Boundary.values()) {
            if (each.label().equals(label)) {
                return each;
            }
            labels.add("\"" + each.label() + "\"");
        }
        fields.problem("boundary", "\"" + label + "\"", "one of " + String.join(", ", labels));
        return Boundary.HOLD_STARTS;
    }

    private static Optional<SetupField> field(JsonFields fields) {
        String path = fields.text("field", "");
        List<String> paths = new ArrayList<>();
        for (SetupField each : SetupField.values()) {
            if (each.path().equals(path)) {
                return Optional.of(each);
            }
            paths.add("\"" + each.path() + "\"");
        }
        fields.problem("field", "\"" + path + "\"", "one of " + String.join(", ", paths));
        return Optional.empty();
    }

    /** The same with {@code boundary} of hold test {@code holdTest}, found at {@code foundS}, moved to {@code toS}. */
    public WorkNotes with(int holdTest, Boundary boundary, double foundS, double toS) {
        List<MovedBoundary> next = without(holdTest, boundary);
        next.add(new MovedBoundary(holdTest, boundary, foundS, toS));
        return new WorkNotes(next, parts, columns, unfinished);
    }

    /** The same with all boundaries of hold test {@code holdTest} where they were found. */
    public WorkNotes asFound(int holdTest) {
        List<MovedBoundary> next = new ArrayList<>(moved);
        next.removeIf(each -> each.holdTest() == holdTest);
        return new WorkNotes(next, parts, columns, unfinished);
    }

    /** The same with other parts of the trapped volume. */
    public WorkNotes withParts(List<VolumePart> next) {
        return new WorkNotes(moved, next, columns, unfinished);
    }

    /** The same with another word on what the columns are. */
    public WorkNotes withColumns(CsvPlan plan) {
        return new WorkNotes(moved, parts, Optional.of(plan), unfinished);
    }

    /** The same with {@code text} in {@code field}, which is not right yet; a blank text: nothing is left unfinished there. */
    public WorkNotes withUnfinished(SetupField field, String text) {
        Map<SetupField, String> next = new EnumMap<>(SetupField.class);
        next.putAll(unfinished);
        next.remove(field);
        if (!text.isBlank()) {
            next.put(field, text);
        }
        return new WorkNotes(moved, parts, columns, next);
    }

    /** The same with no field of the setup left unfinished. */
    public WorkNotes withNothingUnfinished() {
        return new WorkNotes(moved, parts, columns, Map.of());
    }

    private List<MovedBoundary> without(int holdTest, Boundary boundary) {
        List<MovedBoundary> rest = new ArrayList<>(moved);
        rest.removeIf(each -> each.holdTest() == holdTest && each.boundary() == boundary);
        return rest;
    }

    /** {@code found}, with the boundaries moved that somebody moved; those that do not fit any more are left alone. */
    public List<HoldTest> applied(Trace trace, List<HoldTest> found) {
        if (moved.isEmpty()) {
            return found;
        }
        List<HoldTest> tests = new ArrayList<>();
        for (HoldTest each : found) {
            HoldTest test = each;
            for (MovedBoundary move : moved) {
                if (fits(move, each, test)) {
                    test = Boundaries.moved(trace, test, move.boundary(), move.toS());
                }
            }
            tests.add(test);
        }
        return tests;
    }

    private static boolean fits(MovedBoundary move, HoldTest found, HoldTest now) {
        Boundaries all = Boundaries.of(now);
        return move.holdTest() == found.number()
                && all.at(move.boundary()).isPresent()
                && Math.abs(Boundaries.of(found).at(move.boundary()).orElse(Double.NaN) - move.foundS()) <= SAME_S
                && move.toS() >= all.earliestS(move.boundary())
                && move.toS() <= all.latestS(move.boundary());
    }

    /** {@code result} with a caution for each boundary that somebody moved, or that could not be moved again. */
    public HoldTestResult noted(HoldTestResult result) {
        List<HoldTestResult.Caution> cautions = new ArrayList<>(result.cautions());
        for (MovedBoundary move : moved) {
            if (move.holdTest() == result.holdTest().number()) {
                double atS =
                        Boundaries.of(result.holdTest()).at(move.boundary()).orElse(Double.NaN);
                String what = "\"" + move.boundary().label() + "\" from " + Figures.significant(move.foundS(), 5)
                        + " s to " + Figures.significant(move.toS(), 5) + " s";
                cautions.add(
                        Math.abs(atS - move.toS()) < 1e-9
                                ? new HoldTestResult.Caution("boundary-by-hand", "Moved by hand: " + what + ".")
                                : new HoldTestResult.Caution(
                                        "boundary-not-moved",
                                        "Not moved: " + what
                                                + ", as somebody wished, does not fit this hold test; it is"
                                                + " where it was found."));
            }
        }
        return cautions.size() == result.cautions().size()
                ? result
                : new HoldTestResult(
                        result.holdTest(),
                        result.compliance(),
                        result.leak(),
                        result.routes(),
                        result.agreement(),
                        result.verdict(),
                        result.budget(),
                        cautions,
                        result.picture());
    }

    /** The notes as JSON, UTF-8. */
    public byte[] json() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (JsonGenerator generator = new JsonFactory().createGenerator(out)) {
            generator.setPrettyPrinter(new DefaultPrettyPrinter());
            generator.writeStartObject();
            if (!moved.isEmpty()) {
                generator.writeArrayFieldStart("movedBoundaries");
                for (MovedBoundary each : moved) {
                    generator.writeStartObject();
                    generator.writeNumberField("holdTest", each.holdTest());
                    generator.writeStringField("boundary", each.boundary().label());
                    generator.writeStringField("found", each.foundS() + " s");
                    generator.writeStringField("to", each.toS() + " s");
                    generator.writeEndObject();
                }
                generator.writeEndArray();
            }
            if (!parts.isEmpty()) {
                generator.writeArrayFieldStart("trappedVolume");
                for (VolumePart each : parts) {
                    generator.writeStartObject();
                    text(generator, "part", each.name());
                    text(generator, "bore", each.bore());
                    text(generator, "rod", each.rod());
                    text(generator, "length", each.length());
                    text(generator, "volume", each.volume());
                    generator.writeEndObject();
                }
                generator.writeEndArray();
            }
            if (columns.isPresent()) {
                generator.writeArrayFieldStart("columns");
                for (String name : columns.get().names()) {
                    generator.writeStartObject();
                    text(generator, "is", name);
                    generator.writeEndObject();
                }
                generator.writeEndArray();
                generator.writeStringField("firstRowIsData", columns.get().firstRowIsData() ? "yes" : "no");
            }
            if (!unfinished.isEmpty()) {
                generator.writeArrayFieldStart("unfinished");
                for (SetupField field : SetupField.values()) {
                    if (unfinished.containsKey(field)) {
                        generator.writeStartObject();
                        text(generator, "field", field.path());
                        text(generator, "text", unfinished.get(field));
                        generator.writeEndObject();
                    }
                }
                generator.writeEndArray();
            }
            generator.writeEndObject();
            generator.writeRaw('\n');
        } catch (IOException e) {
            throw new UncheckedIOException("memory cannot fail", e);
        }
        return out.toByteArray();
    }

    private static void text(JsonGenerator generator, String name, String text) throws IOException {
        if (!text.isBlank()) {
            generator.writeStringField(name, text);
        }
    }
}
