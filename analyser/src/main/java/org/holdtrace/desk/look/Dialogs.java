package org.holdtrace.desk.look;

import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import java.util.Optional;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JOptionPane;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;

/** How every dialog of the desk is laid out: what it is about, its buttons below, Escape leaves it, a page up or down reads on. */
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
        Keyboard.turnsPages(content, JComponent.WHEN_IN_FOCUSED_WINDOW, scroll);
        dialog.setContentPane(content);
        dialog.setFocusTraversalPolicy(new ControlsFirst());
        dialog.addWindowListener(new WindowAdapter() {
            @Override
            public void windowOpened(WindowEvent event) {
                // Said and not left to the order of places: words that wrap move them after the window is open.
                ControlsFirst.in(centre).orElse(chosen).requestFocusInWindow();
            }
        });
        dialog.getRootPane().setDefaultButton(chosen);
        Dimension screen = dialog.getToolkit().getScreenSize();
        dialog.setSize((int) Math.min(0.95 * screen.width, theme.scaled(width)), (int)
                Math.min(0.85 * screen.height, theme.scaled(height)));
        dialog.setLocationRelativeTo(dialog.getOwner());
        return content;
    }

    /** Asks for a line of text, which a screen reader calls by {@code title}; nothing where somebody thought better of it. */
    public static Optional<String> askText(Component over, String title, String question, String before) {
        JOptionPane pane = new JOptionPane(question, JOptionPane.PLAIN_MESSAGE, JOptionPane.OK_CANCEL_OPTION);
        pane.setWantsInput(true);
        pane.setInitialSelectionValue(before);
        JDialog dialog = pane.createDialog(over, title);
        ControlsFirst.in(pane).ifPresent(field -> field.getAccessibleContext().setAccessibleName(title));
        pane.selectInitialValue();
        dialog.setVisible(true);
        dialog.dispose();
        return Optional.of(pane.getInputValue())
                .filter(String.class::isInstance)
                .filter(each -> Integer.valueOf(JOptionPane.OK_OPTION).equals(pane.getValue()))
                .map(String.class::cast);
    }
}
