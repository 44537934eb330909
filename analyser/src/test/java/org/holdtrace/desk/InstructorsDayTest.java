package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.Container;
import java.awt.GraphicsEnvironment;
import java.awt.Rectangle;
import java.awt.event.KeyEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import javax.swing.JFrame;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.finder.WindowFinder;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.timing.Pause;
import org.holdtrace.desk.classroom.ClassView;
import org.junit.jupiter.api.Test;

/** A lesson with the simulated line, in its real time, with the keyboard alone. */
class InstructorsDayTest extends WindowTest {
    @Test
    void theInstructorBreaksTheSimulatedLineAndUncoversTheVerdict() {
        FrameFixture desk = openDesk();
        robot.pressAndReleaseKey(KeyEvent.VK_F9);
        JFrame window = (JFrame) WindowFinder.findFrame("class view")
                .withTimeout(20, TimeUnit.SECONDS)
                .using(robot)
                .target();
        ClassView view = robot.finder().findByName(window, "class view", ClassView.class);
        Rectangle room = GraphicsEnvironment.getLocalGraphicsEnvironment().getMaximumWindowBounds();
        assertEquals(room.getSize(), window.getSize(), "as large as the screen allows");
        until("the lanes show pressure", () -> !text(view, "pressure", 0).equals("–"));
        watch.begin();
        robot.pressAndReleaseKey(KeyEvent.VK_3);
        until("the right lane is worn", () -> text(view, "name", 1).contains("spool"));
        Pause.pause(5, TimeUnit.SECONDS); // the zero is learned
        for (int i = 0; i < 4; i++) {
            robot.pressAndReleaseKey(KeyEvent.VK_SPACE);
            Pause.pause(1100);
        }
        until("strokes are counted", () -> text(view, "phase", 0).contains("4 strokes"));
        Screens.keep(window, "class-pumping");
        double sound = Double.parseDouble(text(view, "pressure", 0));
        double worn = Double.parseDouble(text(view, "pressure", 1));
        assertTrue(worn < 0.7 * sound, "sound at " + sound + " bar, worn at " + worn + " bar");
        Pause.pause(6, TimeUnit.SECONDS);
        assertEquals("verdict covered · V uncovers it", text(view, "verdict", 1));
        robot.pressAndReleaseKey(KeyEvent.VK_V);
        until("the worn one is told", () -> text(view, "verdict", 1).startsWith("OVER the limit"));
        Screens.keep(window, "class-uncovered");
        robot.pressAndReleaseKey(KeyEvent.VK_D);
        robot.pressAndReleaseKey(KeyEvent.VK_U);
        Screens.keep(window, "class-dark-psi");
        nothingLongRanOnTheEventThread();
        robot.pressAndReleaseKey(KeyEvent.VK_ESCAPE);
        until("the class view is put away", () -> !window.isShowing());
        String stood = text(view, "pressure", 1);
        Pause.pause(1, TimeUnit.SECONDS);
        assertEquals(stood, text(view, "pressure", 1), "nobody looks: the line stands still");
        robot.click(desk.target());
        robot.pressAndReleaseKey(KeyEvent.VK_F9);
        until("it is back", window::isShowing);
        assertEquals(
                1,
                robot.finder()
                        .findAll(window, each -> "class view".equals(each.getName()) && each instanceof ClassView)
                        .size());
        assertTrue(text(view, "phase", 0).contains("hold"), "the lesson goes on: " + text(view, "phase", 0));
        assertTrue(text(view, "verdict", 1).startsWith("OVER the limit"), text(view, "verdict", 1));
        desk.close();
    }

    @Test
    void theCautionsStandOverTheClassViewAndNotBehindIt() {
        FrameFixture desk = openDesk();
        robot.pressAndReleaseKey(KeyEvent.VK_F9);
        JFrame window = (JFrame) WindowFinder.findFrame("class view")
                .withTimeout(20, TimeUnit.SECONDS)
                .using(robot)
                .target();
        until("it has the keyboard", () -> window.isFocused());
        robot.pressAndReleaseKey(KeyEvent.VK_F3);
        DialogFixture cautions = desk.dialog("cautions");
        assertSame(window, cautions.target().getOwner());
        cautions.close();
        desk.close();
    }

    private static String text(ClassView view, String part, int lane) {
        return GuiActionRunner.execute(() -> {
            List<String> found = new ArrayList<>();
            collect(view, part, found);
            return found.get(lane);
        });
    }

    private static void collect(Container in, String part, List<String> found) {
        for (Component each : in.getComponents()) {
            if (part.equals(each.getName())) {
                found.add(each.getAccessibleContext().getAccessibleName());
            } else if (each instanceof Container inner) {
                collect(inner, part, found);
            }
        }
    }
}
