package org.holdtrace.desk;

import java.awt.Color;
import java.awt.Font;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import javax.swing.BorderFactory;
import javax.swing.JLabel;
import org.holdtrace.desk.RowsView.Row;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.CaseWork;
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

/** What is said about a case, in the words and figures of the command {@code case}: at the left what is found, at the right why. */
final class CasePane {
    /** A combination less probable than this is not worth a line. */
    private static final double WORTH_A_LINE = 0.005;
    /** What counts is larger than ordinary text, for whoever stands at the back. */
    private static final double LARGER = 1.3;

    private final Theme theme;
    private final ShownUnits units;
    private final Stack found;
    private final Stack why;

    /** Fills two stacks, which may be one and the same. */
    CasePane(Theme theme, ShownUnits units, Stack found, Stack why) {
        this.theme = theme;
        this.units = units;
        this.found = found;
        this.why = why;
    }

    /** Shows {@code judged}. */
    void show(CaseWork.Judged judged) {
        CaseFindings findings = judged.findings();
        CaseFile file = findings.caseFile();
        say(found, "case machine", 1.2, true, text(), file.machine());
        say(found, "case complaint", 1, false, text(), CaseSentences.complaint(file, units));
        say(
                found,
                "case standing",
                1.7,
                true,
                standing(findings),
                findings.standing().label().toUpperCase(Locale.ROOT));
        say(found, "case summary", 1.15, false, text(), String.join("\n", findings.summary()));
        parts(findings);
        combinations(findings);
        say(found, "case circuit", 1, false, theme.palette().quiet(), CaseSentences.circuit(file, units));
        if (!file.note().isEmpty()) {
            say(found, "case note", 1, false, theme.palette().quiet(), file.note());
        }
        next(findings);
        tests(findings, judged.refused());
        findings.drift().ifPresent(drift -> {
            heading(why, "Does the leak explain the drift?");
            say(why, "case drift", 1, false, text(), String.join("\n", drift.said()));
        });
        if (!findings.cautions().isEmpty()) {
            heading(why, "Cautions");
            say(why, "case cautions", 1, false, theme.palette().caution(), bullets("! ", findings.cautions()));
        }
        say(why, "case safety", 0.95, false, theme.palette().caution(), SafetyText.SHORT);
    }

    private Color text() {
        return theme.palette().text();
    }

    private Color standing(CaseFindings findings) {
        Palette palette = theme.palette();
        return findings.standing() != Standing.DECIDED
                ? palette.undecided()
                : findings.elements().stream().anyMatch(each -> each.status() == Status.OVER)
                        ? palette.over()
                        : palette.within();
    }

    private void parts(CaseFindings findings) {
        heading(found, "How probable each part is over its limit");
        List<ElementFinding> elements = new ArrayList<>(findings.elements());
        elements.sort(Comparator.comparingDouble(ElementFinding::probability).reversed());
        List<Row> rows = new ArrayList<>();
        for (ElementFinding each : elements) {
            rows.add(new Row(
                    sign(each.status()) + " " + each.element().name(),
                    Figures.percent(each.probability()) + "  " + each.status().label(),
                    origin(each),
                    0,
                    Double.NaN,
                    each.probability(),
                    each.status() == Status.OVER));
        }
        rows(found, "parts", rows, LARGER);
        say(
                found,
                "about parts",
                0.95,
                false,
                theme.palette().quiet(),
                CaseSentences.aboutParts(findings.caseFile(), units) + " Hover over a part for its own.");
    }

    private String origin(ElementFinding each) {
        return each.element().name() + ": limit "
                + Figures.significant(units.flow().fromSi(each.limitM3PerS()), 3) + " "
                + ShownUnits.name(units.flow()) + "; prior "
                + Figures.percent(each.element().prior())
                + (each.element().priorStated() ? "*" : "") + "; before any test, complaint included, "
                + Figures.percent(each.before()) + "; now " + Figures.percent(each.probability())
                + "; with other priors " + CaseSentences.otherPriors(each)
                + (each.restsOnPriors() ? "; what is said of it rests on the priors" : "");
    }

    /** Told apart without colour. */
    private static String sign(Status status) {
        return switch (status) {
            case OVER -> "✗";
            case CLEARED -> "✓";
            case UNDECIDED -> "?";
            case NOT_TESTED -> "○";
        };
    }

    private void combinations(CaseFindings findings) {
        heading(found, "Which parts are over their limits, all others within");
        List<Row> rows = new ArrayList<>();
        for (Beliefs.Combination each : findings.combinations()) {
            if (each.probability() >= WORTH_A_LINE) {
                rows.add(Row.bar(
                        each.over().isEmpty() ? "none" : String.join(", ", each.over()),
                        Figures.percent(each.probability()),
                        "Of all ways in which parts can be worn together, this share of the probability",
                        each.probability()));
            }
        }
        rows(found, "combinations", rows, 1);
    }

    private void next(CaseFindings findings) {
        List<PlannedTest> next = findings.next();
        if (next.isEmpty()) {
            return;
        }
        heading(why, "The next test worth doing");
        PlannedTest best = next.get(0);
        say(why, "next test", LARGER, true, text(), best.test().name());
        List<String> lines = new ArrayList<>();
        CaseSentences.arrangement(best.test(), findings.caseFile().circuit()).forEach(line -> lines.add(line + "."));
        lines.add(CaseSentences.sizes(best, units));
        lines.add(CaseSentences.effort(best));
        lines.add("If it holds: " + best.ifHolds() + ".");
        lines.add("If it leaks: " + best.ifLeaks() + ".");
        say(why, "how to test", 1.1, false, text(), String.join("\n", lines));
        if (!best.cautions().isEmpty()) {
            say(why, "mind", 1, false, theme.palette().caution(), bullets("! ", best.cautions()));
        }
        if (next.size() > 1) {
            List<String> others = new ArrayList<>();
            for (int i = 1; i < next.size(); i++) {
                others.add((i + 1) + "  " + next.get(i).test().name() + ". " + CaseSentences.effort(next.get(i)));
            }
            say(why, "other tests", 1, false, theme.palette().quiet(), String.join("\n", others));
        }
    }

    private void tests(CaseFindings findings, List<String> refused) {
        if (findings.tests().isEmpty() && refused.isEmpty()) {
            return;
        }
        heading(why, "What each test showed");
        for (CaseFindings.TestFinding each : findings.tests()) {
            say(
                    why,
                    "case test",
                    1,
                    false,
                    text(),
                    "– " + each.measured().test().name() + " ("
                            + each.measured().test().file() + "): " + String.join(" ", each.said()));
        }
        for (String sentence : refused) {
            say(why, "not used", 1, false, theme.palette().caution(), "– not used: " + sentence);
        }
    }

    private static String bullets(String sign, List<String> sentences) {
        return sign + String.join("\n" + sign, sentences);
    }

    private void heading(Stack stack, String words) {
        JLabel label = new JLabel(words);
        label.setFont(theme.font(1.05).deriveFont(Font.BOLD));
        label.setBorder(BorderFactory.createCompoundBorder(
                BorderFactory.createEmptyBorder((int) theme.scaled(10), 0, 2, 0),
                BorderFactory.createMatteBorder(0, 0, 1, 0, theme.palette().grid())));
        stack.add(label);
    }

    private void say(Stack stack, String name, double size, boolean bold, Color color, String words) {
        Font font = theme.font(size);
        Prose prose = new Prose(name, bold ? font.deriveFont(Font.BOLD) : font);
        prose.say(words, color);
        stack.add(prose);
    }

    private void rows(Stack stack, String name, List<Row> rows, double size) {
        RowsView view = new RowsView(name);
        view.showShares(rows, new Theme(theme.dark(), (int)
                Math.min(Theme.LARGEST_PERCENT, Math.round(size * theme.textPercent()))));
        stack.add(view);
    }
}
