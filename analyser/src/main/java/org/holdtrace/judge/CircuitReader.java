package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.NearMatch;
import org.holdtrace.session.JsonFields;

/** The circuit of a case file: from a template or node by node, then the elements of which the file says more. */
final class CircuitReader {
    /** Elements of one circuit. */
    private static final int MOST_ELEMENTS = 150;

    /** Why a motor is refused. */
    static final String NO_MOTORS =
            "a motor leaks from its work ports to its case by design, and by how much depends on"
                    + " where it stands and how it turns, so a hold test cannot tell a worn one from a sound one: measure its case"
                    + " drain under load by its maker's procedure";

    /** Half the bore of a hose or a passage, m: what governs how fast oil in it cools where the file says nothing. */
    private static final double USUAL_RADIUS_M = 5e-3;

    private final JsonFields fields;

    CircuitReader(JsonFields fields) {
        this.fields = fields;
    }

    Optional<Circuit> read() {
        JsonFields circuit = fields.object("circuit");
        Circuit made = circuit.has("template")
                ? circuit.take(CircuitReader::template, "a template")
                : circuit.take(CircuitReader::custom, "a circuit");
        List<JsonFields> changes = fields.list("elements");
        List<JsonFields> places = fields.list("nodes");
        if (made == null) {
            return Optional.empty();
        }
        if (made.elements().size() > MOST_ELEMENTS) {
            fields.problem(
                    "circuit",
                    "a circuit of " + made.elements().size() + " elements",
                    "at most " + MOST_ELEMENTS
                            + ", or planning takes minutes: make the function complained of, with what its tests reach, a case"
                            + " of its own");
        }
        List<Element> elements = new ArrayList<>(made.elements());
        onceEach(changes);
        for (JsonFields change : changes) {
            change.take(item -> change(item, elements), "what is known of an element");
        }
        List<Node> nodes = new ArrayList<>(made.nodes());
        onceEach(places);
        for (JsonFields place : places) {
            place.take(item -> change(nodes, item), "what is known of a node");
        }
        return Optional.of(new Circuit(made.title(), nodes, elements, made.cylinders()));
    }

    /** Of two that say different things of the same one the second would count and nobody would know. */
    private static void onceEach(List<JsonFields> listed) {
        Set<String> names = new HashSet<>();
        for (JsonFields each : listed) {
            String name = each.text("name", "");
            if (!name.isEmpty() && !names.add(name)) {
                each.problem("name", "\"" + name + "\" a second time", "all that is known of it in one place");
            }
        }
    }

    private static Circuit template(JsonFields fields) {
        String name = fields.text("template", "");
        List<Templates.Function> functions = new ArrayList<>();
        Optional<Templates.Kind> kind = Templates.Kind.of(name);
        List<JsonFields> listed = fields.list("functions");
        if (name.toLowerCase(Locale.ROOT).contains("motor")) {
            fields.problem("template", "\"" + name + "\"; " + NO_MOTORS, "a circuit with a cylinder");
            return null;
        }
        if (kind.isEmpty()) {
            fields.problem(
                    "template",
                    "\"" + name + "\"",
                    NearMatch.expected(
                            name,
                            Arrays.stream(Templates.Kind.values())
                                    .map(Templates.Kind::label)
                                    .toList()));
            return null;
        }
        for (JsonFields each : listed) {
            functions.add(each.take(CircuitReader::function, "a function"));
        }
        boolean bank = kind.get() == Templates.Kind.BANK;
        if (functions.contains(null)) {
            return null;
        }
        if (bank ? functions.size() < 2 : functions.size() != 1) {
            fields.problem(
                    "functions",
                    functions.size() + (functions.size() == 1 ? " function" : " functions"),
                    bank ? "two or more on a valve bank" : "one: \"name\", \"bore\", \"rod\", \"stroke\", limits");
            return null;
        }
        if (new HashSet<>(functions.stream().map(Templates.Function::name).toList()).size() < functions.size()) {
            fields.problem("functions", "two functions of one name", "a name for each");
            return null;
        }
        boolean holds = kind.get() == Templates.Kind.LOAD_HOLDING || kind.get() == Templates.Kind.PILOT_CHECK;
        if (!holds && functions.stream().anyMatch(function -> function.centre() == Cylinder.Centre.OPEN_TO_TANK)) {
            fields.problem(
                    "functions",
                    "a spool that is open to tank in its middle position, with nothing before it that holds the load",
                    "\"centre\": \"blocked\", or a template with a valve that holds the load");
            return null;
        }
        return Templates.of(kind.get(), functions);
    }

    private static Templates.Function function(JsonFields fields) {
        if (fields.hasUnexpected("motor")) {
            fields.problem("motor", "\"" + fields.text("motor", "") + "\"; " + NO_MOTORS, "a cylinder");
        }
        double bore = fields.positive("bore", Dimension.LENGTH);
        double rod = fields.positive("rod", Dimension.LENGTH);
        if (!(rod < bore)) {
            if (fields.has("bore") && fields.has("rod")) {
                fields.problem("rod", "a rod that is no thinner than the bore", "a thinner one");
            }
            rod = bore / 2;
        }
        Limit seal = fields.has("sealLimit")
                ? limit(fields, "sealLimit")
                : StandardLimits.cylinder(bore, false).orElse(null);
        if (seal == null) {
            fields.problem(
                    "a bore that the table of JB/T 10205 does not have",
                    "\"sealLimit\": what the piston seal may leak, such as " + LimitText.EXAMPLES);
            seal = StandardLimits.outside();
        }
        return new Templates.Function(
                fields.text("name", "cylinder"),
                bore,
                rod,
                fields.positive("stroke", Dimension.LENGTH),
                limit(fields, "spoolLimit"),
                limit(fields, "seatLimit"),
                seal,
                CaseReader.value(fields, "reliefSetting", Dimension.PRESSURE),
                CaseReader.value(fields, "holdingSetting", Dimension.PRESSURE),
                CaseReader.value(fields, "ratedPressure", Dimension.PRESSURE),
                centre(fields, "centre"));
    }

    private static Cylinder.Centre centre(JsonFields fields, String name) {
        String text = fields.text(name, Cylinder.Centre.BLOCKED.label());
        for (Cylinder.Centre centre : Cylinder.Centre.values()) {
            if (centre.label().equals(text)) {
                return centre;
            }
        }
        fields.problem(name, "\"" + text + "\"", "\"blocked\" or \"open to tank\"");
        return Cylinder.Centre.BLOCKED;
    }

    private static Limit limit(JsonFields fields, String name) {
        String text = fields.text(name, "");
        if (text.isEmpty()) {
            fields.problem("no field \"" + name + "\"", "what it may leak, such as " + LimitText.EXAMPLES);
            return StandardLimits.outside();
        }
        try {
            return LimitText.parse(text);
        } catch (IllegalArgumentException e) {
            fields.problem(name, e.getMessage(), LimitText.EXAMPLES);
            return StandardLimits.outside();
        }
    }

    private static Circuit custom(JsonFields fields) {
        List<Node> nodes = new ArrayList<>();
        for (JsonFields each : fields.list("nodes")) {
            nodes.add(each.take(
                    item -> new Node(
                            item.text("name", ""),
                            item.text("port", item.text("name", "")),
                            item.positive("access", Dimension.TIME),
                            CaseReader.value(item, "ratedPressure", Dimension.PRESSURE),
                            item.positive("volume", Dimension.VOLUME),
                            item.optionalPositive("radius", Dimension.LENGTH).orElse(USUAL_RADIUS_M)),
                    "a node"));
        }
        Set<String> names = new HashSet<>(Set.of(Node.TANK, Node.OUTSIDE));
        nodes.forEach(node -> {
            if (!names.add(node.name())) {
                fields.problem(
                        "nodes", "two nodes \"" + node.name() + "\"", "a name for each, none \"tank\" or \"outside\"");
            }
        });
        List<Element> elements = new ArrayList<>();
        for (JsonFields each : fields.list("elements")) {
            Element element = each.take(CircuitReader::element, "an element");
            if (element != null) {
                elements.add(element);
                for (String end : List.of(element.from(), element.to())) {
                    if (!names.contains(end)) {
                        each.problem(
                                "the node \"" + end + "\" in \"" + element.name() + "\"", "a node of this circuit");
                    }
                }
            }
        }
        Set<String> once = new HashSet<>();
        for (Element element : elements) {
            if (!once.add(element.name())) {
                fields.problem("elements", "two elements \"" + element.name() + "\"", "a name for each");
            }
        }
        List<Cylinder> cylinders = new ArrayList<>();
        for (JsonFields each : fields.list("cylinders")) {
            Cylinder cylinder = each.take(
                    item -> new Cylinder(
                            item.text("name", "cylinder"),
                            item.positive("bore", Dimension.LENGTH),
                            item.positive("rod", Dimension.LENGTH),
                            item.positive("stroke", Dimension.LENGTH),
                            item.text("boreNode", ""),
                            item.text("rodNode", ""),
                            centre(item, "unloadedSide")),
                    "a cylinder whose rod is thinner than its bore");
            if (cylinder != null) {
                cylinders.add(cylinder);
                if (!names.contains(cylinder.boreNode()) || !names.contains(cylinder.rodNode())) {
                    each.problem("a cylinder at nodes the circuit does not have", "\"boreNode\" and \"rodNode\"");
                }
            }
        }
        if (cylinders.isEmpty()) {
            fields.problem("no cylinder", "\"cylinders\": at least the one complained of");
        }
        return new Circuit(fields.text("title", "a circuit of its own"), nodes, elements, cylinders);
    }

    private static Element element(JsonFields fields) {
        ElementKind kind = kind(fields);
        return new Element(
                fields.text("name", kind.label()),
                kind,
                fields.text("from", ""),
                fields.text("to", Node.TANK),
                kind.leaksOutside() && !fields.has("limit") ? StandardLimits.outside() : limit(fields, "limit"),
                prior(fields).orElse(kind.usuallyWorn()),
                fields.has("prior"),
                CaseReader.value(fields, "setting", Dimension.PRESSURE),
                fields.flag("canBeBlanked"),
                seen(fields));
    }

    private static ElementKind kind(JsonFields fields) {
        String text = fields.text("kind", "");
        for (ElementKind kind : ElementKind.values()) {
            if (kind.label().equals(text)) {
                return kind;
            }
        }
        boolean turns = text.contains("motor") || text.contains("pump");
        fields.problem(
                "kind",
                turns ? "\"" + text + "\"; " + NO_MOTORS : "\"" + text + "\"",
                NearMatch.expected(
                        text,
                        Arrays.stream(ElementKind.values())
                                .map(ElementKind::label)
                                .toList()));
        return ElementKind.LINE;
    }

    private static Optional<Element.Seen> seen(JsonFields fields) {
        String text = fields.text("seen", "");
        for (Element.Seen seen : Element.Seen.values()) {
            if (seen.label().equals(text)) {
                return Optional.of(seen);
            }
        }
        if (!text.isEmpty()) {
            fields.problem("seen", "\"" + text + "\"", "\"dry\" or \"wet\": what it looked like wiped and under load");
        }
        return Optional.empty();
    }

    private static Optional<Double> prior(JsonFields fields) {
        Optional<Double> prior = fields.optional("prior", Dimension.FRACTION);
        if (prior.isPresent() && !(prior.get() >= 0 && prior.get() <= 1)) {
            fields.problem("prior", "\"" + fields.text("prior", "") + "\"", "how often it is so, from 0 % to 100 %");
            return Optional.empty();
        }
        return prior;
    }

    /** Replaces what the file says more of. */
    private static Element change(JsonFields fields, List<Element> elements) {
        String name = fields.text("name", "");
        Optional<Double> prior = prior(fields);
        Optional<Limit> limit = fields.has("limit") ? Optional.of(limit(fields, "limit")) : Optional.empty();
        OptionalDouble setting = CaseReader.value(fields, "setting", Dimension.PRESSURE);
        Optional<Boolean> canBeBlanked =
                fields.has("canBeBlanked") ? Optional.of(fields.flag("canBeBlanked")) : Optional.empty();
        Optional<Element.Seen> seen = seen(fields);
        for (int i = 0; i < elements.size(); i++) {
            Element old = elements.get(i);
            if (old.name().equals(name)) {
                if (seen.isPresent() && !old.kind().leaksOutside()) {
                    fields.problem(
                            "seen", "\"" + name + "\", which leaks where nobody can see it", "a rod seal or a line");
                }
                Element changed = new Element(
                        name,
                        old.kind(),
                        old.from(),
                        old.to(),
                        limit.orElse(old.limit()),
                        prior.orElse(old.prior()),
                        prior.isPresent() || old.priorStated(),
                        setting.isPresent() ? setting : old.settingPa(),
                        canBeBlanked.orElse(old.canBeBlanked()),
                        seen.isPresent() ? seen : old.seen());
                elements.set(i, changed);
                return changed;
            }
        }
        fields.problem(
                "name",
                "\"" + name + "\"",
                NearMatch.expected(name, elements.stream().map(Element::name).toList()));
        return null;
    }

    /** Replaces what the file says more of. */
    private static Node change(List<Node> nodes, JsonFields fields) {
        String name = fields.text("name", "");
        String port = fields.text("port", "");
        OptionalDouble rating = CaseReader.value(fields, "ratedPressure", Dimension.PRESSURE);
        Optional<Double> access = fields.optionalPositive("access", Dimension.TIME);
        Optional<Double> volume = fields.optionalPositive("volume", Dimension.VOLUME);
        for (int i = 0; i < nodes.size(); i++) {
            Node old = nodes.get(i);
            if (old.name().equals(name)) {
                Node changed = new Node(
                        name,
                        port.isEmpty() ? old.port() : port,
                        access.orElse(old.accessS()),
                        rating.isPresent() ? rating : old.ratingPa(),
                        volume.orElse(old.volumeM3()),
                        old.cooling());
                nodes.set(i, changed);
                return changed;
            }
        }
        fields.problem(
                "name",
                "\"" + name + "\"",
                NearMatch.expected(name, nodes.stream().map(Node::name).toList()));
        return null;
    }
}
