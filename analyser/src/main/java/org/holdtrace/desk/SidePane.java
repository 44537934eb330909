package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Font;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import javax.swing.BorderFactory;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTabbedPane;
import javax.swing.ScrollPaneConstants;
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
    /** Share of the height. */
    private static final double MOST_FOR_HEAD = 0.55;

    private final transient Theme theme;
    private final transient ShownUnits units;
    private final Prose subject;
    private final Prose leak;
    private final Prose verdict;
    private final Prose asked;
    private final Stack head;
    private final JScrollPane headInTab = new JScrollPane();
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
        asked = new Prose("asked", theme.font(1));
        result = new ResultPane(theme);
        setup = new SetupForm(changes, theme, units);
        head = new Stack((int) theme.scaled(6));
        head.setBackground(theme.palette().background());
        int edge = (int) theme.scaled(12);
        head.setBorder(BorderFactory.createEmptyBorder(edge, edge, (int) theme.scaled(4), edge));
        head.add(subject);
        head.add(leak);
        head.add(verdict);
        head.add(asked);
        tabs.setName("beside the trace");
        tabs.addTab("Figures", result);
        tabs.addTab("Setup", setup);
        headInTab.setBorder(BorderFactory.createEmptyBorder());
        headInTab.setHorizontalScrollBarPolicy(ScrollPaneConstants.HORIZONTAL_SCROLLBAR_NEVER);
        add(head, BorderLayout.NORTH);
        add(tabs, BorderLayout.CENTER);
        addComponentListener(new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent event) {
                placeHead();
            }
        });
    }

    /** Leak and verdict stay in sight, unless large type would leave no room for anything else. */
    private void placeHead() {
        boolean isInTab = tabs.indexOfComponent(headInTab) >= 0;
        if (getHeight() == 0 || head.getWidth() == 0) {
            return; // before it is laid out nobody knows how high its words are
        }
        boolean takesAll = head.getPreferredSize().height > MOST_FOR_HEAD * getHeight();
        if (takesAll && !isInTab) {
            headInTab.setViewportView(head);
            tabs.insertTab("Leak", null, headInTab, null, 0);
        } else if (!takesAll && isInTab) {
            tabs.remove(headInTab);
            add(head, BorderLayout.NORTH);
        }
    }

    /** Brings the figures (0) or the setup (1) to the front. */
    void front(int tab) {
        tabs.setSelectedComponent(tab == 1 ? setup : result);
    }

    /** Which of them is in front. */
    int inFront() {
        return tabs.getSelectedComponent() == setup ? 1 : 0;
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
        String wish = Sentences.asked(recording.asked(), units);
        asked.setVisible(!wish.isEmpty());
        asked.say(wish, theme.palette().caution());
        result.show(recording, index, units);
        setup.show(recording);
        placeHead();
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
