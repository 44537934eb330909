package org.holdtrace.judge;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.JsonFields;

/** Reads case files; their fields are in {@code docs/case.md}. */
public final class CaseReader {
    private static final String EXAMPLE = "one object with the fields docs/case.md names";

    private CaseReader() {}

    /**
     * Reads a case.
     *
     * @throws IOException if the file cannot be read; an {@link org.holdtrace.session.InputException} with one line a
     *     problem where it is no case
     */
    public static CaseFile read(Path file) throws IOException {
        return read(Files.readAllBytes(file), file.getFileName().toString());
    }

    /** Reads a case from its text; {@code name} stands for the file in messages. */
    static CaseFile read(byte[] utf8, String name) throws IOException {
        return JsonFields.read(utf8, name, EXAMPLE, fields -> {
            CaseFile file = theCase(fields);
            fields.finish();
            return file;
        });
    }

    private static CaseFile theCase(JsonFields fields) {
        Optional<Circuit> circuit = new CircuitReader(fields).read();
        Complaint complaint = fields.object("complaint").take(CaseReader::complaint, "a complaint");
        TestLine line = fields.object("testLine").take(CaseReader::testLine, "a test line");
        OptionalDouble temperature = value(fields, "referenceTemperature", Dimension.TEMPERATURE);
        double reference =
                positive(fields, "referencePressure", fields.quantity("referencePressure", Dimension.PRESSURE));
        List<CaseTest> tests = new ArrayList<>();
        for (JsonFields test : fields.list("tests")) {
            CaseTest read = test.take(item -> test(item, circuit), "a hold test");
            if (read != null) {
                tests.add(read);
            }
        }
        String machine = fields.text("machine", "");
        if (machine.isEmpty()) {
            fields.problem("machine", "no machine", "its name, such as \"Loader 7\"");
        }
        String stopped = fields.text("stopped", "");
        if (circuit.isEmpty() || complaint == null || line == null) {
            fields.text("note", "");
            fields.text("oilGrade", "");
            return null;
        }
        if (circuit.get().cylinders().stream().noneMatch(c -> c.name().equals(complaint.actuator()))) {
            fields.problem(
                    "complaint",
                    "the actuator \"" + complaint.actuator() + "\", which the circuit does not have",
                    "one of "
                            + String.join(
                                    ", ",
                                    circuit.get().cylinders().stream()
                                            .map(Cylinder::name)
                                            .toList()));
            return null;
        }
        String grade = fields.text("oilGrade", "");
        if (!grade.isEmpty() && Oil.ofGrade(grade).isEmpty()) {
            fields.problem("oilGrade", "\"" + grade + "\"", "a grade such as \"ISO VG 46\"");
        }
        return new CaseFile(
                machine,
                fields.text("note", ""),
                complaint,
                circuit.get(),
                line,
                grade.isEmpty() ? Optional.empty() : Optional.of(grade),
                reference,
                temperature,
                tests,
                stopped.isEmpty() ? Optional.empty() : Optional.of(stopped));
    }

    private static Complaint complaint(JsonFields fields) {
        Optional<Quantity> pressure = fields.uncertain("loadPressure", Dimension.PRESSURE);
        pressure.ifPresent(load -> positive(fields, "loadPressure", load.value()));
        Optional<Quantity> speed = fields.uncertain("speed", Dimension.SPEED);
        speed.ifPresent(each -> positive(fields, "speed", each.value()));
        return new Complaint(
                fields.text("actuator", ""),
                direction(fields),
                speed,
                pressure,
                value(fields, "rodOut", Dimension.LENGTH),
                value(fields, "oilTemperature", Dimension.TEMPERATURE),
                centre(fields));
    }

    private static Complaint.Direction direction(JsonFields fields) {
        String text = fields.text("direction", "");
        for (Complaint.Direction direction : Complaint.Direction.values()) {
            if (direction.label().equals(text)) {
                return direction;
            }
        }
        fields.problem("direction", "\"" + text + "\"", "\"retracts\" or \"extends\": which way the rod drifts");
        return Complaint.Direction.RETRACTS;
    }

    private static Complaint.Centre centre(JsonFields fields) {
        String text = fields.text("centre", Complaint.Centre.BLOCKED.label());
        for (Complaint.Centre centre : Complaint.Centre.values()) {
            if (centre.label().equals(text)) {
                return centre;
            }
        }
        fields.problem("centre", "\"" + text + "\"", "\"blocked\" or \"open to tank\"");
        return Complaint.Centre.BLOCKED;
    }

    private static TestLine testLine(JsonFields fields) {
        Map<String, Double> ratings = new LinkedHashMap<>();
        for (JsonFields rating : fields.list("ratings")) {
            rating.take(
                    item -> ratings.put(item.text("part", "part"), item.quantity("pressure", Dimension.PRESSURE)),
                    "a part and its rated pressure");
        }
        if (ratings.isEmpty()) {
            fields.problem(
                    "no rated pressures", "\"ratings\": hose, adapter, hand pump, plugs, each as its maker rates it");
        }
        String lineCheck = fields.text("lineCheck", "");
        return new TestLine(
                ratings,
                fields.uncertain("pumpStroke", Dimension.VOLUME),
                fields.uncertain("compliance", Dimension.COMPLIANCE),
                fields.quantity("volume", Dimension.VOLUME),
                value(fields, "transducerMax", Dimension.PRESSURE),
                value(fields, "transducerAccuracy", Dimension.FRACTION),
                lineCheck.isEmpty() ? Optional.empty() : Optional.of(lineCheck));
    }

    private static CaseTest test(JsonFields fields, Optional<Circuit> circuit) {
        String pressurised = fields.text("pressurised", "");
        String file = fields.text("file", "");
        if (file.isEmpty()) {
            fields.problem("no file", "\"file\": the session or trace, relative to the case file");
        }
        CaseTest test = new CaseTest(
                fields.text("name", "press " + pressurised),
                file,
                (int) fields.whole("number", 1),
                pressurised,
                names(fields, "joined"),
                names(fields, "open"),
                names(fields, "blocked"),
                names(fields, "blanked"),
                value(fields, "rodOut", Dimension.LENGTH));
        circuit.ifPresent(known -> check(fields, test, known));
        return test;
    }

    private static void check(JsonFields fields, CaseTest test, Circuit circuit) {
        List<String> nodes = circuit.nodes().stream().map(Node::name).toList();
        List<String> elements = circuit.elements().stream().map(Element::name).toList();
        known(fields, "pressurised", List.of(test.pressurised()), nodes);
        known(fields, "joined", test.joined(), nodes);
        known(fields, "open", test.open(), nodes);
        known(fields, "blocked", test.blocked(), nodes);
        known(fields, "blanked", test.blanked(), elements);
        if (nodes.contains(test.pressurised())) {
            for (String beyond : Reach.of(circuit, test).undeclared()) {
                fields.problem(
                        "nothing said of \"" + beyond + "\", which an element parts from the pressed oil",
                        "it in \"open\" or in \"blocked\"");
            }
        }
    }

    private static void known(JsonFields fields, String field, List<String> given, List<String> known) {
        for (String name : given) {
            if (!known.contains(name)) {
                fields.problem(field, "\"" + name + "\"", "one of " + String.join(", ", known));
            }
        }
    }

    /** Names parted by commas. */
    private static List<String> names(JsonFields fields, String field) {
        List<String> names = new ArrayList<>();
        for (String name : fields.text(field, "").split(",", -1)) {
            if (!name.isBlank()) {
                names.add(name.strip());
            }
        }
        return names;
    }

    static OptionalDouble value(JsonFields fields, String name, Dimension dimension) {
        Optional<Double> value = fields.optional(name, dimension);
        return value.isPresent() ? OptionalDouble.of(value.get()) : OptionalDouble.empty();
    }

    static double positive(JsonFields fields, String name, double value) {
        if (!(value > 0)) {
            fields.problem(name, "a value of " + value, "one above 0");
            return 1;
        }
        return value;
    }
}
