package org.holdtrace.desk;

import java.awt.Toolkit;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.desk.work.DeskState;

/** Opens the desk once and prints how long after the start of the Java machine its window was drawn and answered, ms. */
final class StartMeasure {
    private StartMeasure() {}

    public static void main(String[] words) throws Exception {
        DeskState state = DeskState.in(Path.of(words[0]));
        DeskWindow[] desk = new DeskWindow[1];
        SwingUtilities.invokeAndWait(() -> {
            desk[0] = new DeskWindow(state, Commands.NONE, () -> {});
            desk[0].open();
        });
        // Behind the drawing in the queue of events: what comes now would be somebody's first key.
        SwingUtilities.invokeAndWait(() -> desk[0].frame()
                .getRootPane()
                .paintImmediately(
                        0, 0, desk[0].frame().getWidth(), desk[0].frame().getHeight()));
        Toolkit.getDefaultToolkit().sync();
        System.out.println(System.currentTimeMillis()
                - ManagementFactory.getRuntimeMXBean().getStartTime());
        SwingUtilities.invokeAndWait(desk[0]::close);
    }
}
