package org.holdtrace.desk.look;

import java.awt.Component;
import java.awt.Container;
import java.awt.KeyboardFocusManager;
import java.awt.Window;
import java.util.Optional;
import javax.swing.JComponent;
import javax.swing.JScrollBar;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;

/** Where the keyboard is while parts of a window are built anew. On the event thread. */
public final class Keyboard {
    private Keyboard() {}

    /**
     * Lets the keys for a page up and down read on in {@code scroll} wherever in {@code whole} the keyboard is.
     *
     * @param where one of the conditions of {@link JComponent#registerKeyboardAction}
     */
    public static void turnsPages(JComponent whole, int where, JScrollPane scroll) {
        for (int pages : new int[] {-1, 1}) {
            whole.registerKeyboardAction(
                    event -> {
                        JScrollBar bar = scroll.getVerticalScrollBar();
                        bar.setValue(bar.getValue() + pages * bar.getBlockIncrement(pages));
                    },
                    KeyStroke.getKeyStroke(pages < 0 ? "PAGE_UP" : "PAGE_DOWN"),
                    where);
        }
    }

    /** Whether something else in the window of {@code within} has the keyboard. */
    public static boolean isBeside(Container within) {
        Component owner = KeyboardFocusManager.getCurrentKeyboardFocusManager().getPermanentFocusOwner();
        Window window = SwingUtilities.getWindowAncestor(within);
        return owner != null
                && window != null
                && SwingUtilities.getWindowAncestor(owner) == window
                && !SwingUtilities.isDescendingFrom(owner, within);
    }

    /** Lets {@code rebuild} replace what is in {@code within}; what has the name of what had the keyboard has it again. */
    public static void staysOver(Container within, Runnable rebuild) {
        Component owner = KeyboardFocusManager.getCurrentKeyboardFocusManager().getPermanentFocusOwner();
        String name = owner != null && SwingUtilities.isDescendingFrom(owner, within) ? nameOf(owner, within) : null;
        rebuild.run();
        if (name != null && !owner.isShowing()) {
            named(within, name).ifPresent(Component::requestFocusInWindow);
        }
    }

    /** Its own name, or that of what it is a part of, as the field of a choice is. */
    private static String nameOf(Component owner, Container within) {
        for (Component each = owner; each != within; each = each.getParent()) {
            if (each.getName() != null) {
                return each.getName();
            }
        }
        return null;
    }

    private static Optional<Component> named(Container within, String name) {
        for (Component each : within.getComponents()) {
            if (name.equals(each.getName())) {
                return Optional.of(each);
            }
            if (each instanceof Container inner) {
                Optional<Component> found = named(inner, name);
                if (found.isPresent()) {
                    return found;
                }
            }
        }
        return Optional.empty();
    }
}
