package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdtrace.wording.Figures;

/** What a planned test would tell, in words. */
final class PlanWords {
    private PlanWords() {}

    /** "a, b and c". */
    static String and(List<String> names) {
        int last = names.size() - 1;
        return last <= 0
                ? String.join("", names)
                : String.join(", ", names.subList(0, last)) + " and " + names.get(last);
    }

    static String names(List<Element> elements) {
        return and(elements.stream().map(Element::name).collect(Collectors.toList()));
    }

    static String ifHolds(Reach reach, Sight sight) {
        List<String> said = new ArrayList<>();
        List<Element> hidden = new ArrayList<>(reach.direct());
        hidden.removeAll(sight.judged());
        if (!sight.seen().isEmpty()) {
            said.add("clears " + names(sight.seen()));
        }
        List<Element> apart = new ArrayList<>(sight.byDifference());
        apart.removeAll(sight.seen());
        if (!apart.isEmpty()) {
            said.add("its difference from an earlier test tells what " + names(apart)
                    + (apart.size() == 1 ? " leaks" : " leak"));
        }
        if (!hidden.isEmpty()) {
            said.add("says little of " + names(hidden) + ", hidden behind what the others may leak");
        }
        return String.join("; ", said);
    }

    /** The elements it then is, most probable first. */
    static String ifLeaks(Reach reach, Beliefs beliefs) {
        double pass = beliefs.probabilityAllSound(
                reach.direct().stream().map(Element::name).toList());
        if (reach.direct().size() == 1) {
            return "it is " + reach.direct().get(0).name();
        }
        Map<String, Double> then = reach.direct().stream()
                .collect(Collectors.toMap(
                        Element::name,
                        element -> Math.min(1, beliefs.probabilityOver(element.name()) / Math.max(1e-12, 1 - pass))));
        return "it is "
                + then.entrySet().stream()
                        .sorted(Map.Entry.<String, Double>comparingByValue(Comparator.reverseOrder())
                                .thenComparing(Map.Entry.comparingByKey()))
                        .limit(3)
                        .map(entry -> entry.getKey() + " (" + Figures.percent(entry.getValue()) + ")")
                        .collect(Collectors.joining(", "))
                + (then.size() > 3 ? " or another of them" : "") + ", before its size and law are looked at";
    }

    static List<String> cautions(Circuit circuit, CaseTest test, Reach reach) {
        List<String> cautions = new ArrayList<>();
        Set<String> high = new HashSet<>(test.joined());
        high.add(test.pressurised());
        for (Cylinder cylinder : circuit.cylinders()) {
            boolean bore = high.contains(cylinder.boreNode());
            if (bore || high.contains(cylinder.rodNode())) {
                cautions.add("The pump moves the rod of " + cylinder.name() + ": have it fully " + (bore ? "out" : "in")
                        + ", against its own stop, and the load secured so that nothing can move, before the first"
                        + " stroke.");
                cautions.add("Never shut " + (bore ? cylinder.rodNode() : cylinder.boreNode())
                        + " during this test: a moving piston "
                        + (bore
                                ? "would multiply the pressure there by "
                                        + Figures.significant(cylinder.boreAreaM2() / cylinder.rodSideAreaM2(), 2)
                                : "would press it too")
                        + ". Leave it open into a container and watch from a distance whether oil comes.");
            }
        }
        if (!test.blanked().isEmpty()) {
            cautions.add("Plug the cavity of " + and(test.blanked())
                    + " with the maker's plug, or put in a valve known to" + " be sound. No home-made plugs.");
        }
        if (!reach.together().isEmpty()) {
            cautions.add("This test clears none of " + names(reach.together())
                    + ": they leak only one through another, across a node that is shut.");
        }
        return cautions;
    }
}
