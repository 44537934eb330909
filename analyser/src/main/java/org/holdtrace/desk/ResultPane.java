package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Font;
import java.awt.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import org.holdtrace.desk.RowsView.Row;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.SafetyText;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;

/** What stands behind the leak of one hold test; every figure tells on hover where it comes from. */
final class ResultPane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient Theme theme;
    private final Prose law;
    private final Prose resolvable;
    private final Prose compliance;
    private final Prose agreement;
    private final Prose cautions;
    private final Prose safety;
    private final RowsView routes = new RowsView("routes");
    private final RowsView budget = new RowsView("budget");
    private final RowsView weights = new RowsView("laws");
    private final CurveView curve = new CurveView();
    private final Stack stack = new Stack(8);
    private final JScrollPane scroll;
    private transient OpenRecording shown;
    private int shownIndex;

    ResultPane(Theme theme) {
        super(new BorderLayout());
        this.theme = theme;
        setName("result");
        law = new Prose("law", theme.font(1));
        resolvable = new Prose("resolvable", theme.font(1));
        compliance = new Prose("compliance", theme.font(1));
        agreement = new Prose("agreement", theme.font(1));
        cautions = new Prose("cautions", theme.font(1));
        safety = new Prose("safety", theme.font(0.95));
        int edge = (int) theme.scaled(12);
        stack.setBorder(BorderFactory.createEmptyBorder(edge, edge, edge, edge));
        stack.add(cautions);
        stack.add(heading("Routes side by side"));
        stack.add(routes);
        stack.add(agreement);
        stack.add(heading("Leak against pressure"));
        stack.add(curve);
        stack.add(law);
        stack.add(heading("What the doubt comes from"));
        stack.add(budget);
        stack.add(heading("Laws by weight"));
        stack.add(weights);
        stack.add(heading("The line"));
        stack.add(compliance);
        stack.add(resolvable);
        stack.add(safety);
        scroll = new JScrollPane(stack, JScrollPane.VERTICAL_SCROLLBAR_ALWAYS, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        add(scroll, BorderLayout.CENTER);
    }

    private JLabel heading(String words) {
        JLabel label = new JLabel(words);
        label.setFont(theme.font(1.05).deriveFont(Font.BOLD));
        label.setBorder(BorderFactory.createCompoundBorder(
                BorderFactory.createEmptyBorder((int) theme.scaled(8), 0, 2, 0),
                BorderFactory.createMatteBorder(0, 0, 1, 0, theme.palette().grid())));
        return label;
    }

    /** Shows hold test {@code index} of {@code recording}. */
    void show(OpenRecording recording, int index, ShownUnits units) {
        stack.setBackground(theme.palette().background());
        boolean another = shown == null || !shown.path().equals(recording.path()) || shownIndex != index;
        shown = recording;
        shownIndex = index;
        boolean none = index >= recording.results().size();
        stack.setVisible(!none);
        if (none) {
            return;
        }
        HoldTestResult result = recording.results().get(index);
        statements(result, units);
        Optional<Double> limit = recording.setup().limitM3PerS().map(Quantity::value);
        routes.show(routes(result, units), limit.map(units.flow()::fromSi).orElse(Double.NaN), theme);
        curve.show(result, limit, theme, units);
        budget.show(budget(result, units), Double.NaN, theme);
        weights.show(weights(result), Double.NaN, theme);
        List<String> notes = new ArrayList<>();
        for (HoldTestResult.Caution caution : result.cautions()) {
            notes.add("Caution: " + caution.text());
        }
        for (String note : recording.recording().notes()) {
            notes.add("Note: " + note);
        }
        cautions.setVisible(!notes.isEmpty());
        cautions.say(String.join("\n", notes), theme.palette().caution());
        safety.say(SafetyText.SHORT, theme.palette().caution());
        if (another) {
            scroll.getViewport().setViewPosition(new Point(0, 0));
        }
        revalidate();
        repaint();
    }

    private void statements(HoldTestResult result, ShownUnits units) {
        law.setVisible(result.leak().isPresent());
        resolvable.setVisible(result.leak().isPresent());
        result.leak().ifPresent(each -> {
            law.say("Law: " + Sentences.law(each), theme.palette().text(), Origins.law(result));
            resolvable.say(Sentences.resolvable(each, units), theme.palette().text(), Origins.RESOLVABLE);
        });
        compliance.say(
                result.compliance()
                        .map(each -> "Compliance: " + Sentences.compliance(each, units))
                        .orElse("Compliance: could not be had from this test"),
                theme.palette().text(),
                Origins.compliance(result));
        agreement.say(
                (result.routes().size() > 1 ? "The routes: " : "One route: ") + Sentences.agreement(result.agreement()),
                theme.palette().text(),
                Origins.AGREEMENT);
    }

    private static List<Row> routes(HoldTestResult result, ShownUnits units) {
        List<Row> rows = new ArrayList<>();
        for (HoldTestResult.RouteRate each : result.routes()) {
            rows.add(new Row(
                    each.route().label(),
                    Phrases.rateWithInterval(each.m3PerS(), each.lower95(), each.upper95(), units),
                    Origins.route(each.route(), result.holdTest()),
                    units.flow().fromSi(each.lower95()),
                    units.flow().fromSi(each.m3PerS()),
                    units.flow().fromSi(each.upper95()),
                    false));
        }
        result.leak()
                .ifPresent(each -> rows.add(new Row(
                        "together [" + ShownUnits.name(units.flow()) + "]",
                        each.law() == Law.NONE
                                ? "none above "
                                        + Figures.significant(units.flow().fromSi(each.upper95()), 2)
                                : Phrases.rateWithInterval(each.m3PerS(), each.lower95(), each.upper95(), units),
                        Origins.leak(result),
                        units.flow().fromSi(each.lower95()),
                        each.law() == Law.NONE ? 0 : units.flow().fromSi(each.m3PerS()),
                        units.flow().fromSi(each.upper95()),
                        true)));
        return rows;
    }

    private static List<Row> budget(HoldTestResult result, ShownUnits units) {
        List<Row> rows = new ArrayList<>();
        for (HoldTestResult.BudgetLine each : result.budget()) {
            double size = units.flow().fromSi(each.standardUncertaintyM3PerS());
            rows.add(Row.bar(
                    each.source(),
                    Figures.significant(size, 2) + " " + ShownUnits.name(units.flow()),
                    Origins.BUDGET,
                    size));
        }
        return rows;
    }

    private static List<Row> weights(HoldTestResult result) {
        Map<Law, Double> found = result.leak().map(HoldTestResult.Leak::weights).orElse(Map.of());
        List<Row> rows = new ArrayList<>();
        for (Law law : Law.values()) {
            double weight = found.getOrDefault(law, 0.0);
            if (!found.isEmpty()) {
                rows.add(Row.bar(law.label(), Figures.fixed(weight, 2), Origins.WEIGHT, weight));
            }
        }
        return rows;
    }
}
