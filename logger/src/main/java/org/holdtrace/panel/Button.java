package org.holdtrace.panel;

import java.util.Optional;

/**
 * Makes presses of what a bouncing contact shows. Looked at every 20 ms or so: the contact must show the same three times
 * running to be believed. A button that is down from the start is not pressed: it is stuck, until it is let go once.
 */
final class Button {
    /** What {@link Panel} promises. */
    private static final long LONG_NS = 2_000_000_000;

    private static final int LOOKS = 3;

    private boolean down = true;
    private boolean told = true;
    private int differing;
    private long downSinceNs;

    /** One look at the contact; a press where one is complete by it. */
    Optional<Panel.Press> look(long timeNs, boolean contact) {
        differing = contact == down ? 0 : differing + 1;
        if (differing == LOOKS) {
            differing = 0;
            down = contact;
            if (down) {
                downSinceNs = timeNs;
                told = false;
            } else if (!told) {
                told = true;
                return Optional.of(Panel.Press.SHORT);
            }
        }
        if (down && !told && timeNs - downSinceNs >= LONG_NS) {
            told = true;
            return Optional.of(Panel.Press.LONG);
        }
        return Optional.empty();
    }
}
