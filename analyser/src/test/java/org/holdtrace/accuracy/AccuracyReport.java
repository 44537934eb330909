package org.holdtrace.accuracy;

import java.util.Locale;
import java.util.function.Predicate;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;

/** Writes figures of merit as the tables of docs/benchmarks.md. */
final class AccuracyReport {
    private final StringBuilder out = new StringBuilder();

    private AccuracyReport() {}

    /** Where strokes or volume are known to 2 to 3 %. */
    static boolean isWellKnown(Score score) {
        TestSetup setup = score.test().setup();
        boolean strokes = score.test().showsPumping()
                && setup.pumpStrokeM3().map(AccuracyReport::isWell).orElse(false);
        return strokes || setup.trappedVolumeM3().map(AccuracyReport::isWell).orElse(false);
    }

    private static boolean isWell(Quantity quantity) {
        return quantity.relativeUncertainty() <= 0.03;
    }

    static String write(Figures all, String title) {
        AccuracyReport report = new AccuracyReport();
        report.line("### %s", title);
        report.line("");
        report.goals(all);
        report.families(all);
        report.inputs(all);
        report.laws(all);
        report.naive(all);
        report.failures(all);
        return report.out.toString();
    }

    private void goals(Figures all) {
        line("| figure | found | wanted |");
        line("|---|---|---|");
        line("| coverage of the 95 %% interval | %s | 93 to 97 %% |", share(all.coverage()));
        line(
                "| median error, strokes or volume known to 2 to 3 %% | %s (of %d) | at most 4 %% |",
                percent(all.of(AccuracyReport::isWellKnown).medianError()),
                all.of(AccuracyReport::isWellKnown).leaking().count());
        line("| bias, half-widths of the interval | %s | within ±0.25 |", number(all.bias()));
        line("| wrong verdicts | %s | at most 1 %% |", share(all.wrongVerdicts()));
        line("| undecided verdicts | %s | |", share(all.undecided()));
        line("| false leak on tight components | %s | at most 2.5 %% |", share(all.falseLeaks()));
        line("| leak not told from zero | %s | |", share(all.missedLeaks()));
        line("| law right where its weight is above 0.8 | %s | at least 85 %% |", share(all.lawRight(0.8, 1.01)));
        line("| median half-width over the unavoidable | %s | at most 1.3 |", number(all.medianWidthRatio()));
        line(
                "| compliance: coverage, median error | %s, %s | |",
                share(all.complianceCoverage()), percent(all.medianComplianceError()));
        line("| number of strokes wrong | %s | |", share(all.strokesWrong()));
        line("| no leak rate given | %s | |", share(all.noAnswer()));
        line(
                "| time per test (phases and estimate), median, longest | %.0f ms, %.0f ms | |",
                1e3 * all.medianAnalyseS(), 1e3 * all.longestAnalyseS());
        line("");
    }

    private void families(Figures all) {
        line(
                "| family | tests | coverage | median error | bias | wrong / undecided | false / missed leaks | width ratio |");
        line("|---|---|---|---|---|---|---|---|");
        for (Family family : Family.values()) {
            row(family.label(), all.of(s -> s.test().family() == family));
        }
        line("");
    }

    private void inputs(Figures all) {
        line(
                "| known inputs | tests | coverage | median error | bias | wrong / undecided | false / missed leaks | width ratio |");
        line("|---|---|---|---|---|---|---|---|");
        for (KnownInputs inputs : KnownInputs.values()) {
            row(inputs.label(), all.of(s -> s.test().inputs() == inputs));
        }
        line("");
    }

    private void row(String name, Figures figures) {
        if (figures.count() == 0) {
            return;
        }
        line(
                "| %s | %d | %s | %s | %s | %d / %d | %d / %d | %s |",
                name,
                figures.count(),
                share(figures.coverage()),
                percent(figures.medianError()),
                number(figures.bias()),
                figures.wrongVerdicts().hits(),
                figures.undecided().hits(),
                figures.falseLeaks().hits(),
                figures.missedLeaks().hits(),
                number(figures.medianWidthRatio()));
    }

    private void laws(Figures all) {
        line("| weight of the heaviest law | tests | right |");
        line("|---|---|---|");
        double[] edges = {0, 0.4, 0.6, 0.8, 0.9, 0.97, 1.01};
        for (int i = 0; i + 1 < edges.length; i++) {
            Figures.Share share = all.lawRight(edges[i], edges[i + 1]);
            line("| %.2f to %.2f | %d | %s |", edges[i], Math.min(1, edges[i + 1]), share.of(), share(share));
        }
        line("");
    }

    private void naive(Figures all) {
        Predicate<Score> answered = s -> s.naive().isPresent() && s.answer().isPresent();
        Figures both = all.of(answered);
        line("| on the %d tests with a stated volume | this analyser | one exponential times V/K |", both.count());
        line("|---|---|---|");
        line("| coverage of the 95 %% interval | %s | %s |", share(both.coverage()), share(both.naiveCoverage()));
        line("| median error | %s | %s |", percent(both.medianError()), percent(both.naiveMedianError()));
        line("| false leak on tight components | %s | %s |", share(both.falseLeaks()), share(both.naiveFalseLeaks()));
        line("");
        line(
                "One exponential gives no answer to the other %d tests, where no volume is stated.",
                all.count() - both.count());
        line("");
    }

    private void failures(Figures all) {
        for (Score score : all.scores()) {
            if (!score.failure().isEmpty()) {
                line(
                        "- no answer to test %d (%s, %s): %s",
                        score.test().index(),
                        score.test().family().label(),
                        score.test().inputs().label(),
                        score.failure());
            }
        }
    }

    private static String share(Figures.Share share) {
        return share.of() == 0
                ? "–"
                : String.format(
                        Locale.ROOT,
                        "%.1f ± %.1f %% of %d",
                        100 * share.value(),
                        100 * share.standardError(),
                        share.of());
    }

    private static String percent(double value) {
        return Double.isNaN(value) ? "–" : String.format(Locale.ROOT, "%.2f %%", 100 * value);
    }

    private static String number(double value) {
        return Double.isNaN(value) ? "–" : String.format(Locale.ROOT, "%.2f", value);
    }

    private void line(String format, Object... values) {
        out.append(String.format(Locale.ROOT, format, values)).append('\n');
    }
}
