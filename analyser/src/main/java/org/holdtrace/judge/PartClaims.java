package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Status;

/** From how probable it is for each part to be over its limit, by the priors of the case and by others, to what is said of it. */
final class PartClaims {
    /** From this probability on something is said to be so. */
    private static final double SURE = 0.975;

    /** By how much the odds of all priors are multiplied and divided to see whether a finding hangs on them. */
    private static final double OTHER_ODDS = 4;

    /** The one prior of all elements in the third look. */
    private static final double ALL_ALIKE = 0.05;

    private final CaseFile file;
    private final Map<String, Double> limits;
    private final List<Element> path;

    /**
     * @param limits limit of each element where the case states its leaks, by name, m³/s
     * @param path elements that can explain the complaint
     */
    PartClaims(CaseFile file, Map<String, Double> limits, List<Element> path) {
        this.file = file;
        this.limits = limits;
        this.path = path;
    }

    /**
     * What is said of every element.
     *
     * @param clearedOver the largest probability, with other priors too, that one of those tested and cleared is over its limit
     */
    record Claims(List<ElementFinding> elements, double clearedOver) {}

    /**
     * What is said of every element. That those tested and cleared are in order is one claim, and as sure as any other: while
     * one of them is over its limit with more than 2.5 %, with other priors too, the most doubtful is not cleared.
     */
    Claims of(Beliefs before, Beliefs now, Set<Element> tested) {
        List<ElementFinding> all = new ArrayList<>();
        file.circuit().elements().forEach(element -> all.add(finding(element, before, now, tested)));
        List<ElementFinding> cleared = new ArrayList<>();
        all.stream()
                .filter(found -> found.status() == Status.CLEARED && tested.contains(found.element()))
                .sorted(Comparator.comparingDouble(ElementFinding::highest))
                .forEach(cleared::add);
        double over = oneIsOver(cleared, now);
        while (!cleared.isEmpty() && over > 1 - SURE) {
            ElementFinding doubtful = cleared.remove(cleared.size() - 1);
            all.set(all.indexOf(doubtful), doubtful.undecided());
            over = oneIsOver(cleared, now);
        }
        return new Claims(all, over);
    }

    /** The largest probability, by these and by other priors, that one of {@code cleared} is over its limit. */
    private double oneIsOver(List<ElementFinding> cleared, Beliefs now) {
        List<String> names =
                cleared.stream().map(found -> found.element().name()).toList();
        double largest = 1 - now.probabilityAllSound(names);
        for (Map<String, Double> priors : otherPriors()) {
            largest = Math.max(largest, 1 - now.withPriors(priors).probabilityAllSound(names));
        }
        return Math.max(0, largest);
    }

    private ElementFinding finding(Element element, Beliefs before, Beliefs now, Set<Element> tested) {
        String name = element.name();
        boolean reached = element.seen().isPresent() || tested.contains(element);
        double probability = now.probabilityOver(name);
        double lowest = probability;
        double highest = probability;
        for (Map<String, Double> priors : otherPriors()) {
            double other = now.withPriors(priors).probabilityOver(name);
            lowest = Math.min(lowest, other);
            highest = Math.max(highest, other);
        }
        Status status = status(probability, reached);
        boolean rests = status(lowest, reached) != status || status(highest, reached) != status;
        if (status == Status.CLEARED && rests) {
            status = Status.UNDECIDED; // a part is cleared by what was measured or seen, not by how seldom it fails
        }
        return new ElementFinding(
                element,
                limits.get(name),
                before.probabilityOver(name),
                probability,
                lowest,
                highest,
                status,
                rests,
                path.contains(element));
    }

    private static Status status(double probability, boolean reached) {
        if (!reached) {
            return Status.NOT_TESTED;
        }
        return probability >= SURE ? Status.OVER : probability <= 1 - SURE ? Status.CLEARED : Status.UNDECIDED;
    }

    private List<Map<String, Double>> otherPriors() {
        return List.of(
                priors(prior -> odds(prior, 1 / OTHER_ODDS)),
                priors(prior -> odds(prior, OTHER_ODDS)),
                priors(prior -> ALL_ALIKE));
    }

    private Map<String, Double> priors(DoubleUnaryOperator change) {
        Map<String, Double> priors = new HashMap<>();
        file.circuit().elements().forEach(element -> priors.put(element.name(), change.applyAsDouble(element.prior())));
        return priors;
    }

    private static double odds(double prior, double factor) {
        return factor * prior / (1 - prior + factor * prior);
    }
}
