package org.holdtrace.judge;

import static org.holdtrace.wording.Figures.significant;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** Parts of a case as whole statements, the same in a terminal, on the desk, on a test sheet and in a report. */
public final class CaseSentences {
    private CaseSentences() {}

    /** What is complained of, without full stop. */
    public static String complaint(CaseFile file, ShownUnits units) {
        Complaint complaint = file.complaint();
        StringBuilder said = new StringBuilder(complaint.actuator())
                .append(' ')
                .append(complaint.direction().label());
        complaint
                .speedMPerS()
                .ifPresent(speed -> said.append(" at ")
                        .append(quantity(speed, units.speed(), units.speed().symbol())));
        complaint
                .loadPressurePa()
                .ifPresent(load -> said.append(", its load standing on ")
                        .append(quantity(load, units.pressure(), ShownUnits.name(units.pressure()))));
        complaint
                .rodOutM()
                .ifPresent(out -> said.append(", rod ")
                        .append(significant(units.length().fromSi(out), 4))
                        .append(' ')
                        .append(units.length().symbol())
                        .append(" out"));
        complaint
                .oilTemperatureK()
                .ifPresent(kelvins -> said.append(", oil at ").append(degrees(kelvins, units)));
        return said.toString();
    }

    /** Which circuit it is and where its leaks are stated, without full stop. */
    public static String circuit(CaseFile file, ShownUnits units) {
        return file.circuit().title() + "; all leaks are stated at " + conditions(file, units);
    }

    /** "110 bar, 22 °C". */
    public static String conditions(CaseFile file, ShownUnits units) {
        return Phrases.pressure(file.referencePa(), units)
                + (file.referenceTemperatureK().isPresent()
                        ? ", " + degrees(file.referenceTemperatureK().getAsDouble(), units)
                        : " and the oil temperature of the test");
    }

    /** What the columns of the table of parts are. */
    public static String aboutParts(CaseFile file, ShownUnits units) {
        return "Limits in " + ShownUnits.name(units.flow()) + ", carried to " + conditions(file, units)
                + ". Prior: how often such a part is over its limit, before complaint and tests; * as the case file states"
                + " it. With other priors: all odds a quarter or four times as much, or all parts alike.";
    }

    /**
     * A limit as it was stated, who states it, and which parts it is for.
     *
     * @param stated flow, pressure and temperature
     * @param source publication with edition and clause, or the maker; and what that rests on
     * @param parts names of the parts
     */
    public record LimitStated(String stated, String source, List<String> parts) {
        public LimitStated {
            parts = List.copyOf(parts);
        }

        /** The parts as a list in words. */
        public String of() {
            return PlanWords.and(parts);
        }
    }

    /** Where the limits come from, each once, in order of the circuit. */
    public static List<LimitStated> limits(CaseFindings findings, ShownUnits units) {
        Map<Limit, List<String>> parts = new LinkedHashMap<>();
        for (CaseFindings.ElementFinding found : findings.elements()) {
            parts.computeIfAbsent(found.element().limit(), key -> new ArrayList<>())
                    .add(found.element().name());
        }
        List<LimitStated> stated = new ArrayList<>();
        parts.forEach((limit, names) -> {
            String said = Phrases.bound(limit.m3PerS(), 4, units);
            if (limit.atPa().isPresent()) {
                said += " at " + Phrases.pressure(limit.atPa().getAsDouble(), units);
            }
            if (limit.atTemperatureK().isPresent()) {
                said += ", " + degrees(limit.atTemperatureK().getAsDouble(), units);
            }
            String basis = limit.basis() == Limit.Basis.MAKER
                    ? ""
                    : " (" + limit.basis().label() + ")";
            stated.add(new LimitStated(said, limit.source() + basis, names));
        });
        return stated;
    }

    /** What a planned test takes and gives. */
    public static String effort(PlannedTest test) {
        return "Takes about " + minutes(test.wholeS()) + "; worth " + Figures.fixed(test.bits(), 2)
                + " bit. It holds with a probability of "
                + Figures.percent(test.probabilityPass()) + ".";
    }

    /** How a planned test is done in numbers. */
    public static String sizes(PlannedTest test, ShownUnits units) {
        String strokes = test.strokes().isPresent()
                ? ", some " + significant(test.strokes().getAsDouble(), 3) + " full strokes"
                : "";
        return "Pump to " + Phrases.pressure(test.pressurePa(), units) + " (" + test.pressureFrom() + "), about "
                + significant(units.volume().fromSi(test.pumpedM3()), 2) + " " + ShownUnits.name(units.volume())
                + " once it is full" + strokes + "; hold "
                + minutes(test.holdS()) + " to resolve " + Phrases.bound(test.limitM3PerS(), 2, units) + ".";
    }

    /** How the machine stands for a test, a line each: what is pressed, joined, open, shut and taken out. */
    public static List<String> arrangement(CaseTest test, Circuit circuit) {
        List<String> lines = new ArrayList<>();
        lines.add("Pressed: " + test.pressurised() + " ("
                + circuit.node(test.pressurised()).port() + ")");
        if (test.joined().isEmpty()) {
            lines.add("Its lines: off, and their ends plugged");
        } else {
            lines.add(
                    "Stays joined to it and is pressed too: " + PlanWords.and(test.joined())
                            + " (the test line goes in by a test point, or between port and hose with a tee of the same rating)");
        }
        if (!test.open().isEmpty()) {
            lines.add("Open, without pressure, into a container: " + PlanWords.and(test.open()));
        }
        if (!test.blocked().isEmpty()) {
            lines.add("Shut and full of oil: " + PlanWords.and(test.blocked()));
        }
        if (!test.blanked().isEmpty()) {
            lines.add("Taken out and its cavity plugged, or changed for one known to be sound: "
                    + PlanWords.and(test.blanked()));
        }
        return lines;
    }

    private static String quantity(Quantity quantity, Unit unit, String name) {
        double uncertainty = unit.differenceFromSi(quantity.standardUncertainty());
        return significant(unit.fromSi(quantity.value()), 4)
                + (uncertainty > 0 ? " ± " + significant(uncertainty, 2) : "") + " " + name;
    }

    private static String degrees(double kelvins, ShownUnits units) {
        return significant(units.temperature().fromSi(kelvins), 3) + " " + ShownUnits.name(units.temperature());
    }

    /** Between what the probability of {@code found} lies with other priors. */
    public static String otherPriors(CaseFindings.ElementFinding found) {
        String lowest = Figures.percent(found.lowest());
        String highest = Figures.percent(found.highest());
        return lowest.equals(highest) ? lowest : lowest + " to " + highest;
    }

    /** "45 s", "12 min". */
    public static String minutes(double seconds) {
        return seconds < 100 ? significant(seconds, 2) + " s" : significant(Math.ceil(seconds / 30) / 2, 4) + " min";
    }
}
