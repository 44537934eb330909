package org.holdtrace.desk;

import java.awt.Component;
import java.awt.Window;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.wording.SafetyText;

/** The usual cautions in a dialog of their own: before the first live test, and whenever somebody asks for them. */
public final class SafetyDialog {
    private SafetyDialog() {}

    /**
     * Shows the cautions and waits, on the event thread.
     *
     * @param owner the window they are shown over, or a component of it
     * @param theme the look
     * @param confirm the words on the button, such as "Understood, begin"
     * @return whether somebody pressed that button, and did not close the dialog some other way
     */
    public static boolean ask(Component owner, Theme theme, String confirm) {
        StringBuilder words = new StringBuilder(SafetyText.FIRST).append("\n");
        for (String rule : SafetyText.RULES) {
            words.append("\n• ").append(rule).append("\n");
        }
        words.append("\n").append(SafetyText.LAST);
        return new ReadingDialog(
                        // A window has no window above it: without an owner the dialog could come up behind a full
                        // screen.
                        owner instanceof Window window ? window : SwingUtilities.getWindowAncestor(owner),
                        theme,
                        "cautions",
                        "Before anybody pumps",
                        words.toString(),
                        confirm)
                .ask();
    }
}
