package org.holdtrace.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.leak.Law;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** What a result means, for somebody who has never heard of a hold test. */
final class CustomerWords {
    /** Below this weight a law is little better than a guess. */
    private static final double LAW_TOLD = 0.6;
    /** From this weight on another law would be a surprise. */
    private static final double LAW_SURE = 0.9;

    private CustomerWords() {}

    /** Two or three words for a whole test, in capitals. */
    static String verdict(HoldTestResult result) {
        if (result.leak().isEmpty()) {
            return "NO RESULT";
        }
        if (result.verdict().isEmpty()) {
            return "MEASURED, NO LIMIT GIVEN";
        }
        return switch (result.verdict().get().outcome()) {
            case WITHIN_LIMIT -> "WITHIN THE LIMIT";
            case OVER_LIMIT -> "OVER THE LIMIT";
            case UNDECIDED -> "UNDECIDED";
        };
    }

    /** The same in a column of a table. */
    static String inTable(HoldTestResult result) {
        return result.leak().isPresent() && result.verdict().isEmpty()
                ? "not judged"
                : verdict(result).toLowerCase(Locale.ROOT);
    }

    /** The style a verdict is set in. */
    static String style(HoldTestResult result) {
        if (result.verdict().isEmpty()) {
            return "open";
        }
        return switch (result.verdict().get().outcome()) {
            case WITHIN_LIMIT -> "within";
            case OVER_LIMIT -> "over";
            case UNDECIDED -> "undecided";
        };
    }

    /** The leak in one line, interval included. */
    static String leak(HoldTestResult.Leak leak, ShownUnits units) {
        String at = " at " + Phrases.pressure(leak.atPa(), units);
        return leak.law() == Law.NONE
                ? "No leak to be seen" + at + ": none above " + Phrases.bound(leak.upper95(), 2, units) + " (95 %)"
                : "Leak " + Phrases.rate(leak, units) + at + " (95 % interval "
                        + Phrases.interval(leak.lower95(), leak.upper95(), units) + ")";
    }

    /** What it means, a sentence each. */
    static List<String> meaning(HoldTestResult result, ShownUnits units) {
        List<String> said = new ArrayList<>();
        if (result.leak().isEmpty()) {
            said.add("Neither the pressure held after pumping nor pumping at a standing pressure could be used, so this"
                    + " test says nothing of the leak, neither good nor bad.");
            return said;
        }
        HoldTestResult.Leak leak = result.leak().get();
        if (result.verdict().isPresent()) {
            said.add(compared(leak, result.verdict().get(), units));
        } else {
            said.add("No limit was stated for this component, so the leak is reported and not judged.");
        }
        if (leak.law() == Law.NONE) {
            said.add("Nothing in the recording can be told from no leak at all. The smallest leak this test could have"
                    + " shown is " + Phrases.bound(leak.smallestResolvableM3PerS(), 2, units) + ".");
        } else if (leak.weights().getOrDefault(leak.law(), 0.0) < LAW_TOLD) {
            said.add("How the leak grows with pressure, and so what kind of wear is behind it, cannot be told from this"
                    + " test.");
        } else {
            boolean sure = leak.weights().getOrDefault(leak.law(), 0.0) >= LAW_SURE;
            said.add((sure ? "It " : "Most likely it ") + law(leak.law()));
        }
        return said;
    }

    private static String compared(HoldTestResult.Leak leak, HoldTestResult.Verdict verdict, ShownUnits units) {
        String limit = Phrases.bound(verdict.limitM3PerS(), 4, units);
        if (verdict.withheld().isPresent()) {
            return "Whether the leak is over the limit of " + limit + " or within it is left open: "
                    + verdict.withheld().get() + ".";
        }
        String chance = " The probability that the true leak is over the limit is "
                + Figures.percent(verdict.probabilityOver()) + ".";
        return switch (verdict.outcome()) {
            case OVER_LIMIT -> "More oil leaks through this component than the limit of " + limit + " allows." + chance;
            case WITHIN_LIMIT ->
                (leak.law() == Law.NONE ? "Any leak there may be is" : "What leaks through this component is")
                        + " less than the limit of " + limit + " allows." + chance;
            case UNDECIDED ->
                "This test cannot tell whether the leak is over the limit of " + limit
                        + " or within it: the interval reaches across." + chance
                        + " A longer hold, or better known inputs, may decide.";
        };
    }

    private static String law(Law law) {
        return switch (law) {
            case LAMINAR ->
                "grows in proportion to pressure, as oil does through a clearance: between a spool and its bore, or past"
                        + " a piston.";
            case ORIFICE ->
                "grows with the square root of pressure, as through a small opening: usually a damaged seat.";
            case MIXED -> "behaves as a clearance and a damaged seat at once.";
            case THRESHOLD -> "begins only above a certain pressure, as of a valve that opens too early.";
            case NONE -> "";
        };
    }

    /** Outcomes counted, worst first: "2 over the limit, 1 undecided, 5 within the limit". */
    static String counted(List<Report.Test> tests) {
        List<String> parts = new ArrayList<>();
        count(tests, Outcome.OVER_LIMIT, "over the limit", parts);
        count(tests, Outcome.UNDECIDED, "undecided", parts);
        count(tests, Outcome.WITHIN_LIMIT, "within the limit", parts);
        long open = tests.stream().filter(t -> t.result().verdict().isEmpty()).count();
        if (open > 0) {
            parts.add(open + " not judged");
        }
        return tests.size() + " hold tests: " + String.join(", ", parts);
    }

    private static void count(List<Report.Test> tests, Outcome outcome, String words, List<String> parts) {
        long n = tests.stream()
                .filter(t -> t.result().verdict().isPresent()
                        && t.result().verdict().get().outcome() == outcome)
                .count();
        if (n > 0) {
            parts.add(n + " " + words);
        }
    }
}
