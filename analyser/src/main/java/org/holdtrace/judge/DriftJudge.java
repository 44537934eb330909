package org.holdtrace.judge;

import static org.holdtrace.wording.Figures.decimalsFor;
import static org.holdtrace.wording.Figures.fixed;
import static org.holdtrace.wording.Figures.significant;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.fluid.Oil;
import org.holdtrace.judge.Complaint.Direction;
import org.holdtrace.judge.Cylinder.Centre;
import org.holdtrace.leak.CylinderDrift;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/**
 * From leaks at the pressure of the load to the speed of the rod, against the complaint: flow is area times speed.
 *
 * <p>A piston seal is a matter of its own. With both ports shut and the load pushing the rod in, oil that passes it has to
 * find room on the rod's side, which gives up less than the bore's side loses by the rod's area: the rod goes in only
 * until the oil is compressed, and then both sides stand at {@code p A_bore / A_rod}. Where the load pulls the rod out,
 * the bore's side gets more room than oil and the rod goes on, with a void or oil drawn in behind it.
 */
public final class DriftJudge {
    private static final double COVERAGE = 1.96;

    /** Share of the complaint below which a leak is no part of it worth the name. */
    private static final double A_PART = 0.1;

    /** Modulus where the oil is not told, Pa: mineral oil, BM-08. */
    private static final double USUAL_MODULUS_PA = 1.5e9;

    private DriftJudge() {}

    /** Judges the drift; empty where no speed or no load is told, or nothing that bears the load gave a leak rate. */
    static Optional<DriftFinding> judge(
            CaseFile file, List<MeasuredTest> tests, List<Reach> reaches, ShownUnits units) {
        Complaint complaint = file.complaint();
        if (complaint.speedMPerS().isEmpty() || complaint.loadPressurePa().isEmpty()) {
            return Optional.empty();
        }
        List<MeasuredTest> counted = counted(file, tests, reaches);
        if (counted.isEmpty()) {
            return Optional.empty();
        }
        double leak = 0;
        double below = 0;
        double above = 0;
        List<String> names = new ArrayList<>();
        for (MeasuredTest test : counted) {
            HoldTestResult.Leak own = test.leakAtLoad().orElseThrow();
            leak += own.m3PerS();
            below = Math.hypot(below, own.m3PerS() - own.lower95());
            above = Math.hypot(above, own.upper95() - own.m3PerS());
            names.add(test.test().name());
        }
        Cylinder cylinder = file.cylinder();
        double area = cylinder.areaAtM2(complaint.loadNode(cylinder));
        double lower = Math.max(0, leak - below);
        double speed = CylinderDrift.speedMPerS(leak, area);
        double speedLower = CylinderDrift.speedMPerS(lower, area);
        double speedUpper = CylinderDrift.speedMPerS(leak + above, area);
        double complained = complaint.speedMPerS().get().value();
        double least = complained - COVERAGE * complaint.speedMPerS().get().standardUncertainty();
        DriftFinding.Outcome outcome = speedUpper >= least
                ? DriftFinding.Outcome.EXPLAINS
                : speedUpper >= A_PART * complained
                        ? DriftFinding.Outcome.EXPLAINS_PART
                        : DriftFinding.Outcome.CANNOT_EXPLAIN;
        double load = complaint.loadPressurePa().get().value();
        List<String> said = new ArrayList<>();
        said.add("At " + Phrases.pressure(load, units) + ", the pressure of the load, "
                + Phrases.bound(leak, 3, units) + " leave the loaded side ("
                + Phrases.interval(lower, leak + above, units) + "). Over the "
                + significant(units.areaFromSi(area), 3) + " " + units.areaName() + " that carry it the rod moves "
                + speeds(speed, speedLower, speedUpper, units.speed())
                + "; complained of are " + significant(units.speed().fromSi(complained), 3) + " "
                + units.speed().symbol() + ". The leak found "
                + outcome.label() + ".");
        if (outcome == DriftFinding.Outcome.EXPLAINS_PART) {
            said.add("Something else lets the rest through: look for it before parts are ordered.");
        } else if (outcome == DriftFinding.Outcome.CANNOT_EXPLAIN) {
            said.add("The cause of the drift is not among what was tested.");
        }
        said.addAll(pistonSeal(file, units));
        return Optional.of(new DriftFinding(
                outcome,
                names,
                leak,
                lower,
                leak + above,
                load,
                area,
                speed,
                speedLower,
                speedUpper,
                complained,
                said));
    }

    private static String speeds(double speed, double lower, double upper, Unit unit) {
        int decimals = decimalsFor(unit.fromSi(lower), unit.fromSi(upper));
        return fixed(unit.fromSi(speed), decimals) + " " + unit.symbol() + " (" + fixed(unit.fromSi(lower), decimals)
                + " to " + fixed(unit.fromSi(upper), decimals) + ")";
    }

    /** Tests whose leak leaves the loaded side for good, none of them counted twice; those that implicate most first. */
    private static List<MeasuredTest> counted(CaseFile file, List<MeasuredTest> tests, List<Reach> reaches) {
        Set<String> path = new HashSet<>();
        for (Element element : file.circuit().pathOf(file.complaint())) {
            if (element.kind() != ElementKind.PISTON_SEAL || pistonSealCounts(file)) {
                path.add(element.name());
            }
        }
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < tests.size(); i++) {
            boolean leak = tests.get(i).leakAtLoad().isPresent();
            boolean onPath = !reaches.get(i).direct().isEmpty()
                    && reaches.get(i).direct().stream().allMatch(element -> path.contains(element.name()));
            if (leak && onPath) {
                order.add(i);
            }
        }
        order.sort((a, b) ->
                reaches.get(b).direct().size() - reaches.get(a).direct().size());
        Set<String> covered = new HashSet<>();
        List<MeasuredTest> counted = new ArrayList<>();
        for (int i : order) {
            List<String> names =
                    reaches.get(i).direct().stream().map(Element::name).toList();
            if (names.stream().noneMatch(covered::contains)) {
                covered.addAll(names);
                counted.add(tests.get(i));
            }
        }
        return counted;
    }

    /** Whether oil that passes the piston seal lets the rod go on moving. */
    private static boolean pistonSealCounts(CaseFile file) {
        return file.complaint().direction() == Direction.EXTENDS
                || file.cylinder().unloaded() == Centre.OPEN_TO_TANK;
    }

    private static List<String> pistonSeal(CaseFile file, ShownUnits units) {
        Complaint complaint = file.complaint();
        if (file.cylinder().unloaded() == Centre.OPEN_TO_TANK) {
            return List.of("In the middle position the unloaded side is open to the reservoir, so a leaking piston seal"
                    + " lets the load through like any other leak of the loaded side.");
        }
        if (complaint.direction() == Direction.EXTENDS) {
            return List.of(
                    "With the ports shut and the load pulling the rod out, oil past the piston seal finds more room"
                            + " than it fills: the rod goes on with a void behind the piston, or with oil drawn in through the"
                            + " anti-cavitation valve. A leaking piston seal alone can cause such a drift.");
        }
        double load = complaint.loadPressurePa().orElseThrow().value();
        Cylinder cylinder = file.cylinder();
        double both = balancedPa(cylinder, load);
        double rodOut = complaint.rodOutM().orElse(cylinder.strokeM() / 2);
        double travel = units.length().fromSi(travelM(cylinder, load, rodOut, modulusPa(file)));
        String balance = "With both ports shut a leaking piston seal alone lets the rod in by only some "
                + significant(travel, 2) + " " + units.length().symbol() + ", until both sides stand at "
                + significant(units.pressure().fromSi(both), 2) + " "
                + ShownUnits.name(units.pressure()) + " and the oil can be compressed no further";
        OptionalDouble relief = file.circuit().elements().stream()
                .filter(element -> element.kind() == ElementKind.PORT_RELIEF && touches(element, file))
                .flatMapToDouble(element -> element.settingPa().stream())
                .min();
        return relief.isPresent() && relief.getAsDouble() < both
                ? List.of(
                        balance + ". That is above the " + Phrases.pressure(relief.getAsDouble(), units)
                                + " at which a port relief valve opens, so here such a seal can let the rod go on by way of that valve.")
                : List.of(balance + ": it is not the cause of a drift that goes on.");
    }

    private static boolean touches(Element element, CaseFile file) {
        Cylinder cylinder = file.cylinder();
        Set<String> nodes = new HashSet<>(file.circuit().joinedTo(cylinder.boreNode()));
        nodes.addAll(file.circuit().joinedTo(cylinder.rodNode()));
        return nodes.contains(element.from()) || nodes.contains(element.to());
    }

    private static double modulusPa(CaseFile file) {
        double temperature = file.complaint().oilTemperatureK().orElse(Oil.ZERO_CELSIUS_K + 20);
        return file.oilGrade()
                .flatMap(Oil::ofGrade)
                .map(oil -> oil.isothermalModulusPa(temperature).value())
                .orElse(USUAL_MODULUS_PA);
    }

    /**
     * Pressure on both sides once a leaking piston seal has let them balance with the ports shut and the load pushing the
     * rod in: {@code p A_bore / A_rod}, Pa.
     *
     * @param loadPa pressure the load makes on the bore's side alone
     */
    public static double balancedPa(Cylinder cylinder, double loadPa) {
        return loadPa * cylinder.boreAreaM2() / cylinder.rodAreaM2();
    }

    /**
     * How far the rod goes in until then, m: the rod takes the room that the oil of both sides gives by compression,
     * {@code A_rod x = (V_bore (p2 - p1) + V_rod p2) / K}.
     *
     * @param rodOutM how far the rod is out
     * @param modulusPa modulus of the oil, mean over that pressure
     */
    public static double travelM(Cylinder cylinder, double loadPa, double rodOutM, double modulusPa) {
        double both = balancedPa(cylinder, loadPa);
        double bore = cylinder.boreAreaM2() * rodOutM;
        double rodSide = cylinder.rodSideAreaM2() * Math.max(0, cylinder.strokeM() - rodOutM);
        return (bore * (both - loadPa) + rodSide * both) / (modulusPa * cylinder.rodAreaM2());
    }
}
