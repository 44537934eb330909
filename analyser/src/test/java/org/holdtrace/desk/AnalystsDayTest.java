package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.event.KeyEvent;
import java.util.Set;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.holdtrace.desk.view.TraceView;
import org.junit.jupiter.api.Test;

/** From the first start to the next morning. */
class AnalystsDayTest extends WindowTest {
    @Test
    void theAnalystBringsInLooksCloselyComparesAndGoesOnNextMorning() {
        FrameFixture desk = openDesk();
        Screens.keep(desk.target(), "desk-welcome");
        watch.begin();

        desk.button("bring in").click();
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.setCurrentDirectory(DEMO.getParent().toFile());
        chooser.selectFile(DEMO.toFile()).approve();
        until("all ten are there", () -> desk.label("status").text().equals("10 recordings brought in"));
        assertEquals(11, desk.list("hold tests").contents().length, "the rebuilt one was tested twice");
        Screens.keep(desk.target(), "desk-brought-in");

        desk.list("hold tests").selectItem(1);
        until("the worn spool is shown", () -> desk.textBox("tested").text().contains("02-bramble-bucket-port-a"));
        assertTrue(
                desk.textBox("leak").text().startsWith("Leak: "),
                desk.textBox("leak").text());
        TraceView trace = robot.finder().findByName("trace", TraceView.class);
        double whole = GuiActionRunner.execute(() -> trace.window().durationS());
        robot.click(trace);
        robot.pressAndReleaseKeys(KeyEvent.VK_ADD, KeyEvent.VK_ADD, KeyEvent.VK_1, KeyEvent.VK_2);
        assertEquals(0.64 * whole, GuiActionRunner.execute(() -> trace.window().durationS()), 1e-6 * whole);
        assertTrue(GuiActionRunner.execute(trace::reading).isPresent());
        Screens.keep(desk.target(), "desk-close-up");

        desk.tabbedPane("views").selectTab("Compare");
        Screens.keep(desk.target(), "desk-compare");
        desk.tabbedPane("views").selectTab("Look closely");
        desk.menuItemWithPath("Look", "Dark").click();
        Screens.keep(desk.target(), "desk-dark");
        desk.menuItemWithPath("Look", "Units", "psi, in³").click();
        assertTrue(
                desk.textBox("leak").text().contains("in³/min"),
                desk.textBox("leak").text());

        nothingLongRanOnTheEventThread();
        desk.close();

        FrameFixture next = openDesk();
        next.button("go on").click();
        until("all ten are there again", () -> next.label("status").text().equals("10 recordings brought in"));
        assertTrue(next.textBox("leak").text().contains("in³/min"), "units are remembered");
    }

    private void nothingLongRanOnTheEventThread() {
        assertEquals(Set.of(), watch.misplaced());
        assertTrue(watch.longestMs() < 500, watch.longestMs() + " ms in " + watch.longest());
    }
}
