package org.holdtrace.command;

import static org.holdtrace.wording.Figures.cm3PerMin;
import static org.holdtrace.wording.Figures.fixed;
import static org.holdtrace.wording.Figures.significant;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;

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
            block.entry("leak", Sentences.NO_RATE);
        }
        if (result.verdict().isPresent()) {
            block.entry("verdict", Sentences.verdict(result.verdict().get(), ShownUnits.METRIC));
        }
        routes(result, block);
        if (result.compliance().isPresent()) {
            block.entry("compliance", Sentences.compliance(result.compliance().get(), ShownUnits.METRIC));
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
        block.entry("leak", Sentences.leak(leak, ShownUnits.METRIC));
        block.entry("law", Sentences.law(leak));
        block.entry("resolvable", Sentences.resolvable(leak, ShownUnits.METRIC));
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
        block.entry("routes", String.join(", ", parts) + "; " + Sentences.agreement(result.agreement()));
    }

    /** Figures that belong together stay on one line. */
    private static String unparted(String figures) {
        return figures.replace(' ', '\u00a0');
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
