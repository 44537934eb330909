package org.holdtrace.judge;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.NearMatch;
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
        return read(Files.readAllBytes(file), file.toString());
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
        Optional<Circuit> circuit = present(fields, "circuit", "one from a template, or \"nodes\" and \"elements\"")
                ? new CircuitReader(fields).read()
                : Optional.empty();
        Complaint complaint = present(fields, "complaint", "what is complained of: \"actuator\", \"direction\", …")
                ? fields.object("complaint").take(item -> complaint(item, circuit), "a complaint")
                : null;
        TestLine line = present(fields, "testLine", "the hand pump with its hose: \"ratings\", \"volume\", …")
                ? fields.object("testLine").take(CaseReader::testLine, "a test line")
                : null;
        String grade = fields.text("oilGrade", "");
        if (!grade.isEmpty() && Oil.ofGrade(grade).isEmpty()) {
            fields.problem("oilGrade", "\"" + grade + "\"", "a grade such as \"ISO VG 46\"");
        }
        List<CaseTest> tests = new ArrayList<>();
        for (JsonFields test : fields.list("tests")) {
            CaseTest read = test.take(item -> test(item, circuit), "a hold test");
            if (read != null) {
                tests.add(read);
            }
        }
        onceEach(fields, tests);
        CaseFile file = new CaseFile(
                required(fields, "machine", "its name, such as \"Loader 7\""),
                fields.text("note", ""),
                complaint,
                circuit.orElse(null),
                line,
                text(fields, "oilGrade"),
                fields.positive("referencePressure", Dimension.PRESSURE),
                value(fields, "referenceTemperature", Dimension.TEMPERATURE),
                tests,
                text(fields, "stopped"));
        return circuit.isPresent() && complaint != null && line != null ? file : null;
    }

    /** Two tests of one name could not be told apart in the findings, and one hold test counted twice would count double. */
    private static void onceEach(JsonFields fields, List<CaseTest> tests) {
        Set<String> names = new HashSet<>();
        Set<String> sources = new HashSet<>();
        for (CaseTest test : tests) {
            if (!names.add(test.name())) {
                fields.problem("tests", "two tests named \"" + test.name() + "\"", "a name for each");
            }
            if (!test.file().isEmpty() && !sources.add(test.file() + " " + test.number())) {
                fields.problem(
                        "tests",
                        "hold test " + test.number() + " of \"" + test.file() + "\" twice",
                        "each hold test once, or it would count double");
            }
        }
    }

    private static boolean present(JsonFields fields, String name, String example) {
        if (!fields.has(name)) {
            fields.problem("no \"" + name + "\"", example);
        }
        return fields.has(name);
    }

    private static String required(JsonFields fields, String name, String example) {
        String text = fields.text(name, "");
        if (text.isBlank()) {
            fields.problem("no \"" + name + "\"", example);
        }
        return text;
    }

    private static Optional<String> text(JsonFields fields, String name) {
        String text = fields.text(name, "");
        return text.isBlank() ? Optional.empty() : Optional.of(text);
    }

    private static Complaint complaint(JsonFields fields, Optional<Circuit> circuit) {
        String actuator = required(fields, "actuator", "the cylinder that drifts");
        Complaint.Direction direction = direction(fields);
        Optional<Cylinder> cylinder = cylinder(fields, actuator, circuit);
        return new Complaint(
                actuator,
                direction,
                fields.uncertainPositive("speed", Dimension.SPEED),
                loadPressure(fields, direction, cylinder),
                rodOut(fields, cylinder),
                value(fields, "oilTemperature", Dimension.TEMPERATURE));
    }

    private static Optional<Cylinder> cylinder(JsonFields fields, String actuator, Optional<Circuit> circuit) {
        List<Cylinder> cylinders = circuit.map(Circuit::cylinders).orElse(List.of());
        Optional<Cylinder> found =
                cylinders.stream().filter(each -> each.name().equals(actuator)).findFirst();
        if (found.isEmpty() && circuit.isPresent() && !actuator.isBlank()) {
            fields.problem(
                    "actuator",
                    "\"" + actuator + "\", which the circuit does not have",
                    NearMatch.expected(
                            actuator, cylinders.stream().map(Cylinder::name).toList()));
        }
        return found;
    }

    /** How far the rod is out, which is no further than its stroke. */
    private static OptionalDouble rodOut(JsonFields fields, Optional<Cylinder> cylinder) {
        OptionalDouble out = value(fields, "rodOut", Dimension.LENGTH);
        if (out.isPresent()
                && cylinder.isPresent()
                && out.getAsDouble() > 1.001 * cylinder.get().strokeM()) {
            fields.problem(
                    "rodOut",
                    "\"" + fields.text("rodOut", "") + "\", further than \""
                            + cylinder.get().name() + "\" goes",
                    "at most its stroke");
        }
        return out;
    }

    /** As stated, or the load's force over the area that carries it. */
    private static Optional<Quantity> loadPressure(
            JsonFields fields, Complaint.Direction direction, Optional<Cylinder> cylinder) {
        Optional<Quantity> pressure = fields.uncertainPositive("loadPressure", Dimension.PRESSURE);
        Optional<Quantity> force = fields.uncertainPositive("load", Dimension.FORCE);
        if (pressure.isPresent() && force.isPresent()) {
            fields.problem("load", "\"load\" and \"loadPressure\"", "one of them");
        }
        if (force.isEmpty() || cylinder.isEmpty()) {
            return pressure;
        }
        double area = direction == Complaint.Direction.RETRACTS
                ? cylinder.get().boreAreaM2()
                : cylinder.get().rodSideAreaM2();
        return Optional.of(new Quantity(force.get().value() / area, force.get().standardUncertainty() / area));
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

    private static TestLine testLine(JsonFields fields) {
        Map<String, Double> ratings = new LinkedHashMap<>();
        for (JsonFields rating : fields.list("ratings")) {
            rating.take(
                    item -> ratings.put(
                            required(item, "part", "hose, adapter, hand pump or plug"),
                            item.positive("pressure", Dimension.PRESSURE)),
                    "a part and its rated pressure");
        }
        if (ratings.isEmpty()) {
            fields.problem(
                    "no rated pressures", "\"ratings\": hose, adapter, hand pump, plugs, each as its maker rates it");
        }
        return new TestLine(
                ratings,
                fields.uncertainPositive("pumpStroke", Dimension.VOLUME),
                fields.uncertainPositive("compliance", Dimension.COMPLIANCE),
                fields.positive("volume", Dimension.VOLUME),
                value(fields, "transducerMax", Dimension.PRESSURE),
                value(fields, "transducerAccuracy", Dimension.FRACTION),
                text(fields, "lineCheck"));
    }

    private static CaseTest test(JsonFields fields, Optional<Circuit> circuit) {
        String pressurised = required(fields, "pressurised", "the node the test line is screwed to");
        CaseTest test = new CaseTest(
                fields.text("name", "press " + pressurised),
                required(fields, "file", "the session or trace, relative to the case file"),
                (int) fields.whole("number", 1),
                pressurised,
                fields.texts("joined"),
                fields.texts("open"),
                fields.texts("blocked"),
                fields.texts("blanked"),
                rodOut(fields, cylinderAt(pressurised, circuit)));
        circuit.ifPresent(known -> check(fields, test, known));
        return test;
    }

    private static Optional<Cylinder> cylinderAt(String node, Optional<Circuit> circuit) {
        return circuit.map(Circuit::cylinders).orElse(List.of()).stream()
                .filter(each -> each.has(node))
                .findFirst();
    }

    private static void check(JsonFields fields, CaseTest test, Circuit circuit) {
        List<String> nodes = circuit.nodes().stream().map(Node::name).toList();
        List<String> elements = circuit.elements().stream().map(Element::name).toList();
        if (!test.pressurised().isBlank()) {
            known(fields, "pressurised", List.of(test.pressurised()), nodes);
        }
        known(fields, "joined", test.joined(), nodes);
        known(fields, "open", test.open(), nodes);
        known(fields, "blocked", test.blocked(), nodes);
        known(fields, "blanked", test.blanked(), elements);
        Map<String, String> told = new HashMap<>();
        told.put(test.pressurised(), "pressurised");
        told(fields, told, "joined", test.joined());
        told(fields, told, "open", test.open());
        told(fields, told, "blocked", test.blocked());
        if (nodes.contains(test.pressurised())) {
            for (String beyond : Reach.of(circuit, test).undeclared()) {
                fields.problem(
                        "nothing said of \"" + beyond + "\", which an element parts from the pressed oil",
                        "it in \"open\" or in \"blocked\"");
            }
            Set<String> high = new LinkedHashSet<>(test.joined());
            high.add(test.pressurised());
            for (String node : high) {
                for (String beyond : circuit.opensInto(node, test.blanked())) {
                    if (!high.contains(beyond)) {
                        fields.problem(
                                "\"" + node + "\" pressed and not \"" + beyond
                                        + "\", into which a check valve lets the oil freely",
                                "\"" + beyond + "\" in \"joined\"");
                    }
                }
            }
            Set<String> joined = circuit.joinedTo(test.pressurised());
            for (String node : test.joined()) {
                if (nodes.contains(node) && !joined.contains(node)) {
                    fields.problem(
                            "joined",
                            "\"" + node + "\", to which no line leads from \"" + test.pressurised() + "\"",
                            "nodes that stay joined to it by their lines");
                }
            }
        }
    }

    /** A node is in one state only. */
    private static void told(JsonFields fields, Map<String, String> told, String state, List<String> nodes) {
        for (String node : nodes) {
            String before = told.putIfAbsent(node, state);
            if (before != null) {
                fields.problem(
                        state, "\"" + node + "\" in \"" + before + "\" and in \"" + state + "\"", "it in one of them");
            }
        }
    }

    private static void known(JsonFields fields, String field, List<String> given, List<String> known) {
        for (String name : given) {
            if (!known.contains(name)) {
                fields.problem(field, "\"" + name + "\"", NearMatch.expected(name, known));
            }
        }
    }

    static OptionalDouble value(JsonFields fields, String name, Dimension dimension) {
        Optional<Double> value = fields.optionalPositive(name, dimension);
        return value.isPresent() ? OptionalDouble.of(value.get()) : OptionalDouble.empty();
    }
}
