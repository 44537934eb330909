package org.holdtrace.desk.look;

import java.awt.Component;
import java.awt.Container;
import java.util.Comparator;
import java.util.Optional;
import javax.swing.AbstractButton;
import javax.swing.JComboBox;
import javax.swing.LayoutFocusTraversalPolicy;
import javax.swing.text.JTextComponent;

/**
 * What can be done gets the keyboard first, and explaining words after it: whoever opens a page or a dialog presses Enter
 * or types, and whoever wants to read or copy the words reaches them as well.
 */
public final class ControlsFirst extends LayoutFocusTraversalPolicy {
    private static final long serialVersionUID = 1L;

    public ControlsFirst() {
        Comparator<? super Component> byPlace = getComparator();
        setComparator(Comparator.<Component, Boolean>comparing(Prose.class::isInstance)
                .thenComparing(byPlace));
    }

    /** The first in {@code within}, as it was put together, that somebody can do something with. */
    static Optional<Component> in(Container within) {
        for (Component each : within.getComponents()) {
            boolean isControl = each instanceof AbstractButton
                    || each instanceof JComboBox
                    || (each instanceof JTextComponent text && text.isEditable());
            if (isControl && each.isEnabled()) {
                return Optional.of(each);
            }
            if (each instanceof Container inner) {
                Optional<Component> found = in(inner);
                if (found.isPresent()) {
                    return found;
                }
            }
        }
        return Optional.empty();
    }
}
