package org.holdtrace.desk;

import java.awt.AWTError;
import java.awt.GraphicsEnvironment;
import java.lang.reflect.InvocationTargetException;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.DeskState;

/** The desktop program. */
public final class Desk {
    /** What loggers are told is speaking to them. */
    static final String PROGRAM = "Holdtrace desk";

    private static final String NO_DISPLAY = "the desk needs a display, and there is none here";
    private static final String OTHERWISE = "; the commands work without one, --help lists them";

    private Desk() {}

    /**
     * Opens the window and waits until it is closed.
     *
     * @param commands what it has reports and exports written by
     * @return why it cannot be opened, in one line; empty once it was closed
     */
    public static Optional<String> run(Commands commands) {
        // Heard by a Mac alone, and only before its first window: its name and menus where its programs have theirs.
        System.setProperty("apple.awt.application.name", "Holdtrace");
        System.setProperty("apple.laf.useScreenMenuBar", "true");
        try {
            if (GraphicsEnvironment.isHeadless()) {
                return Optional.of(NO_DISPLAY + OTHERWISE);
            }
            CountDownLatch closed = new CountDownLatch(1);
            DeskState state = DeskState.in(DeskState.usualFolder());
            SwingUtilities.invokeAndWait(() -> new DeskWindow(state, commands, closed::countDown).open());
            closed.await();
            return Optional.empty();
        } catch (InvocationTargetException e) {
            return Optional.of(NO_DISPLAY + " (" + e.getCause() + ")" + OTHERWISE);
        } catch (AWTError | LinkageError e) {
            // So Java says that the display in DISPLAY does not answer, or that its own window libraries are missing.
            return Optional.of(NO_DISPLAY + " (" + e.getMessage() + ")" + OTHERWISE);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.empty();
        }
    }
}
