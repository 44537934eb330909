package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Font;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JTabbedPane;
import org.holdtrace.desk.describe.SetupForm;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.Changes;
import org.holdtrace.desk.work.OpenRecording;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;

/** Beside the trace: the leak and its verdict, which stay in sight, and below them either the figures or the setup. */
final class SidePane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient Theme theme;
    private final transient ShownUnits units;
    private final Prose subject;
    private final Prose leak;
    private final Prose verdict;
    private final JTabbedPane tabs = new JTabbedPane();
    private final ResultPane result;
    private final SetupForm setup;

    SidePane(Changes changes, Theme theme, ShownUnits units) {
        super(new BorderLayout());
        this.theme = theme;
        this.units = units;
        setBackground(theme.palette().background());
        subject = new Prose("tested", theme.font(1));
        leak = new Prose("leak", theme.font(1.35).deriveFont(Font.BOLD));
        verdict = new Prose("verdict", theme.font(1.2).deriveFont(Font.BOLD));
        result = new ResultPane(theme);
        setup = new SetupForm(changes, theme, units);
        Stack head = new Stack((int) theme.scaled(6));
        head.setBackground(theme.palette().background());
        int edge = (int) theme.scaled(12);
        head.setBorder(BorderFactory.createEmptyBorder(edge, edge, (int) theme.scaled(4), edge));
        head.add(subject);
        head.add(leak);
        head.add(verdict);
        tabs.setName("beside the trace");
        tabs.addTab("Figures", result);
        tabs.addTab("Setup", setup);
        add(head, BorderLayout.NORTH);
        add(tabs, BorderLayout.CENTER);
    }

    /** Brings the figures (0) or the setup (1) to the front. */
    void front(int tab) {
        tabs.setSelectedIndex(tab);
    }

    /** Which of them is in front. */
    int inFront() {
        return tabs.getSelectedIndex();
    }

    /** Shows hold test {@code index} of {@code recording}. */
    void show(OpenRecording recording, int index) {
        String what = Phrases.subject(recording.setup());
        String file = recording.input().name();
        boolean none = index >= recording.results().size();
        subject.say(
                (what.isEmpty() ? "" : what + " · ")
                        + file
                        + (none
                                ? ""
                                : " · hold test "
                                        + recording
                                                .results()
                                                .get(index)
                                                .holdTest()
                                                .number() + " of "
                                        + recording.results().size()),
                theme.palette().text());
        verdict.setVisible(!none);
        if (none) {
            leak.say("no hold test was found in this recording", theme.palette().text());
        } else {
            statements(recording.results().get(index));
        }
        result.show(recording, index, units);
        setup.show(recording);
        revalidate();
    }

    private void statements(HoldTestResult found) {
        leak.say(
                "Leak: " + found.leak().map(each -> Sentences.leak(each, units)).orElse(Sentences.NO_RATE),
                theme.palette().text(),
                Origins.leak(found));
        if (found.verdict().isPresent()) {
            HoldTestResult.Verdict each = found.verdict().get();
            verdict.say(Sentences.verdict(each, units), theme.palette().verdict(each.outcome()), Origins.VERDICT);
        } else {
            verdict.say(
                    "No limit was given, so there is no verdict",
                    theme.palette().quiet(),
                    Origins.VERDICT);
        }
    }
}
