package org.holdtrace.report;

import java.util.List;
import java.util.Locale;
import org.holdtrace.judge.Beliefs;
import org.holdtrace.judge.CaseFile;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.judge.CaseSentences;
import org.holdtrace.judge.PlannedTest;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.SafetyText;
import org.holdtrace.wording.ShownUnits;

/** What a report says of a case as a whole: complaint, decision, every part, drift, what is still to be tested. */
final class CaseSection {
    /** A combination less probable than this is not worth a line. */
    private static final double WORTH_A_LINE = 0.005;

    private final CaseFindings findings;
    private final ShownUnits units;
    private final Markup page;

    CaseSection(CaseFindings findings, ShownUnits units, Markup page) {
        this.findings = findings;
        this.units = units;
        this.page = page;
    }

    /** Complaint and decision. */
    void decision() {
        CaseFile file = findings.caseFile();
        page.open("table", "class", "what").open("tbody");
        page.row("Machine", file.machine());
        page.row("Complaint", CaseSentences.complaint(file, units));
        page.row("Circuit", file.circuit().title());
        page.close().close();
        page.open("div", "class", "box " + style());
        page.element("p", verdict(), "class", "verdict");
        findings.summary().forEach(sentence -> page.element("p", sentence));
        page.close();
        parts();
    }

    private String style() {
        boolean over = findings.elements().stream().anyMatch(element -> element.status() == Status.OVER);
        return over ? "over" : findings.standing() == Standing.DECIDED ? "within" : "undecided";
    }

    private String verdict() {
        List<String> over = findings.elements().stream()
                .filter(element -> element.status() == Status.OVER)
                .map(element -> element.element().name())
                .toList();
        String found = over.isEmpty()
                ? "NO PART FOUND OVER ITS LIMIT"
                : String.join(", ", over).toUpperCase(Locale.ROOT) + " OVER "
                        + (over.size() == 1 ? "ITS LIMIT" : "LIMIT");
        return switch (findings.standing()) {
            case DECIDED -> found;
            case OPEN -> found + "; NOT ALL IS TESTED";
            case STOPPED -> found + "; STOPPED BEFORE ALL WAS TESTED";
        };
    }

    private void parts() {
        page.element("h3", "Every part of the circuit");
        page.open("table", "class", "summary parts");
        String flow = " [" + ShownUnits.name(units.flow()) + "]";
        page.head("Part", "Limit" + flow, "Over its limit", "If parts fail more or less often", "State");
        page.open("tbody");
        for (ElementFinding found : findings.elements()) {
            page.open("tr").element("th", found.element().name(), "scope", "row");
            page.element("td", Values.figure(found.limitM3PerS(), units.flow()));
            page.element("td", Figures.percent(found.probability()));
            page.element("td", CaseSentences.otherPriors(found));
            page.element("td", found.status().label(), "class", found.status() == Status.OVER ? "over" : "");
            page.close();
        }
        page.close().close();
    }

    /** What led to the decision, and what is left. */
    void reasons() {
        page.open("div", "class", "section");
        page.element("h2", "How the decision came about");
        page.element("h3", "Tests, in order");
        page.open("table", "class", "block").open("tbody");
        for (CaseFindings.TestFinding test : findings.tests()) {
            page.row(test.measured().test().name(), String.join(" ", test.said()));
        }
        page.close().close();
        page.element("h3", "Which parts are over their limits, all others within");
        page.open("table", "class", "block").open("tbody");
        for (Beliefs.Combination combination : findings.combinations()) {
            if (combination.probability() >= WORTH_A_LINE) {
                page.row(
                        Figures.percent(combination.probability()),
                        combination.over().isEmpty() ? "none" : String.join(", ", combination.over()));
            }
        }
        page.close().close();
        findings.drift().ifPresent(drift -> {
            page.element("h3", "Does the leak explain the drift?");
            drift.said().forEach(sentence -> page.element("p", sentence));
        });
        list("Cautions of the judgement", findings.cautions());
        page.element("h3", "Where the limits come from");
        page.open("table", "class", "block").open("tbody");
        CaseSentences.limits(findings, units)
                .forEach(limit -> page.row(limit.stated(), limit.source() + ": " + limit.of()));
        page.close().close();
        page.close();
        plan();
    }

    private void plan() {
        if (findings.next().isEmpty()) {
            return;
        }
        PlannedTest next = findings.next().get(0);
        page.open("div", "class", "section");
        page.element("h2", "What to test next");
        page.element(
                "p",
                "The case is open. The test worth most for its minutes: "
                        + next.test().name() + ".");
        list(
                "How it is set up",
                CaseSentences.arrangement(next.test(), findings.caseFile().circuit()));
        page.element("p", CaseSentences.sizes(next, units) + " " + CaseSentences.effort(next));
        list("Mind with this test", next.cautions());
        page.element("p", SafetyText.SHORT, "class", "safety");
        page.close();
    }

    /** Parts nobody tested, for the list of what was not tested; empty where there are none. */
    String notTested() {
        return findings.notTested().isEmpty()
                ? ""
                : "Of this circuit: " + String.join(", ", findings.notTested())
                        + ". Nothing here says that they are in order.";
    }

    /** What was looked at for leaks to the outside, as a sentence. */
    String lookedAt() {
        List<String> seen = findings.elements().stream()
                .filter(found -> found.element().seen().isPresent())
                .map(found -> found.element().name() + " ("
                        + found.element().seen().get().label() + ")")
                .toList();
        return "Leaks to the outside: "
                + (seen.isEmpty()
                        ? "the case does not say that anything was looked at."
                        : "looked at were, as the case states, " + String.join(", ", seen) + "; nothing else.");
    }

    private void list(String heading, List<String> items) {
        if (items.isEmpty()) {
            return;
        }
        page.element("h3", heading);
        page.open("ul");
        items.forEach(item -> page.element("li", item));
        page.close();
    }
}
