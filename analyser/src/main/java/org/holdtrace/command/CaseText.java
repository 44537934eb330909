package org.holdtrace.command;

import static org.holdtrace.wording.Figures.significant;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.holdtrace.judge.Beliefs;
import org.holdtrace.judge.CaseFile;
import org.holdtrace.judge.CaseFindings;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseSentences;
import org.holdtrace.judge.PlannedTest;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.SafetyText;
import org.holdtrace.wording.ShownUnits;

/** Findings of a case for people. */
final class CaseText {
    /** A combination less probable than this is not worth a line. */
    private static final double WORTH_A_LINE = 0.005;

    private static final int PART = 24;
    private static final int LIMIT = 8;
    private static final int SHARE = 10;
    private static final int NOW = 15;
    private static final int RANGE = 22;

    private final CaseFindings findings;
    private final ShownUnits units;
    private final StringBuilder text = new StringBuilder();

    private CaseText(CaseFindings findings, ShownUnits units) {
        this.findings = findings;
        this.units = units;
    }

    /** All of it. {@code refused}: a sentence for each session that could not be read. */
    static String of(Path file, CaseFindings findings, List<String> refused, ShownUnits units) {
        CaseText made = new CaseText(findings, units);
        made.write(file.getFileName().toString(), refused);
        return made.text.toString();
    }

    private void write(String file, List<String> refused) {
        CaseFile subject = findings.caseFile();
        block(file + ": " + subject.machine(), block -> {
            block.entry("complaint", CaseSentences.complaint(subject, units));
            block.entry("circuit", CaseSentences.circuit(subject, units));
            if (!subject.note().isEmpty()) {
                block.entry("note", subject.note());
            }
        });
        block(
                findings.standing().label().toUpperCase(Locale.ROOT),
                block -> findings.summary().forEach(sentence -> block.paragraph("  ", sentence)));
        parts();
        block(
                "Where the limits come from",
                block -> CaseSentences.limits(findings, units)
                        .forEach(limit -> block.paragraph(
                                "  ", limit.stated() + ", " + limit.source() + ": " + limit.of() + ".")));
        combinations();
        tests(refused);
        findings.drift()
                .ifPresent(drift ->
                        block("Drift", block -> drift.said().forEach(sentence -> block.paragraph("  ", sentence))));
        next();
        if (!findings.cautions().isEmpty()) {
            block("Cautions", block -> findings.cautions().forEach(caution -> block.paragraph("  - ", caution)));
        }
        block("", block -> {
            block.paragraph("", SafetyText.FIRST);
            SafetyText.RULES.forEach(rule -> block.paragraph("  - ", rule));
            block.paragraph("", SafetyText.LAST);
        });
        text.setLength(text.length() - System.lineSeparator().length());
    }

    private void block(String heading, Consumer<TextBlock> content) {
        TextBlock block = new TextBlock();
        if (!heading.isEmpty()) {
            block.heading(heading);
        }
        content.accept(block);
        text.append(block.text()).append(System.lineSeparator());
    }

    private void parts() {
        row("Parts", "limit", "prior", "over its limit", "with other priors", "");
        for (ElementFinding found : findings.elements()) {
            row(
                    "  " + found.element().name(),
                    significant(units.flow().fromSi(found.limitM3PerS()), 3),
                    Figures.percent(found.element().prior()) + (found.element().priorStated() ? "*" : " "),
                    Figures.percent(found.probability()),
                    CaseSentences.otherPriors(found),
                    found.status().label());
        }
        TextBlock block = new TextBlock();
        block.paragraph("  ", CaseSentences.aboutParts(findings.caseFile(), units));
        text.append(block.text()).append(System.lineSeparator());
    }

    private void row(String part, String limit, String prior, String now, String range, String state) {
        String line = left(part, PART) + right(limit, LIMIT) + right(prior, SHARE) + right(now, NOW)
                + right(range, RANGE) + "  " + state;
        text.append(line.stripTrailing()).append(System.lineSeparator());
    }

    private static String left(String word, int width) {
        return word + " ".repeat(Math.max(1, width - word.length()));
    }

    private static String right(String word, int width) {
        return " ".repeat(Math.max(1, width - word.length())) + word;
    }

    private void combinations() {
        block("Which parts are over their limits, all others within", block -> {
            for (Beliefs.Combination combination : findings.combinations()) {
                if (combination.probability() >= WORTH_A_LINE) {
                    String share = right(Figures.percent(combination.probability()), NOW - 1);
                    block.paragraph(
                            share + "  ",
                            combination.over().isEmpty() ? "none" : String.join(", ", combination.over()));
                }
            }
        });
    }

    private void tests(List<String> refused) {
        if (findings.tests().isEmpty() && refused.isEmpty()) {
            return;
        }
        block("Tests", block -> {
            for (CaseFindings.TestFinding test : findings.tests()) {
                block.paragraph(
                        "  - ",
                        test.measured().test().name() + " ("
                                + test.measured().test().file() + "): " + String.join(" ", test.said()));
            }
            refused.forEach(sentence -> block.paragraph("  - ", "not used: " + sentence));
        });
    }

    private void next() {
        List<PlannedTest> next = findings.next();
        if (next.isEmpty()) {
            return;
        }
        block("Tests worth doing, best first", block -> {
            for (int i = 0; i < next.size(); i++) {
                PlannedTest test = next.get(i);
                block.paragraph("  " + (i + 1) + " ", test.test().name());
                if (i > 0) {
                    block.paragraph("    ", CaseSentences.effort(test));
                    continue;
                }
                CaseSentences.arrangement(test.test(), findings.caseFile().circuit())
                        .forEach(line -> block.paragraph("    ", line + "."));
                block.paragraph("    ", CaseSentences.sizes(test, units));
                block.paragraph("    ", CaseSentences.effort(test));
                block.paragraph("    ", "If it holds: " + test.ifHolds() + ".");
                block.paragraph("    ", "If it leaks: " + test.ifLeaks() + ".");
                test.cautions().forEach(caution -> block.paragraph("    ! ", caution));
            }
        });
    }
}
