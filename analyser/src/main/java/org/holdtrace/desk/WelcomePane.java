package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.FlowLayout;
import java.awt.Font;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import org.holdtrace.desk.look.ControlsFirst;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Stack;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.wording.SafetyText;

/** What the desk shows while nothing is on it: how to begin. */
final class WelcomePane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient Runnable choose;
    private final transient Runnable goOn;
    private JComponent first;

    WelcomePane(Runnable choose, Runnable goOn) {
        super(new BorderLayout());
        this.choose = choose;
        this.goOn = goOn;
        setName("welcome");
        setFocusTraversalPolicyProvider(true);
        setFocusTraversalPolicy(new ControlsFirst());
    }

    /** Builds what it shows. {@code before} is how many recordings were on the desk last. */
    void look(Theme theme, int before) {
        removeAll();
        setBackground(theme.palette().background());
        Stack stack = new Stack((int) theme.scaled(14));
        stack.setOpaque(false);
        Prose title = new Prose("how to begin", theme.font(1.7).deriveFont(Font.BOLD));
        title.say("Drop recordings here", theme.palette().text());
        Prose more = new Prose("what can be dropped", theme.font(1.1));
        more.say(
                "Sessions of the logger (.hold), traces (.csv) and folders of them. A setup beside a recording"
                        + " (.setup.json) is read with it. Nothing is ever written into a recording.",
                theme.palette().text());
        stack.add(title);
        stack.add(more);
        JButton bringIn = button("bring in", "Bring in recordings…", choose);
        stack.add(row(bringIn));
        first = bringIn;
        if (before > 0) {
            JButton on = button(
                    "go on",
                    before == 1 ? "Go on with the last recording" : "Go on with the last " + before + " recordings",
                    goOn);
            stack.add(row(on));
            first = on;
        }
        Prose safety = new Prose("safety", theme.font(1));
        safety.say(SafetyText.SHORT, theme.palette().caution());
        stack.add(safety);
        int side = (int) theme.scaled(60);
        stack.setBorder(BorderFactory.createEmptyBorder(side, side, side / 2, side));
        JScrollPane scroll = new JScrollPane(
                stack, JScrollPane.VERTICAL_SCROLLBAR_AS_NEEDED, JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.getViewport().setBackground(theme.palette().background());
        add(scroll, BorderLayout.CENTER);
        revalidate();
        repaint();
    }

    /** The keyboard goes to what one most likely wants: yesterday's work, or something to work on. */
    @Override
    public boolean requestFocusInWindow() {
        return first != null && first.requestFocusInWindow();
    }

    private static JButton button(String name, String words, Runnable action) {
        JButton button = new JButton(words);
        button.setName(name);
        button.addActionListener(event -> action.run());
        return button;
    }

    /** As wide as its words, wherever it stands. */
    private static JComponent row(JButton button) {
        JPanel row = new JPanel(new FlowLayout(FlowLayout.LEADING, 0, 0));
        row.setOpaque(false);
        row.add(button);
        return row;
    }
}
