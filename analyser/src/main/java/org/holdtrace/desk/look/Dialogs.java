package org.holdtrace.desk.look;

import java.awt.BorderLayout;
import java.awt.Dimension;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;

/** How every dialog of the desk is laid out: what it is about, its buttons below, Escape leaves it. */
public final class Dialogs {
    private Dialogs() {}

    /**
     * Fills a dialog and places it over its owner, no larger than the screen.
     *
     * @param dialog the dialog, not shown yet
     * @param theme its text scale
     * @param centre what it is about; it scrolls where there is not room enough
     * @param foot its buttons and what stands beside them
     * @param chosen the button that Enter presses
     * @param width its width at a text scale of 1, pixels
     * @param height its height likewise
     * @return its content, a {@link BorderLayout} whose north is free
     */
    public static JPanel fill(
            JDialog dialog, Theme theme, JComponent centre, JComponent foot, JButton chosen, int width, int height) {
        JScrollPane scroll = new JScrollPane(centre);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        JPanel content = new JPanel(new BorderLayout(0, 10));
        content.setBorder(BorderFactory.createEmptyBorder(16, 18, 10, 18));
        content.add(scroll, BorderLayout.CENTER);
        content.add(foot, BorderLayout.SOUTH);
        content.registerKeyboardAction(
                event -> dialog.dispose(), KeyStroke.getKeyStroke("ESCAPE"), JComponent.WHEN_IN_FOCUSED_WINDOW);
        dialog.setContentPane(content);
        dialog.getRootPane().setDefaultButton(chosen);
        Dimension screen = dialog.getToolkit().getScreenSize();
        dialog.setSize((int) Math.min(0.95 * screen.width, theme.scaled(width)), (int)
                Math.min(0.85 * screen.height, theme.scaled(height)));
        dialog.setLocationRelativeTo(dialog.getOwner());
        return content;
    }
}
