package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdtrace.leak.Law;
import org.junit.jupiter.api.Test;

/** Beliefs on every template held against an enumeration of all combinations that shares no code with them. */
class TemplateBeliefsTest {
    private static final int DRAWS = 40_000;

    private static CaseTest press(String node, String open, String blanked) {
        return new CaseTest(
                "press " + node + " without " + blanked,
                "x.hold",
                1,
                node,
                List.of(),
                open.isEmpty() ? List.of() : List.of(open.split(", ")),
                List.of(),
                blanked.isEmpty() ? List.of() : List.of(blanked),
                OptionalDouble.empty());
    }

    /** Compares all elements that the tests or the complaint tie together; any other keeps its prior. */
    private static void compare(CaseFile file, MeasuredTest... tests) {
        Circuit circuit = file.circuit();
        Map<String, Double> limits = CarriedLimits.of(file);
        List<Observation> observations = new ArrayList<>();
        Set<Element> tied = new LinkedHashSet<>(circuit.pathOf(file.complaint()));
        for (MeasuredTest test : tests) {
            Reach reach = Reach.of(circuit, test.test());
            observations.add(Observation.of(reach.direct(), test.leak().orElseThrow()));
            tied.addAll(reach.direct());
        }
        Set<String> path = new HashSet<>();
        circuit.pathOf(file.complaint()).forEach(element -> path.add(element.name()));
        List<Element> elements = List.copyOf(tied);
        Enumerated exact = Enumerated.of(elements, path, observations, limits, DRAWS);
        CaseFindings findings = CaseJudge.judge(file, List.of(tests));
        for (CaseFindings.ElementFinding found : findings.elements()) {
            String name = found.element().name();
            double expected = tied.contains(found.element())
                    ? exact.over(name)
                    : found.element().prior();
            assertEquals(expected, found.probability(), 0.012, name);
        }
    }

    @Test
    void singleCylinder() throws IOException {
        compare(
                Cases.of("single cylinder", ""),
                Cases.measured(press("port A", "", ""), 6, 0.25, Law.ORIFICE),
                Cases.measured(press("port A", "", "anti-cavitation A"), 5.2, 0.2, Law.ORIFICE),
                Cases.measured(press("bore side", "rod side", ""), 0.15, 0.01, Law.LAMINAR));
    }

    @Test
    void singleCylinderPulling() throws IOException {
        String text = Cases.text("single cylinder", Cases.FUNCTION, "").replace("retracts", "extends");
        compare(
                Cases.read(text),
                Cases.measured(press("port B", "", ""), 3.9, 0.15, Law.MIXED),
                Cases.measured(press("bore side", "rod side", ""), 0.25, 0.015, Law.LAMINAR));
    }

    @Test
    void loadHoldingValve() throws IOException {
        compare(
                Cases.of("load-holding valve", ""),
                Cases.measured(press("bore side", "rod side, behind the valve A", ""), 4.3, 0.15, Law.THRESHOLD),
                Cases.measured(press("port A", "", ""), 9, 0.4, Law.LAMINAR));
    }

    @Test
    void loadHoldingValveWithItsPortsOpenToTank() throws IOException {
        compare(
                Cases.read(Cases.text("load-holding valve", Cases.FUNCTION + ", \"centre\": \"open to tank\"", "")),
                Cases.measured(press("bore side", "rod side, behind the valve A", ""), 4.1, 0.3, Law.ORIFICE),
                Cases.measured(press("rod side", "bore side", ""), 0.21, 0.012, Law.LAMINAR));
    }

    @Test
    void pilotCheckClamp() throws IOException {
        compare(
                Cases.of("pilot-check clamp", ""),
                Cases.measured(press("bore side", "rod side, behind the valve A", ""), 4.2, 0.15, Law.ORIFICE),
                Cases.measured(press("rod side", "bore side, behind the valve B", ""), 0.3, 0.015, Law.LAMINAR));
    }

    @Test
    void valveBank() throws IOException {
        String two = Cases.FUNCTION + " }, { " + Cases.FUNCTION.replace("\"lift\"", "\"tilt\"");
        compare(
                Cases.read(Cases.text("valve bank", two, "")),
                Cases.measured(press("lift port A", "", ""), 4.4, 0.15, Law.MIXED),
                Cases.measured(press("tilt port A", "", "tilt port relief A"), 4.1, 0.3, Law.ORIFICE));
    }
}
