package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.KeyboardFocusManager;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.swing.JComponent;
import javax.swing.JFrame;
import javax.swing.TransferHandler;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.holdtrace.desk.view.TraceView;
import org.junit.jupiter.api.Test;

/** Where the keyboard is: nobody in these tests touches the mouse. */
class KeyboardAloneTest extends WindowTest {
    @Test
    void afterBringingInTheKeysOfTheListAndOfTheTraceWorkAtOnce() {
        FrameFixture desk = openDesk();
        bringIn(desk, demo);
        until("all ten are there", () -> desk.label("status").text().equals("10 recordings brought in"));
        keyboardIsAt("hold tests");
        robot.pressAndReleaseKey(KeyEvent.VK_DOWN);
        until("the second is shown", () -> desk.textBox("tested").text().contains("02-bramble-bucket-port-a"));
        robot.pressAndReleaseKeys(KeyEvent.VK_B, KeyEvent.VK_B, KeyEvent.VK_B);
        TraceView trace = robot.finder().findByName("trace", TraceView.class);
        until("it is chosen", () -> heard(trace).contains("boundary chosen: hold starts at "));
        String before = GuiActionRunner.execute(() -> heard(trace));
        robot.pressKey(KeyEvent.VK_SHIFT);
        robot.pressAndReleaseKey(KeyEvent.VK_RIGHT);
        robot.releaseKey(KeyEvent.VK_SHIFT);
        until("it is moved", () -> said("cautions").contains("Moved by hand: \"hold starts\""));
        assertNotEquals(before, GuiActionRunner.execute(() -> heard(trace)));
        undo();
        robot.pressAndReleaseKeys(KeyEvent.VK_PLUS, KeyEvent.VK_1, KeyEvent.VK_2);
        until("cursors are set from the list", () -> trace.reading().isPresent());
        // On the trace itself the arrows go through the tests as well.
        robot.pressAndReleaseKey(KeyEvent.VK_TAB);
        keyboardIsAt("trace");
        robot.pressAndReleaseKey(KeyEvent.VK_DOWN);
        until("the third is shown", () -> desk.textBox("tested").text().contains("03-bramble-bucket-port-b"));
        desk.close();
    }

    @Test
    void whoHasTheKeyboardElsewhereKeepsItWhenTheFirstRecordingComes() {
        FrameFixture desk = openDesk();
        keyboardIsAt("bring in");
        JComponent tabs = desk.tabbedPane("views").target();
        GuiActionRunner.execute(() -> {
            tabs.requestFocusInWindow();
        });
        keyboardIsAt("views");
        bringInWithoutAChooser(desk);
        keyboardIsAt("views");
        desk.close();
    }

    private void bringInWithoutAChooser(FrameFixture desk) {
        GuiActionRunner.execute(() -> {
            JComponent content = (JComponent) ((JFrame) desk.target()).getContentPane();
            content.getTransferHandler()
                    .importData(new TransferHandler.TransferSupport(
                            content,
                            new BringingInTest.Dragged(
                                    List.of(demo.resolve("01-line-check.hold").toFile()))));
        });
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        robot.waitForIdle();
    }

    @Test
    void whereFiguresComeFromIsToldWithoutAMouse() {
        FrameFixture desk = openDesk();
        bringIn(desk, demo.resolve("02-bramble-bucket-port-a.hold"));
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        control(KeyEvent.VK_I);
        desk.dialog("origins");
        String told = said("origins text");
        // Every figure beside the trace, the way it is said there, and below it what its hover says.
        for (String name : List.of("leak", "verdict", "agreement", "compliance", "resolvable")) {
            assertTrue(told.contains(said(name)), name + " in " + told);
        }
        assertTrue(told.contains("stroke tails: 19."), told);
        assertTrue(told.contains(Origins.BUDGET) && told.contains(Origins.WEIGHT), told);
        assertTrue(told.contains("GUM Supplement 1"), told);
        robot.pressAndReleaseKey(KeyEvent.VK_ESCAPE);
        desk.close();
    }

    @Test
    void aPageBeginsWithWhatCanBeDoneAndAnotherLookLeavesTheKeyboardWhereItWas() {
        FrameFixture desk = openDesk();
        keyboardIsAt("bring in");
        bringIn(desk, demo.resolve("08-thistle-clamp.csv"));
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        keyboardIsAt("hold tests");
        robot.pressAndReleaseKey(KeyEvent.VK_TAB);
        keyboardIsAt("trace");
        control(KeyEvent.VK_D);
        keyboardIsAt("trace");
        control(KeyEvent.VK_EQUALS);
        keyboardIsAt("trace");
        control(KeyEvent.VK_W);
        keyboardIsAt("bring in");
        bringIn(desk, demo.resolve("08-thistle-clamp.csv"));
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        desk.close();

        FrameFixture next = openDesk();
        keyboardIsAt("go on");
        robot.pressAndReleaseKey(KeyEvent.VK_ENTER);
        until("it is there again", () -> next.label("status").text().equals("1 recording brought in"));
        keyboardIsAt("hold tests");
        next.close();
    }

    @Test
    void theQuestionAboutColumnsBeginsWithItsFieldsAndIsAnsweredByKeyboard() throws IOException {
        Path trace = demo.resolve("bench.csv");
        Files.writeString(trace, "elapsed,P1\n0,1\n0.1,1\n0.2,1\n");
        FrameFixture desk = openDesk();
        bringIn(desk, trace);
        desk.dialog("columns");
        keyboardIsAt("column 1 is");
        robot.pressAndReleaseKey(KeyEvent.VK_DOWN); // not used, time
        robot.pressAndReleaseKey(KeyEvent.VK_TAB);
        keyboardIsAt("column 1 in");
        robot.pressAndReleaseKey(KeyEvent.VK_DOWN);
        robot.pressAndReleaseKey(KeyEvent.VK_TAB);
        robot.pressAndReleaseKeys(KeyEvent.VK_DOWN, KeyEvent.VK_DOWN);
        robot.pressAndReleaseKey(KeyEvent.VK_TAB);
        robot.pressAndReleaseKey(KeyEvent.VK_DOWN);
        robot.pressAndReleaseKey(KeyEvent.VK_ENTER);
        until("it is read", () -> desk.label("status").text().equals("1 recording brought in"));
        desk.close();
    }

    @Test
    void whatTheTabKeyComesToIsInSightInTheFormAndInDialogsHoweverLargeTheType() throws IOException {
        FrameFixture desk = openDesk();
        bringIn(desk, demo.resolve("08-thistle-clamp.csv"));
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        desk.tabbedPane("beside the trace").selectTab("Setup");
        robot.focusAndWaitForFocusGain(desk.textBox("machine").target());
        tabTo("transducer.accuracy");
        for (int i = 0; i < 6; i++) {
            control(KeyEvent.VK_EQUALS);
        }
        desk.tabbedPane("beside the list").selectTab("Leak and setup");
        desk.button("work out volume").click();
        DialogFixture volume = desk.dialog("trapped volume");
        keyboardIsAt("part 1 Part");
        tabTo("part 3 or volume");
        volume.button("one more part").click();
        keyboardIsAt("part 4 Part");
        ownerIsInSight();
        Screens.keep(volume.target(), "desk-volume-300-percent");
        robot.pressAndReleaseKey(KeyEvent.VK_ESCAPE);

        Path trace = demo.resolve("bench.csv");
        Files.writeString(trace, "elapsed,P1,pressure at the test port of the bench\n0,1,1\n0.1,1,1\n0.2,1,1\n");
        bringIn(desk, trace);
        DialogFixture columns = desk.dialog("columns");
        keyboardIsAt("column 1 is");
        tabTo("column 3 in");
        Screens.keep(columns.target(), "desk-columns-300-percent");
        robot.pressAndReleaseKey(KeyEvent.VK_ESCAPE);
        desk.close();
    }

    /** Goes on with Tab to what is called {@code last}, and sees that it and all on the way are seen whole. */
    private void tabTo(String last) {
        String name = null;
        for (int i = 0; i < 40 && !last.equals(name); i++) {
            Component before = owner();
            robot.pressAndReleaseKey(KeyEvent.VK_TAB);
            until("the keyboard goes on", () -> owner() != null && owner() != before);
            ownerIsInSight();
            name = GuiActionRunner.execute(() -> owner().getName());
        }
        assertEquals(last, name);
    }

    private static void ownerIsInSight() {
        until("it is seen whole: " + GuiActionRunner.execute(() -> owner().getName()), () -> {
            JComponent owner = (JComponent) owner();
            return owner.getVisibleRect().getSize().equals(owner.getSize());
        });
    }

    private static Component owner() {
        return KeyboardFocusManager.getCurrentKeyboardFocusManager().getFocusOwner();
    }

    /** Types the path into the chooser's field, which has the keyboard. */
    private void bringIn(FrameFixture desk, Path path) {
        control(KeyEvent.VK_O);
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.fileNameTextBox().setText(path.toString());
        robot.focusAndWaitForFocusGain(chooser.fileNameTextBox().target());
        robot.pressAndReleaseKey(KeyEvent.VK_ENTER);
        until("it is chosen", () -> !chooser.target().isShowing());
    }

    private void control(int key) {
        robot.pressKey(KeyEvent.VK_CONTROL);
        robot.pressAndReleaseKey(key);
        robot.releaseKey(KeyEvent.VK_CONTROL);
    }

    private void undo() {
        control(KeyEvent.VK_Z);
    }

    private static void keyboardIsAt(String name) {
        until(name + " has the keyboard", () -> {
            Component owner = owner();
            return owner != null && name.equals(owner.getName());
        });
    }

    /** On the event thread. */
    private static String heard(TraceView trace) {
        return trace.getAccessibleContext().getAccessibleDescription();
    }
}
