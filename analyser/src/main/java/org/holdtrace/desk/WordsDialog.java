package org.holdtrace.desk;

import java.awt.BorderLayout;
import java.awt.Dialog;
import java.awt.FlowLayout;
import java.awt.Window;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import org.holdtrace.desk.look.Theme;

/** Words to be read and copied, in a dialog that scrolls. */
final class WordsDialog {
    private WordsDialog() {}

    /** Shows {@code words} under {@code title} until somebody closes it. */
    static void show(Window owner, Theme theme, String title, String words) {
        JDialog dialog = new JDialog(owner, title, Dialog.ModalityType.APPLICATION_MODAL);
        dialog.setName("words");
        Prose text = new Prose(title, theme.font(1));
        text.say(words, theme.palette().text());
        JScrollPane scroll = new JScrollPane(text);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        JButton close = new JButton("Close");
        close.setName("close words");
        close.addActionListener(event -> dialog.dispose());
        JPanel buttons = new JPanel(new FlowLayout(FlowLayout.TRAILING));
        buttons.add(close);
        JPanel content = new JPanel(new BorderLayout(0, 10));
        content.setBorder(BorderFactory.createEmptyBorder(16, 18, 10, 18));
        content.add(scroll, BorderLayout.CENTER);
        content.add(buttons, BorderLayout.SOUTH);
        content.registerKeyboardAction(
                event -> dialog.dispose(), KeyStroke.getKeyStroke("ESCAPE"), JComponent.WHEN_IN_FOCUSED_WINDOW);
        dialog.setContentPane(content);
        dialog.getRootPane().setDefaultButton(close);
        dialog.setSize((int) theme.scaled(700), (int) theme.scaled(420));
        dialog.setLocationRelativeTo(owner);
        text.setCaretPosition(0);
        dialog.setVisible(true);
    }
}
