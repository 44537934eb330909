package org.holdtrace.desk.work;

import javax.swing.JComponent;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.wording.ShownUnits;

/** One of the ways the desk shows its work, a tab of its window. All calls on the event thread. */
public interface DeskView {
    /** A word or two for the tab. */
    String title();

    /** What fills the tab; always the same one. */
    JComponent component();

    /** Takes on a look and units: before it is first shown, and after each change. */
    void look(Theme theme, ShownUnits units);

    /** A look is about to change: whatever is built anew for it need not be given it first. */
    default void beforeLook() {}

    /** It came to the front, or something else did. */
    default void front(boolean inFront) {}
}
