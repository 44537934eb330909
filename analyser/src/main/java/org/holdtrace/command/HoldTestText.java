package org.holdtrace.command;

import static org.holdtrace.wording.Figures.cm3PerBar;
import static org.holdtrace.wording.Figures.cm3PerMin;
import static org.holdtrace.wording.Figures.decimalsFor;
import static org.holdtrace.wording.Figures.fixed;
import static org.holdtrace.wording.Figures.significant;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;

/** One hold test's result as a block of text. */
final class HoldTestText {
    private static final int BUDGET_LINES = 3;

    private HoldTestText() {}

    /** Writes hold test number {@code index} of {@code session}. */
    static void write(SessionResult session, int index, TextBlock block) {
        HoldTestResult result = session.tests().get(index);
        HoldTest test = result.holdTest();
        String which = session.tests().size() == 1
                ? ""
                : ", hold test " + test.number() + " of " + session.tests().size();
        String what = Phrases.subject(session.setup());
        block.heading(session.input().name() + which + (what.isEmpty() ? "" : ": " + what));
        if (result.leak().isPresent()) {
            leak(result.leak().get(), block);
        } else {
            block.entry("leak", "no rate: neither the hold nor a plateau could be used");
        }
        if (result.verdict().isPresent()) {
            block.entry("verdict", verdict(result.verdict().get()));
        }
        routes(result, block);
        if (result.compliance().isPresent()) {
            block.entry("compliance", compliance(result.compliance().get()));
        }
        block.entry("phases", phases(test));
        budget(result, block);
        for (HoldTestResult.Caution caution : result.cautions()) {
            block.entry("caution", caution.text());
        }
        for (String note : session.notes()) {
            block.entry("note", note);
        }
        if (!session.charts().isEmpty()) {
            block.entry("chart", session.charts().get(index));
        }
    }

    private static void leak(HoldTestResult.Leak leak, TextBlock block) {
        String at = " at " + Phrases.pressure(leak.atPa());
        block.entry(
                "leak",
                leak.law() == Law.NONE
                        ? Phrases.rate(leak) + at + "; above " + significant(cm3PerMin(leak.upper95()), 2)
                                + " cm³/min can be excluded (95 %)"
                        : Phrases.rate(leak) + at + " (95 % interval "
                                + Phrases.interval(leak.lower95(), leak.upper95()) + ")");
        block.entry(
                "law",
                Phrases.law(leak.law()) + ", weight " + fixed(leak.weights().getOrDefault(leak.law(), 0.0), 2)
                        + others(leak));
        block.entry(
                "resolvable",
                significant(cm3PerMin(leak.smallestResolvableM3PerS()), 2)
                        + " cm³/min is the smallest leak this test could have told from zero");
    }

    private static String others(HoldTestResult.Leak leak) {
        List<String> others = new ArrayList<>();
        for (Law law : Law.values()) {
            double weight = leak.weights().getOrDefault(law, 0.0);
            if (law != leak.law() && weight >= 0.05) {
                others.add(law.label() + " " + fixed(weight, 2));
            }
        }
        return others.isEmpty() ? "" : " (also possible: " + String.join(", ", others) + ")";
    }

    private static String verdict(HoldTestResult.Verdict verdict) {
        return Phrases.outcome(verdict) + "; probability of being over it "
                + Figures.percent(verdict.probabilityOver())
                + (verdict.outcome() == HoldTestResult.Outcome.UNDECIDED
                        ? "; a longer hold or better known inputs may decide"
                        : "");
    }

    private static void routes(HoldTestResult result, TextBlock block) {
        if (result.routes().isEmpty()) {
            return;
        }
        List<String> parts = new ArrayList<>();
        for (HoldTestResult.RouteRate route : result.routes()) {
            parts.add(route.route().label() + " "
                    + unparted(Phrases.rateWithInterval(route.m3PerS(), route.lower95(), route.upper95())));
        }
        block.entry("routes", String.join(", ", parts) + agreement(result.agreement()));
    }

    private static String agreement(Optional<HoldTestResult.Agreement> agreement) {
        if (agreement.isEmpty()) {
            return "; nothing to compare it with";
        }
        int degrees = agreement.get().degreesOfFreedom();
        return (agreement.get().agree() ? "; they agree" : "; they DISAGREE") + " (chi-square "
                + significant(agreement.get().chiSquare(), 2) + " with " + degrees
                + (degrees == 1 ? " degree of freedom)" : " degrees of freedom)");
    }

    /** Figures that belong together stay on one line. */
    private static String unparted(String figures) {
        return figures.replace(' ', '\u00a0');
    }

    private static String compliance(HoldTestResult.Compliance c) {
        double lower = cm3PerBar(c.lower95());
        double upper = cm3PerBar(c.upper95());
        int decimals = decimalsFor(lower, upper);
        return fixed(cm3PerBar(c.m3PerPa()), decimals) + " cm³/bar (" + fixed(lower, decimals) + " to "
                + fixed(upper, decimals) + ") from "
                + (c.from().isEmpty() ? "what is usual" : String.join(", ", c.from()));
    }

    private static String phases(HoldTest test) {
        List<String> parts = new ArrayList<>();
        for (PhaseSpan span : test.phases()) {
            parts.add(span.phase().label() + " " + seconds(span.durationS()));
        }
        return String.join(", ", parts) + "; "
                + (test.strokes().size() == 1 ? "1 stroke" : test.strokes().size() + " strokes");
    }

    private static String seconds(double durationS) {
        return fixed(durationS, durationS < 10 ? 1 : 0) + " s";
    }

    private static void budget(HoldTestResult result, TextBlock block) {
        List<String> parts = new ArrayList<>();
        for (HoldTestResult.BudgetLine line : result.budget()) {
            if (parts.size() == BUDGET_LINES) {
                break;
            }
            parts.add(line.source() + " " + significant(cm3PerMin(line.standardUncertaintyM3PerS()), 2));
        }
        if (!parts.isEmpty()) {
            block.entry("doubt from", String.join(", ", parts) + " (standard uncertainty, cm³/min)");
        }
    }
}
