package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class TemplatesTest {
    private static final String OPEN = Cases.FUNCTION + ", \"centre\": \"open to tank\"";

    private static Set<String> names(List<Element> elements) {
        Set<String> names = new TreeSet<>();
        elements.forEach(element -> names.add(element.name()));
        return names;
    }

    private static Set<String> path(CaseFile file) {
        return names(file.circuit().pathOf(file.complaint()));
    }

    @Test
    void aSingleCylinderHasTwoPortsTwoHosesAndItsSeals() throws IOException {
        CaseFile file = Cases.of("single cylinder", "");
        assertEquals(
                Set.of(
                        "spool A",
                        "port relief A",
                        "anti-cavitation A",
                        "spool B",
                        "port relief B",
                        "anti-cavitation B",
                        "piston seal",
                        "rod seal",
                        "hose A",
                        "hose B"),
                names(file.circuit().elements()));
        // What can let a load down that stands on the bore side: all that is at that side and at its port.
        assertEquals(Set.of("spool A", "port relief A", "anti-cavitation A", "piston seal", "hose A"), path(file));
    }

    @Test
    void aLoadHoldingValveTakesThePortOutOfThePath() throws IOException {
        assertEquals(Set.of("load-holding valve", "piston seal"), path(Cases.of("load-holding valve", "")));
    }

    @Test
    void behindPilotChecksOnBothSidesOnlySealAndCheckAreLeft() throws IOException {
        assertEquals(Set.of("pilot check A", "piston seal"), path(Cases.of("pilot-check clamp", "")));
    }

    @Test
    void portsOpenToTankBearNoPressureAndAreNoSuspects() throws IOException {
        CaseFile file = Cases.read(Cases.text("load-holding valve", OPEN, ""));
        assertEquals(
                Set.of("load-holding valve", "piston seal", "rod seal"),
                names(file.circuit().elements()));
    }

    @Test
    void theFunctionsOfABankShareNothingButTank() throws IOException {
        String two = Cases.FUNCTION + " }, { " + Cases.FUNCTION.replace("\"lift\"", "\"tilt\"");
        CaseFile file = Cases.read(Cases.text("valve bank", two, ""));
        assertEquals(20, file.circuit().elements().size());
        assertTrue(
                path(file).stream().allMatch(name -> name.startsWith("lift ")),
                path(file).toString());
    }

    /** A way from pressed to low by going through every chain of elements, held against the graph library's answer. */
    @Test
    void whatATestImplicatesIsWhatAWalkThroughTheCircuitFinds() throws IOException {
        String two = Cases.FUNCTION + " }, { " + Cases.FUNCTION.replace("\"lift\"", "\"tilt\"");
        for (Circuit circuit : List.of(
                Cases.of("single cylinder", "").circuit(),
                Cases.of("load-holding valve", "").circuit(),
                Cases.of("pilot-check clamp", "").circuit(),
                Cases.read(Cases.text("load-holding valve", OPEN, "")).circuit(),
                Cases.read(Cases.text("valve bank", two, "")).circuit())) {
            for (CaseTest test : Planner.arrangements(circuit)) {
                Reach reach = Reach.of(circuit, test);
                Set<String> walked = new TreeSet<>();
                walk(circuit, test, test.pressurised(), new HashSet<>(), List.of(), walked);
                Set<String> all = names(reach.direct());
                all.addAll(names(reach.together()));
                assertEquals(walked, all, test.name());
                assertTrue(reach.undeclared().isEmpty(), test.name());
            }
        }
    }

    private static void walk(
            Circuit circuit, CaseTest test, String at, Set<String> been, List<Element> through, Set<String> found) {
        Set<String> high = new HashSet<>(test.joined());
        high.add(test.pressurised());
        been.add(at);
        for (Element element : circuit.elements()) {
            boolean here = element.from().equals(at) || element.to().equals(at);
            if (!here || test.blanked().contains(element.name()) || through.contains(element)) {
                continue;
            }
            String other = element.from().equals(at) ? element.to() : element.from();
            boolean inside = high.contains(at) && high.contains(other);
            if (element.isLine()) {
                if (inside) {
                    found.add(element.name()); // a line full of pressed oil may weep
                    if (!been.contains(other)) {
                        walk(circuit, test, other, new HashSet<>(been), through, found);
                    }
                }
            } else if (inside) {
                if (!been.contains(other)) {
                    walk(circuit, test, other, new HashSet<>(been), through, found);
                }
            } else if (Node.isLow(other) || test.open().contains(other)) {
                found.add(element.name());
                names(through).forEach(found::add);
            } else if (!been.contains(other)) {
                List<Element> longer = new java.util.ArrayList<>(through);
                longer.add(element);
                walk(circuit, test, other, new HashSet<>(been), longer, found);
            }
        }
    }
}
