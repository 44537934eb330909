package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dialog;
import java.awt.Dimension;
import java.awt.FlowLayout;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JDialog;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.wording.SafetyText;

/** The usual cautions in a dialog of their own: before the first live test, and whenever somebody asks for them. */
public final class SafetyDialog {
    private final JDialog dialog;
    private boolean confirmed;

    private SafetyDialog(Component owner, Theme theme, String confirm) {
        dialog = new JDialog(
                owner == null ? null : SwingUtilities.getWindowAncestor(owner),
                "Before anybody pumps",
                Dialog.ModalityType.APPLICATION_MODAL);
        dialog.setName("cautions");
        JButton button = new JButton(confirm);
        button.setName("confirm cautions");
        button.addActionListener(event -> {
            confirmed = true;
            dialog.dispose();
        });
        Prose text = new Prose("cautions text", theme.font(1.1));
        StringBuilder words = new StringBuilder(SafetyText.FIRST).append("\n");
        for (String rule : SafetyText.RULES) {
            words.append("\n• ").append(rule).append("\n");
        }
        text.say(
                words.append("\n").append(SafetyText.LAST).toString(),
                theme.palette().text());
        JScrollPane scroll = new JScrollPane(text);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.TRAILING));
        buttons.add(button);
        JPanel content = new JPanel(new BorderLayout(0, 12));
        content.setBorder(BorderFactory.createEmptyBorder(18, 22, 12, 22));
        content.add(scroll, BorderLayout.CENTER);
        content.add(buttons, BorderLayout.SOUTH);
        content.registerKeyboardAction(
                event -> dialog.dispose(),
                KeyStroke.getKeyStroke("ESCAPE"),
                javax.swing.JComponent.WHEN_IN_FOCUSED_WINDOW);
        dialog.setContentPane(content);
        dialog.getRootPane().setDefaultButton(button);
        Dimension screen = dialog.getToolkit().getScreenSize();
        dialog.setSize((int) Math.min(0.9 * screen.width, theme.scaled(720)), (int)
                Math.min(0.85 * screen.height, theme.scaled(600)));
        dialog.setLocationRelativeTo(owner);
        text.setCaretPosition(0);
    }

    /**
     * Shows the cautions and waits, on the event thread.
     *
     * @param owner a component of the window they are shown over
     * @param theme the look
     * @param confirm the words on the button, such as "Understood, begin"
     * @return whether somebody pressed that button, and did not close the dialog some other way
     */
    public static boolean ask(Component owner, Theme theme, String confirm) {
        SafetyDialog asking = new SafetyDialog(owner, theme, confirm);
        asking.dialog.setVisible(true);
        return asking.confirmed;
    }
}
