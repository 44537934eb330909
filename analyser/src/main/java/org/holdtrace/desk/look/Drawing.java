package org.holdtrace.desk.look;

import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.JComponent;

/** A component that paints itself, and tells a screen reader what it is. */
public abstract class Drawing extends JComponent {
    private static final long serialVersionUID = 1L;

    private final transient AccessibleRole role;

    /** @param role what a screen reader is told that it is */
    protected Drawing(AccessibleRole role) {
        this.role = role;
    }

    @Override
    public final AccessibleContext getAccessibleContext() {
        if (accessibleContext == null) {
            accessibleContext = new AccessibleJComponent() {
                private static final long serialVersionUID = 1L;

                @Override
                public AccessibleRole getAccessibleRole() {
                    return role;
                }
            };
        }
        return accessibleContext;
    }
}
