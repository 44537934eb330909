package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.leak.Law;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** Findings in words that a technician and a customer understand. */
final class CaseWords {
    /** From this probability on something is said to be so. */
    private static final double SURE = 0.975;

    /** Probability of being over its limit from which on a part that is cleared is named with it. */
    static final double DOUBT_WORTH_TELLING = 0.001;

    private CaseWords() {}

    /** {@code bare} with its summary and cautions. */
    static CaseFindings with(
            CaseFindings bare, ShownUnits units, List<String> notWeighed, List<List<String>> strained) {
        return new CaseFindings(
                bare.caseFile(),
                bare.standing(),
                summary(bare, units),
                bare.elements(),
                bare.combinations(),
                bare.probabilityNoneOver(),
                bare.probabilityClearedOver(),
                bare.tests(),
                bare.contradictions(),
                bare.drift(),
                bare.next(),
                bare.notTested(),
                cautions(bare, units, notWeighed, strained));
    }

    private static List<String> with(CaseFindings found, Status status) {
        return found.elements().stream()
                .filter(element -> element.status() == status)
                .map(element -> element.element().name())
                .toList();
    }

    private static List<String> summary(CaseFindings found, ShownUnits units) {
        List<String> said = new ArrayList<>();
        List<String> over = with(found, Status.OVER);
        List<String> undecided = with(found, Status.UNDECIDED);
        List<String> cleared = with(found, Status.CLEARED);
        List<String> lookedAt = new ArrayList<>(cleared);
        lookedAt.removeAll(inTests(found));
        List<String> tested = new ArrayList<>(cleared);
        tested.removeAll(lookedAt);
        if (found.tests().isEmpty()) {
            said.add("Nothing is tested yet.");
        } else if (over.isEmpty() && found.probabilityNoneOver() <= 1 - SURE) {
            said.add("At least one part leaks more than it may; most probably it is " + likeliest(found) + ".");
        } else if (over.isEmpty()) {
            said.add("No part is shown to leak more than it may.");
        } else if (over.size() == 1) {
            said.add("One part leaks more than it may: " + over.get(0) + ".");
        } else {
            said.add(over.size() + " parts leak more than they may: " + PlanWords.and(over) + ".");
        }
        if (!undecided.isEmpty()) {
            said.add("Tested and not yet decided: " + PlanWords.and(undecided) + ".");
        }
        if (!tested.isEmpty()) {
            said.add("Tested and in order: " + PlanWords.and(tested) + ".");
            said.add("The chance that " + (tested.size() == 1 ? "it" : "one of these")
                    + " leaks more than it may all the same is " + atMost(found.probabilityClearedOver()) + ".");
        }
        if (!lookedAt.isEmpty()) {
            said.add("Looked at, not tested, and dry: " + PlanWords.and(lookedAt) + ".");
        }
        if (!found.notTested().isEmpty()) {
            said.add("Not tested, and so not cleared: " + PlanWords.and(found.notTested()) + ".");
        }
        found.drift()
                .ifPresent(drift -> said.add("The leak found at the loaded side "
                        + switch (drift.outcome()) {
                            case EXPLAINS -> "explains the drift complained of.";
                            case EXPLAINS_PART -> "explains a part of the drift complained of, not all of it.";
                            case CANNOT_EXPLAIN -> "cannot explain the drift complained of.";
                        }));
        said.add(standing(found));
        if (found.standing() == Standing.OPEN && found.next().isEmpty()) {
            said.addAll(LeftOpen.settledBy(found, units));
        }
        return said;
    }

    private static String atMost(double probability) {
        return (probability < DOUBT_WORTH_TELLING ? "" : "at most ") + Figures.percent(probability);
    }

    /** The two most probable elements with their probabilities. */
    private static String likeliest(CaseFindings found) {
        return found.elements().stream()
                .sorted(Comparator.comparingDouble(ElementFinding::probability).reversed())
                .limit(2)
                .map(element -> element.element().name() + " (" + Figures.percent(element.probability()) + ")")
                .collect(Collectors.joining(" or "));
    }

    private static String standing(CaseFindings found) {
        return switch (found.standing()) {
            case DECIDED -> "Every part of the circuit is decided.";
            case OPEN ->
                found.next().isEmpty()
                        ? "The case is open, and no further test of its parts can be made."
                        : "The case is open: the next test worth doing is to "
                                + found.next().get(0).test().name() + ".";
            case STOPPED ->
                "Testing was stopped ("
                        + found.caseFile().stopped().orElseThrow()
                        + ") although a part that is not decided could still be worn.";
        };
    }

    private static List<String> cautions(
            CaseFindings found, ShownUnits units, List<String> notWeighed, List<List<String>> strained) {
        List<String> cautions = new ArrayList<>();
        found.contradictions().forEach(contradiction -> cautions.add(contradiction.said()));
        strained.forEach(
                tests -> cautions.add(
                        PlanWords.and(quoted(tests))
                                + " cannot be right as they stand: whatever the parts in them leak does not add up to what they gave."
                                + " Something differed that the case does not say. Repeat them; until then their intervals are widened."));
        doubtLeft(found).ifPresent(cautions::add);
        List<String> resting = found.elements().stream()
                .filter(element -> element.restsOnPriors() && element.status() != Status.NOT_TESTED)
                .map(element -> element.element().name())
                .toList();
        if (!resting.isEmpty()) {
            cautions.add("What is said of " + PlanWords.and(resting)
                    + " rests on how often such parts fail, not on these tests alone: with other priors it would read"
                    + " otherwise.");
        }
        for (CaseFindings.TestFinding test : found.tests()) {
            String name = "\"" + test.measured().test().name() + "\"";
            test.measured().uncounted().ifPresent(why -> cautions.add(name + " counts for nothing: " + why + "."));
            if (!test.reach().together().isEmpty()) {
                cautions.add(name + " says nothing of "
                        + PlanWords.names(test.reach().together())
                        + ": they leak only one through another, across a node that was shut.");
            }
            if (test.reach().direct().isEmpty()) {
                cautions.add(name + " implicates no part of the circuit: nothing lies between what it pressed and low"
                        + " pressure.");
            }
        }
        notWeighed.forEach(
                name -> cautions.add("\"" + name + "\" is not weighed: it has too many parts in it, or overlaps"
                        + " with the other tests in too many ways, for all to be reckoned with together. What it showed"
                        + " stands above."));
        reliefs(found, cautions, units);
        List<String> uncarried = found.elements().stream()
                .map(ElementFinding::element)
                .filter(element -> CarriedLimits.isWithoutItsTemperature(element, found.caseFile()))
                .map(Element::name)
                .toList();
        if (!uncarried.isEmpty()) {
            cautions.add("The limit of " + PlanWords.and(uncarried)
                    + " is stated at an oil temperature, and is not carried to"
                    + " that of the tests: for this the case needs \"oilGrade\" and \"referenceTemperature\".");
        }
        for (ElementFinding element : found.elements()) {
            Limit.Basis basis = element.element().limit().basis();
            if (basis == Limit.Basis.STANDARD_FROM_MEMORY) {
                cautions.add("The limit of " + element.element().name() + " comes from memory: look it up.");
            }
        }
        if (found.standing() == Standing.STOPPED
                || (found.standing() == Standing.OPEN
                        && !with(found, Status.OVER).isEmpty())) {
            cautions.add("A second worn part found after the repair costs more than the tests still open.");
        }
        return cautions;
    }

    private static List<String> quoted(List<String> names) {
        return names.stream().map(name -> "\"" + name + "\"").toList();
    }

    /** Names of elements whose leaks some test measured. */
    private static Set<String> inTests(CaseFindings found) {
        Set<String> names = new HashSet<>();
        found.tests().stream()
                .filter(test -> test.measured().leak().isPresent())
                .forEach(test -> test.reach().direct().forEach(element -> names.add(element.name())));
        return names;
    }

    /** Names the parts that are tested and cleared and yet could be over their limits once in a thousand cases. */
    private static Optional<String> doubtLeft(CaseFindings found) {
        Set<String> tested = inTests(found);
        List<String> doubted = found.elements().stream()
                .filter(element -> element.status() == Status.CLEARED && element.highest() >= DOUBT_WORTH_TELLING)
                .filter(element ->
                        tested.contains(element.element().name())) // of those only looked at it is said anyway
                .map(element -> element.element().name() + " (" + Figures.percent(element.highest()) + ")")
                .toList();
        return doubted.isEmpty()
                ? Optional.empty()
                : Optional.of("Cleared, and yet with some doubt left, at most: " + PlanWords.and(doubted) + ".");
    }

    private static void reliefs(CaseFindings found, List<String> cautions, ShownUnits units) {
        CaseFile file = found.caseFile();
        double load = file.complaint()
                .loadPressurePa()
                .map(pressure -> pressure.value())
                .orElse(0.0);
        for (ElementFinding element : found.elements()) {
            double highest = Math.max(file.referencePa(), element.onPath() ? load : 0);
            if (element.element().settingPa().isPresent()
                    && element.element().settingPa().getAsDouble() < highest) {
                cautions.add(element.element().name() + " is set to "
                        + Phrases.pressure(element.element().settingPa().getAsDouble(), units)
                        + ", below the " + Phrases.pressure(highest, units)
                        + (highest == load ? " of the load" : " its leak is stated at")
                        + ": there it opens as it should, and what it lets through is no wear. Check the setting.");
            }
            boolean cleared = element.status() == Status.CLEARED
                    && element.element().settingPa().isPresent();
            if (cleared && load > file.referencePa() * 1.001) {
                cautions.add(element.element().name() + " is cleared at " + Phrases.pressure(file.referencePa(), units)
                        + "; whether it opens too early between that and the load's " + Phrases.pressure(load, units)
                        + " was not tested.");
            }
        }
    }

    /** What one test showed. {@code now}: the elements that it was the first to clear. */
    static List<String> of(MeasuredTest test, Reach reach, List<String> now, ShownUnits units) {
        List<String> said = new ArrayList<>();
        if (test.uncounted().isPresent()) {
            return List.of("Counts for nothing: " + test.uncounted().get() + ".");
        }
        HoldTestResult.Leak leak = test.leak().get();
        String through = reach.direct().isEmpty() ? "" : " through " + PlanWords.names(reach.direct());
        String together = reach.direct().size() > 1 ? " together" : "";
        said.add(
                leak.law() == Law.NONE
                        ? "No leak that can be told from zero" + through + together + "; above "
                                + Phrases.bound(leak.upper95(), 2, units) + " at "
                                + Phrases.pressure(leak.atPa(), units) + " is excluded."
                        : Phrases.rate(leak, units) + " at " + Phrases.pressure(leak.atPa(), units) + " ("
                                + Phrases.interval(leak.lower95(), leak.upper95(), units) + ")" + through + together
                                + "; law: "
                                + Phrases.law(leak.law()) + ".");
        if (!now.isEmpty()) {
            said.add("Clears " + PlanWords.and(now) + ".");
        }
        return said;
    }
}
