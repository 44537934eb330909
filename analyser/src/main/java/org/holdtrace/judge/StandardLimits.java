package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.QuantityParser;
import org.holdtrace.quantity.Unit;

/**
 * Limits from published standards. Each says with the limit whether its numbers were read in a document that quotes the
 * standard or come from memory; the standards themselves were not at hand.
 *
 * <p>They are acceptance limits of new parts on a test stand. A part in use may be judged by them only where its maker
 * says nothing.
 */
public final class StandardLimits {
    /** How a limit by standard is written in a case file, for messages. */
    public static final String EXAMPLES =
            "\"JB/T 10205, bore 80 mm\", \"ISO 5208 rate D, DN 10\", \"API 598 metal seat, NPS 1\", "
                    + "\"API 598 metal check, NPS 1\", \"MSS SP-61, NPS 1\", \"FCI 70-2 class V, port 20 mm, 100 bar\", "
                    + "\"FCI 70-2 class IV, capacity 60 l/min\" or the same with \"IEC 60534-4\"";

    private static final double CM3_PER_MIN = Unit.CM3_PER_MIN.toSi(1);

    /** JB/T 10205-2000, double-acting cylinders: bore in mm, internal leak in cm³/min at rated pressure (AC-40). */
    private static final double[][] CYLINDERS = {
        {40, 0.03}, {50, 0.05}, {63, 0.08}, {80, 0.13}, {90, 0.15}, {100, 0.20}, {110, 0.22},
        {125, 0.28}, {140, 0.30}, {160, 0.50}, {180, 0.63}, {200, 0.70}, {220, 1.00}, {250, 1.10}
    };

    /** ISO 5208, liquid: mm³/s for each mm of DN (AC-20). Rate A allows nothing that can be seen, which is no number. */
    private static final Map<String, Double> SEAT_RATES =
            Map.of("AA", 0.006, "B", 0.01, "C", 0.03, "CC", 0.08, "D", 0.1, "E", 0.3, "EE", 0.39, "F", 1.0, "G", 2.0);

    /** One drop of API 598 is 1/16 cm³ (AC-23). */
    private static final double DROP_CM3 = 1.0 / 16;

    /** IEC 60534-4 class V: l/h of water for each mm of port and each kPa; from memory (AC-24). */
    private static final double CLASS_V_IEC = 1.8e-7;

    private static final double CM3_PER_L = 1000;

    /** MSS SP-61, closure test with liquid: cm³/h for each inch of NPS; from memory. */
    private static final double SP_61 = 10;

    /** FCI 70-2 class V: cm³/min of water for each inch of port and each psi (AC-24). */
    private static final double CLASS_V = 5e-4;

    private StandardLimits() {}

    /**
     * Internal leak allowed to a double-acting cylinder by JB/T 10205-2000. A bore between two of the table takes the
     * smaller one's limit.
     *
     * @param boreM bore, 40 to 250 mm
     * @param combinationSeal whether the piston carries a combination seal, which may leak twice as much
     * @return empty where the table has no such bore
     */
    public static Optional<Limit> cylinder(double boreM, boolean combinationSeal) {
        double boreMm = Unit.MM.fromSi(boreM);
        double allowed = Double.NaN;
        for (double[] row : CYLINDERS) {
            if (row[0] <= boreMm + 1e-6) {
                allowed = row[1];
            }
        }
        if (!(boreMm <= CYLINDERS[CYLINDERS.length - 1][0] + 1e-6) || Double.isNaN(allowed)) {
            return Optional.empty();
        }
        String seal = combinationSeal ? ", combination seal: twice the table" : "";
        return Optional.of(new Limit(
                (combinationSeal ? 2 : 1) * allowed * CM3_PER_MIN,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Limit.Basis.STANDARD,
                "JB/T 10205-2000, internal leakage of double-acting cylinders at rated pressure, by bore (6.2.3, table 6 of"
                        + " the 2010 edition; clause from memory)" + seal));
    }

    /**
     * What a visible leak to the outside may be: a drop of 0.05 cm³ a minute. Common practice, no source; it is shown as
     * such.
     */
    static Limit outside() {
        return new Limit(
                0.05 * CM3_PER_MIN,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Limit.Basis.COMMON_PRACTICE,
                "a drop a minute");
    }

    /**
     * Reads a limit by standard, such as {@code ISO 5208 rate D, DN 10}.
     *
     * @throws IllegalArgumentException that says what cannot be read
     */
    public static Limit parse(String text) {
        List<String> words = new ArrayList<>(List.of(text.strip().split("[,\\s]+")));
        String body = words.isEmpty() ? "" : words.get(0).toUpperCase(Locale.ROOT);
        return switch (body) {
            case "JB/T" -> jbt(text, named(text));
            case "ISO" -> iso5208(text, named(text));
            case "API" -> api598(text, named(text));
            case "FCI" -> controlValve(text, named(text), false);
            case "IEC" -> controlValve(text, named(text), true);
            case "MSS" -> sp61(text, named(text));
            default -> throw unreadable(text, "not one of the standards known here");
        };
    }

    /** The parts behind the commas by their first word in small letters: {"dn": "10"}. */
    private static Map<String, String> named(String text) {
        Map<String, String> parts = new LinkedHashMap<>();
        for (String part : text.split(",", -1)) {
            String[] words = part.strip().split("\\s+", 2);
            parts.put(words[0].toLowerCase(Locale.ROOT), words.length > 1 ? words[1] : "");
        }
        return parts;
    }

    private static Limit jbt(String text, Map<String, String> parts) {
        double bore = quantity(text, parts, "bore", Dimension.LENGTH);
        boolean combination = parts.containsKey("combination");
        return cylinder(bore, combination).orElseThrow(() -> unreadable(text, "its table has bores from 40 to 250 mm"));
    }

    private static Limit iso5208(String text, Map<String, String> parts) {
        String head = parts.getOrDefault("iso", "");
        String rate = head.substring(head.lastIndexOf(' ') + 1).toUpperCase(Locale.ROOT);
        Double each = SEAT_RATES.get(rate);
        if (!head.startsWith("5208") || each == null) {
            throw unreadable(text, "the rates with a number are AA, B, C, CC, D, E, EE, F and G");
        }
        double dn = number(text, parts, "dn");
        return new Limit(
                each * dn * 1e-9,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Limit.Basis.STANDARD,
                "ISO 5208:2015, closure test with liquid, rate " + rate + ", DN " + parts.get("dn")
                        + " (table 4; edition and table from memory)");
    }

    private static Limit api598(String text, Map<String, String> parts) {
        double nps = number(text, parts, "nps");
        String head = parts.getOrDefault("api", "");
        if (head.startsWith("598 metal seat")) {
            if (nps <= 2) {
                throw unreadable(text, "up to NPS 2 a metal seat may not leak at all, which no test can show");
            }
            return standard(
                    2 * nps * DROP_CM3, "API 598, liquid closure test, metal seat, NPS " + parts.get("nps") + API_598);
        }
        if (head.startsWith("598 metal check")) {
            return standard(
                    3 * nps,
                    "API 598, liquid closure test, metal-seated check valve, NPS " + parts.get("nps") + API_598);
        }
        throw unreadable(
                text, "\"API 598 metal seat\" or \"API 598 metal check\"; resilient seats may not leak at all");
    }

    private static final String API_598 = " (10th edition, 2016, table 6; edition and table from memory)";

    private static Limit sp61(String text, Map<String, String> parts) {
        if (!parts.getOrDefault("mss", "").startsWith("SP-61")) {
            throw unreadable(text, "\"MSS SP-61\" is the one of MSS known here");
        }
        return fromMemory(
                SP_61 * number(text, parts, "nps") / 60,
                "MSS SP-61, closure test with liquid, 10 cm³/h for each inch of NPS, NPS " + parts.get("nps"));
    }

    private static Limit fromMemory(double cm3PerMin, String source) {
        return new Limit(
                cm3PerMin * CM3_PER_MIN,
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Limit.Basis.STANDARD_FROM_MEMORY,
                source);
    }

    private static Limit standard(double cm3PerMin, String source) {
        return new Limit(
                cm3PerMin * CM3_PER_MIN, OptionalDouble.empty(), OptionalDouble.empty(), Limit.Basis.STANDARD, source);
    }

    /** Control valves, by FCI 70-2 or by IEC 60534-4, whose classes are the same and whose class V is rounded another way. */
    private static Limit controlValve(String text, Map<String, String> parts, boolean iec) {
        String head = parts.getOrDefault(iec ? "iec" : "fci", "");
        if (!head.startsWith(iec ? "60534-4" : "70-2")) {
            throw unreadable(text, "the standards of control valves known here are FCI 70-2 and IEC 60534-4");
        }
        String source = iec ? "IEC 60534-4:2006, table 3" : "FCI 70-2-2013, table 1 (edition and table from memory)";
        String grade = head.substring(head.lastIndexOf(' ') + 1).toUpperCase(Locale.ROOT);
        if (grade.equals("V")) {
            double portM = quantity(text, parts, "port", Dimension.LENGTH);
            double pa = pressure(text);
            String named = source + ", class V, water, port " + parts.get("port");
            Limit flow = iec
                    ? fromMemory(CLASS_V_IEC * Unit.MM.fromSi(portM) * Unit.KPA.fromSi(pa) * CM3_PER_L / 60, named)
                    : standard(CLASS_V * Unit.IN.fromSi(portM) * Unit.PSI.fromSi(pa), named);
            return new Limit(flow.m3PerS(), OptionalDouble.of(pa), OptionalDouble.empty(), flow.basis(), flow.source());
        }
        Map<String, Double> shares = Map.of("II", 0.005, "III", 0.001, "IV", 0.0001);
        Double share = shares.get(grade);
        if (share == null) {
            throw unreadable(text, "the classes for liquids are II, III, IV and V");
        }
        double allowed = share * Unit.CM3_PER_MIN.fromSi(quantity(text, parts, "capacity", Dimension.FLOW));
        String named = source + ", class " + grade + ", share of the rated capacity";
        return iec ? fromMemory(allowed, named) : standard(allowed, named);
    }

    private static double pressure(String text) {
        String last = text.substring(text.lastIndexOf(',') + 1).strip();
        return parse(text, last, Dimension.PRESSURE);
    }

    private static double quantity(String text, Map<String, String> parts, String name, Dimension dimension) {
        String value = parts.get(name);
        if (value == null) {
            throw unreadable(text, "it does not say \"" + name + "\"");
        }
        return parse(text, value, dimension);
    }

    private static double parse(String text, String value, Dimension dimension) {
        try {
            Quantity quantity = QuantityParser.parse(value, dimension);
            return quantity.value();
        } catch (IllegalArgumentException e) {
            throw unreadable(text, e.getMessage());
        }
    }

    private static double number(String text, Map<String, String> parts, String name) {
        return quantity(text, parts, name, Dimension.FRACTION);
    }

    private static IllegalArgumentException unreadable(String text, String why) {
        return new IllegalArgumentException("\"" + text + "\" is no limit: " + why);
    }
}
