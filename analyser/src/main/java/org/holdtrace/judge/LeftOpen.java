package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** What settles the parts of a case that is open although no further test of it can be proposed. */
final class LeftOpen {
    private LeftOpen() {}

    /** A sentence for each way, with the parts it settles. */
    static List<String> settledBy(CaseFindings found, ShownUnits units) {
        List<ElementFinding> open = found.elements().stream()
                .filter(part -> part.status() == Status.UNDECIDED || part.status() == Status.NOT_TESTED)
                .toList();
        List<String> hoses = new ArrayList<>();
        Map<String, List<String>> hidden = new LinkedHashMap<>();
        Map<List<List<Element>>, List<String>> alike = new LinkedHashMap<>();
        double hoseLimit = 0;
        for (ElementFinding part : open) {
            String name = part.element().name();
            List<List<Element>> tests = testsOf(part.element(), found);
            Optional<String> behind = behind(tests, found);
            if (part.element().isLine()) {
                hoses.add(name);
                hoseLimit = Math.max(hoseLimit, part.limitM3PerS());
            } else if (behind.isPresent()) {
                hidden.computeIfAbsent(behind.get(), key -> new ArrayList<>()).add(name);
            } else {
                alike.computeIfAbsent(tests, key -> new ArrayList<>()).add(name);
            }
        }
        List<String> said = new ArrayList<>();
        if (!hoses.isEmpty()) {
            said.add("No test of the circuit presses a hose alone: take " + PlanWords.and(hoses)
                    + " off, plug the far end and press it alone, as in a line check; change it where it loses more than "
                    + Phrases.bound(hoseLimit, 2, units) + ".");
        }
        hidden.forEach((over, names) -> said.add("The leak of " + over + " is in every test of " + PlanWords.and(names)
                + " and may hide theirs: put " + over + " right first, then repeat those tests."));
        alike.values()
                .forEach(
                        names -> said.add(
                                names.size() > 1
                                        ? PlanWords.and(names)
                                                + " were in the same tests, and no test that is left tells one from"
                                                + " the other: change one of them for one known to be sound and repeat the test."
                                        : names.get(0)
                                                + " leaks about what it may, or too little beside the others in its tests to"
                                                + " tell: hold longer, or change it for one known to be sound and repeat the test."));
        return said;
    }

    /** The elements of each test of {@code part}. */
    private static List<List<Element>> testsOf(Element part, CaseFindings found) {
        return found.tests().stream()
                .filter(test -> test.measured().leak().isPresent())
                .map(test -> test.reach().direct())
                .filter(direct -> direct.contains(part))
                .toList();
    }

    /** The part called over its limit that was in every one of {@code tests}. */
    private static Optional<String> behind(List<List<Element>> tests, CaseFindings found) {
        return found.elements().stream()
                .filter(other -> other.status() == Status.OVER)
                .map(ElementFinding::element)
                .filter(other -> !tests.isEmpty() && tests.stream().allMatch(direct -> direct.contains(other)))
                .map(Element::name)
                .findFirst();
    }
}
