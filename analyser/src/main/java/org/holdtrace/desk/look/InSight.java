package org.holdtrace.desk.look;

import java.awt.AWTEvent;
import java.awt.Component;
import java.awt.Container;
import java.awt.Rectangle;
import java.awt.Toolkit;
import java.awt.event.AWTEventListener;
import java.awt.event.FocusEvent;
import javax.swing.JComponent;
import javax.swing.JViewport;
import javax.swing.SwingUtilities;

/**
 * Scrolls what the Tab key comes to into sight, together with the row it stands in: its name above, what is said of it
 * below. Swing leaves the keyboard where nobody sees it. A click is left alone, since whoever clicks has it in sight.
 */
public final class InSight implements AWTEventListener, AutoCloseable {
    private InSight() {}

    /** From now on, in all windows of the desk, until it is closed. */
    public static InSight begin() {
        InSight made = new InSight();
        Toolkit.getDefaultToolkit().addAWTEventListener(made, AWTEvent.FOCUS_EVENT_MASK);
        return made;
    }

    @Override
    public void close() {
        Toolkit.getDefaultToolkit().removeAWTEventListener(this);
    }

    @Override
    public void eventDispatched(AWTEvent event) {
        if (event instanceof FocusEvent focus && focus.getID() == FocusEvent.FOCUS_GAINED) {
            switch (focus.getCause()) {
                case TRAVERSAL, TRAVERSAL_FORWARD, TRAVERSAL_BACKWARD, TRAVERSAL_UP, TRAVERSAL_DOWN ->
                    show(focus.getComponent());
                default -> {}
            }
        }
    }

    /** Scrolls the row that {@code component} stands in into sight, or where that is too high the component with a little around it. */
    public static void show(Component component) {
        Container viewport = SwingUtilities.getAncestorOfClass(JViewport.class, component);
        if (viewport == null || component.getParent() == viewport) {
            return; // what is scrolled as a whole, as a list is, sees to its own lines
        }
        Component view = ((JViewport) viewport).getView();
        Component row = component;
        while (row.getParent() != view) {
            row = row.getParent();
        }
        Rectangle shown = row.getBounds();
        if (shown.height > viewport.getHeight()) {
            shown = SwingUtilities.convertRectangle(component.getParent(), component.getBounds(), view);
            shown.grow(0, shown.height);
            shown.height = Math.min(shown.height, viewport.getHeight());
        }
        if (view instanceof JComponent whole) {
            whole.scrollRectToVisible(shown);
        }
    }
}
