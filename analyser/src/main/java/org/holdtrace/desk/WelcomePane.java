package org.holdtrace.desk;

import java.awt.Font;
import java.awt.GridBagConstraints;
import java.awt.GridBagLayout;
import java.awt.Insets;
import javax.swing.JButton;
import javax.swing.JPanel;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.wording.SafetyText;

/** What the desk shows while nothing is on it: how to begin. */
final class WelcomePane extends JPanel {
    private static final long serialVersionUID = 1L;

    private final transient Runnable choose;
    private final transient Runnable goOn;

    WelcomePane(Runnable choose, Runnable goOn) {
        super(new GridBagLayout());
        this.choose = choose;
        this.goOn = goOn;
        setName("welcome");
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
        stack.add(button("bring in", "Bring in recordings…", choose));
        if (before > 0) {
            stack.add(button(
                    "go on",
                    before == 1 ? "Go on with the last recording" : "Go on with the last " + before + " recordings",
                    goOn));
        }
        Prose safety = new Prose("safety", theme.font(1));
        safety.say(SafetyText.SHORT, theme.palette().caution());
        stack.add(safety);
        GridBagConstraints place = new GridBagConstraints();
        place.weightx = 1;
        place.weighty = 1;
        place.fill = GridBagConstraints.HORIZONTAL;
        int side = (int) theme.scaled(60);
        place.insets = new Insets(20, side, 20, side);
        add(stack, place);
        revalidate();
        repaint();
    }

    private static JButton button(String name, String words, Runnable action) {
        JButton button = new JButton(words);
        button.setName(name);
        button.addActionListener(event -> action.run());
        return button;
    }
}
