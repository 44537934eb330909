package org.holdtrace.desk;

import java.awt.Dialog;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Font;
import java.awt.Window;
import javax.swing.JButton;
import javax.swing.JDialog;
import javax.swing.JPanel;
import org.holdtrace.desk.look.Dialogs;
import org.holdtrace.desk.look.Prose;
import org.holdtrace.desk.look.Theme;

/** Words to be read and copied in a dialog that scrolls, with one button. */
final class ReadingDialog {
    private final JDialog dialog;
    private final JButton button;
    private final Prose text;
    private boolean pressed;

    /**
     * @param name of the dialog and its parts, for tests
     * @param confirm the words on the button
     */
    ReadingDialog(Window owner, Theme theme, String name, String title, String words, String confirm) {
        dialog = new JDialog(owner, title, Dialog.ModalityType.APPLICATION_MODAL);
        dialog.setName(name);
        text = new Prose(name + " text", theme.font(1.05));
        text.say(words, theme.palette().text());
        button = new JButton(confirm);
        button.setName("confirm " + name);
        button.addActionListener(event -> {
            pressed = true;
            dialog.dispose();
        });
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.TRAILING));
        buttons.add(button);
        Dialogs.fill(dialog, theme, text, buttons, button, 720, 600);
        text.setCaretPosition(0);
    }

    /** The words stand in columns: type of one width, and lines that do not wrap. */
    ReadingDialog inColumns(Theme theme) {
        text.setFont(new Font(Font.MONOSPACED, Font.PLAIN, 1)
                .deriveFont(theme.font(1).getSize2D()));
        text.setLineWrap(false);
        Dimension screen = dialog.getToolkit().getScreenSize();
        dialog.setSize((int) Math.min(0.9 * screen.width, theme.scaled(1000)), dialog.getHeight());
        dialog.setLocationRelativeTo(dialog.getOwner());
        return this;
    }

    /** Shows it and waits; whether somebody pressed its button, and did not close it some other way. */
    boolean ask() {
        button.requestFocusInWindow();
        dialog.setVisible(true);
        return pressed;
    }
}
