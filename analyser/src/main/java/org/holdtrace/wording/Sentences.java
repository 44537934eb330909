package org.holdtrace.wording;

import static org.holdtrace.wording.Figures.decimalsFor;
import static org.holdtrace.wording.Figures.fixed;
import static org.holdtrace.wording.Figures.significant;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;

/** Parts of a result as whole statements, the same in a terminal and on the desk. */
public final class Sentences {
    /** What is said where there is no leak rate. */
    public static final String NO_RATE = "no rate: neither the hold nor a plateau could be used";

    private Sentences() {}

    /** Leak rate, pressure and interval: "8.04 cm³/min at 120 bar (95 % interval 7.31 to 8.79)". */
    public static String leak(HoldTestResult.Leak leak, ShownUnits units) {
        String at = " at " + Phrases.pressure(leak.atPa(), units);
        return leak.law() == Law.NONE
                ? Phrases.rate(leak, units) + at + "; above " + Phrases.bound(leak.upper95(), 2, units)
                        + " can be excluded (95 %)"
                : Phrases.rate(leak, units) + at + " (95 % interval "
                        + Phrases.interval(leak.lower95(), leak.upper95(), units) + ")";
    }

    /** What was asked for beyond the setup; empty where nothing was. */
    public static String asked(EstimateOptions asked, ShownUnits units) {
        List<String> conditions = new ArrayList<>();
        asked.atPa().ifPresent(pa -> conditions.add(Phrases.pressure(pa, units)));
        asked.atTemperatureK()
                .ifPresent(kelvins -> conditions.add("oil at "
                        + significant(units.temperature().fromSi(kelvins), 3) + " "
                        + ShownUnits.name(units.temperature())));
        return (conditions.isEmpty() ? "" : "As asked, leaks are stated at " + String.join(", ", conditions) + ".")
                + (conditions.isEmpty() || asked.lineCheck().isEmpty() ? "" : " ")
                + (asked.lineCheck().isEmpty() ? "" : "The leak and compliance of a line check are taken off.");
    }

    /** The law, its weight, and the others that are possible as well; where no leak can be told, that none can be named. */
    public static String law(HoldTestResult.Leak leak) {
        if (leak.law() == Law.NONE) {
            return "none can be named, since no leak can be told from zero";
        }
        List<String> others = new ArrayList<>();
        for (Law law : Law.values()) {
            double weight = leak.weights().getOrDefault(law, 0.0);
            if (law != leak.law() && weight >= 0.05) {
                others.add(law.label() + " " + fixed(weight, 2));
            }
        }
        return Phrases.law(leak.law()) + ", weight " + fixed(leak.weights().getOrDefault(leak.law(), 0.0), 2)
                + (others.isEmpty() ? "" : " (also possible: " + String.join(", ", others) + ")");
    }

    /** The smallest leak the test could have told from zero. */
    public static String resolvable(HoldTestResult.Leak leak, ShownUnits units) {
        return Phrases.bound(leak.smallestResolvableM3PerS(), 2, units)
                + " is the smallest leak this test could have told from zero";
    }

    /** Outcome, limit and probability, and what to do where it is undecided. */
    public static String verdict(HoldTestResult.Verdict verdict, ShownUnits units) {
        return Phrases.outcome(verdict, units) + "; " + reason(verdict)
                + (verdict.outcome() == HoldTestResult.Outcome.UNDECIDED
                                && verdict.withheld().isEmpty()
                        ? "; a longer hold or better known inputs may decide"
                        : "");
    }

    /** What the outcome rests on: the probability of being over the limit, or why no verdict is given. */
    public static String reason(HoldTestResult.Verdict verdict) {
        return verdict.withheld().isPresent()
                ? verdict.withheld().get()
                : "probability of being over it " + Figures.percent(verdict.probabilityOver());
    }

    /** Whether the routes agree, and the figure that tells. */
    public static String agreement(Optional<HoldTestResult.Agreement> agreement) {
        if (agreement.isEmpty()) {
            return "nothing to compare it with";
        }
        int degrees = agreement.get().degreesOfFreedom();
        return (agreement.get().agree() ? "they agree" : "they DISAGREE") + " (chi-square "
                + significant(agreement.get().chiSquare(), 2) + " with " + degrees
                + (degrees == 1 ? " degree of freedom)" : " degrees of freedom)");
    }

    /** The compliance, its interval and what it rests on. */
    public static String compliance(HoldTestResult.Compliance c, ShownUnits units) {
        double lower = units.compliance().fromSi(c.lower95());
        double upper = units.compliance().fromSi(c.upper95());
        int decimals = decimalsFor(lower, upper);
        return fixed(units.compliance().fromSi(c.m3PerPa()), decimals) + " " + ShownUnits.name(units.compliance())
                + " (" + fixed(lower, decimals) + " to " + fixed(upper, decimals) + ") from "
                + (c.from().isEmpty() ? "what is usual" : String.join(", ", c.from()));
    }
}
