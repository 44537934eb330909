package org.holdtrace.desk;

import java.awt.Dimension;
import java.awt.Rectangle;
import javax.swing.JFrame;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.work.DeskState;

/** Where the window is on the screen, from one day to the next. On the event thread. */
final class WindowPlace {
    private static final int SMALLEST_WIDTH = 720;
    private static final int SMALLEST_HEIGHT = 480;
    private static final int USUAL_WIDTH = 1366;
    private static final int USUAL_HEIGHT = 860;
    /** For the bars of the system, of whose size nobody is told before the window is there. */
    private static final int BARS = 40;

    private final JFrame frame;
    private final DeskState state;

    WindowPlace(JFrame frame, DeskState state) {
        this.frame = frame;
        this.state = state;
    }

    /** Puts the window where it was, or, the first time, makes it as large as its type asks for. */
    void restore(Theme theme) {
        frame.setMinimumSize(new Dimension(SMALLEST_WIDTH, SMALLEST_HEIGHT));
        Rectangle screen = frame.getGraphicsConfiguration().getBounds();
        int width = state.number(
                "width", SMALLEST_WIDTH, screen.width, (int) Math.min(theme.scaled(USUAL_WIDTH), screen.width));
        int height = state.number("height", SMALLEST_HEIGHT, screen.height, (int)
                Math.min(theme.scaled(USUAL_HEIGHT), screen.height - (double) BARS));
        // A window remembered from a screen that is gone comes back onto this one.
        int x = state.number("x", screen.x, screen.x + screen.width - width, screen.x);
        int y = state.number("y", screen.y, screen.y + screen.height - height, screen.y);
        frame.setBounds(x, y, width, height);
        if (state.get("maximised", "false").equals("true")) {
            frame.setExtendedState(JFrame.MAXIMIZED_BOTH);
        }
    }

    /** Remembers where it is. */
    void remember() {
        boolean maximised = (frame.getExtendedState() & JFrame.MAXIMIZED_BOTH) != 0;
        state.put("maximised", Boolean.toString(maximised));
        if (!maximised) {
            Rectangle bounds = frame.getBounds();
            state.put("x", Integer.toString(bounds.x));
            state.put("y", Integer.toString(bounds.y));
            state.put("width", Integer.toString(bounds.width));
            state.put("height", Integer.toString(bounds.height));
        }
    }
}
