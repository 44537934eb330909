package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The common circuits, ready made. Each function is a double-acting cylinder on a spool section whose work ports have a
 * relief and an anti-cavitation valve each. Volumes and times are starting points a case file may replace.
 */
final class Templates {
    /** Screwing off a hose at the valve and blanking it, s. Common practice, no source. */
    private static final double ACCESS_PORT_S = 600;

    /** The same at the cylinder, s. Common practice, no source. */
    private static final double ACCESS_CYLINDER_S = 900;

    private static final double PORT_VOLUME_M3 = 40e-6;
    private static final double PORT_RADIUS_M = 4e-3;
    private static final double HOSE_RADIUS_M = 6e-3;

    private final List<Node> nodes = new ArrayList<>();
    private final List<Element> elements = new ArrayList<>();
    private final List<Cylinder> cylinders = new ArrayList<>();

    /** What stands between a cylinder and its spool. */
    enum Kind {
        SINGLE("single cylinder"),
        LOAD_HOLDING("load-holding valve"),
        PILOT_CHECK("pilot-check clamp"),
        BANK("valve bank");

        private final String label;

        Kind(String label) {
            this.label = label;
        }

        String label() {
            return label;
        }

        static Optional<Kind> of(String label) {
            for (Kind kind : values()) {
                if (kind.label.equals(label.toLowerCase(Locale.ROOT))) {
                    return Optional.of(kind);
                }
            }
            return Optional.empty();
        }
    }

    /**
     * One function of a machine.
     *
     * @param name its name, in front of the names of its elements where there are several functions
     * @param boreM bore, m
     * @param rodM rod, m
     * @param strokeM stroke, m
     * @param spool limit of a spool section's work port
     * @param seat limit of a relief, an anti-cavitation, a check or a load-holding valve
     * @param seal limit of the piston seal
     * @param reliefPa setting of the port reliefs, Pa
     * @param holdingPa setting of the load-holding valve, Pa
     * @param ratingPa rated pressure of valve and cylinder, Pa
     * @param centre what the spool does with both work ports in its middle position
     */
    record Function(
            String name,
            double boreM,
            double rodM,
            double strokeM,
            Limit spool,
            Limit seat,
            Limit seal,
            OptionalDouble reliefPa,
            OptionalDouble holdingPa,
            OptionalDouble ratingPa,
            Cylinder.Centre centre) {}

    private Templates() {}

    /** The circuit of that kind. */
    static Circuit of(Kind kind, List<Function> functions) {
        Templates made = new Templates();
        for (Function function : functions) {
            made.add(kind, function, functions.size() == 1 ? "" : function.name() + " ");
        }
        return new Circuit(title(kind), made.nodes, made.elements, made.cylinders);
    }

    private static String title(Kind kind) {
        return switch (kind) {
            case SINGLE -> "one cylinder on one spool section";
            case LOAD_HOLDING -> "one cylinder with a load-holding valve on one spool section";
            case PILOT_CHECK -> "a clamp held by pilot checks on one spool section";
            case BANK -> "several functions on one valve bank";
        };
    }

    private void add(Kind kind, Function function, String before) {
        Cylinder cylinder = new Cylinder(
                function.name(),
                function.boreM(),
                function.rodM(),
                function.strokeM(),
                before + "bore side",
                before + "rod side",
                kind == Kind.PILOT_CHECK ? Cylinder.Centre.BLOCKED : function.centre());
        cylinders.add(cylinder);
        if (function.centre() == Cylinder.Centre.BLOCKED) {
            port(function, before, "A");
            port(function, before, "B");
        }
        side(function, cylinder.boreNode(), cylinder.boreAreaM2() * cylinder.strokeM());
        side(function, cylinder.rodNode(), cylinder.rodSideAreaM2() * cylinder.strokeM());
        element(
                before + "piston seal",
                ElementKind.PISTON_SEAL,
                cylinder.boreNode(),
                cylinder.rodNode(),
                function.seal());
        element(before + "rod seal", ElementKind.ROD_SEAL, cylinder.rodNode(), Node.OUTSIDE, StandardLimits.outside());
        boolean holdsBore = kind == Kind.LOAD_HOLDING || kind == Kind.PILOT_CHECK;
        way(kind, function, before, "A", cylinder.boreNode(), holdsBore);
        way(kind, function, before, "B", cylinder.rodNode(), kind == Kind.PILOT_CHECK);
    }

    /** The way from a side of the cylinder to its work port: a hose, and where the side is held, the valve before it. */
    private void way(Kind kind, Function function, String before, String port, String side, boolean held) {
        String hoseAt = side;
        if (held) {
            hoseAt = before + "behind the valve " + port;
            nodes.add(new Node(
                    hoseAt,
                    "valve port of " + side,
                    ACCESS_CYLINDER_S,
                    function.ratingPa(),
                    PORT_VOLUME_M3,
                    HOSE_RADIUS_M));
            boolean holding = kind == Kind.LOAD_HOLDING;
            elements.add(new Element(
                    before + (holding ? "load-holding valve" : "pilot check " + port),
                    holding ? ElementKind.LOAD_HOLDING : ElementKind.PILOT_CHECK,
                    side,
                    hoseAt,
                    function.seat(),
                    (holding ? ElementKind.LOAD_HOLDING : ElementKind.PILOT_CHECK).usuallyWorn(),
                    false,
                    holding ? function.holdingPa() : OptionalDouble.empty(),
                    true,
                    Optional.empty()));
        }
        // A port that is open to the reservoir bears no pressure, and neither do its valves and its hose.
        if (function.centre() == Cylinder.Centre.BLOCKED) {
            element(
                    before + "hose " + port,
                    ElementKind.LINE,
                    hoseAt,
                    before + "port " + port,
                    StandardLimits.outside());
        }
    }

    private void port(Function function, String before, String port) {
        String node = before + "port " + port;
        nodes.add(new Node(
                node, "valve port " + port, ACCESS_PORT_S, function.ratingPa(), PORT_VOLUME_M3, PORT_RADIUS_M));
        element(before + "spool " + port, ElementKind.SPOOL_CLEARANCE, node, Node.TANK, function.spool());
        elements.add(new Element(
                before + "port relief " + port,
                ElementKind.PORT_RELIEF,
                node,
                Node.TANK,
                function.seat(),
                ElementKind.PORT_RELIEF.usuallyWorn(),
                false,
                function.reliefPa(),
                true,
                Optional.empty()));
        elements.add(new Element(
                before + "anti-cavitation " + port,
                ElementKind.ANTI_CAVITATION,
                node,
                Node.TANK,
                function.seat(),
                ElementKind.ANTI_CAVITATION.usuallyWorn(),
                false,
                OptionalDouble.empty(),
                true,
                Optional.empty()));
    }

    private void side(Function function, String node, double volumeM3) {
        nodes.add(new Node(
                node,
                "cylinder port, " + node,
                ACCESS_CYLINDER_S,
                function.ratingPa(),
                volumeM3,
                function.boreM() / 2));
    }

    private void element(String name, ElementKind kind, String from, String to, Limit limit) {
        elements.add(new Element(
                name,
                kind,
                from,
                to,
                limit,
                kind.usuallyWorn(),
                false,
                OptionalDouble.empty(),
                false,
                Optional.empty()));
    }
}
