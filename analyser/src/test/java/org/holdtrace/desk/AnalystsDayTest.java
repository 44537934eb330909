package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Point;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import org.assertj.swing.core.MouseButton;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.holdtrace.desk.view.TraceView;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.session.SetupSheet;
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
        chooser.setCurrentDirectory(demo.getParent().toFile());
        chooser.selectFile(demo.toFile()).approve();
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

        desk.menuItemWithPath("Look", "Light").click();
        desk.menuItemWithPath("Look", "Units", "bar, cm³").click();
        desk.menuItemWithPath("Look", "Size of type", "200 %").click();
        Screens.keep(desk.target(), "desk-200-percent");
        desk.tabbedPane("beside the list").selectTab("Leak and setup");
        Screens.keep(desk.target(), "desk-200-percent-leak");
        robot.pressKey(KeyEvent.VK_CONTROL);
        robot.pressAndReleaseKeys(KeyEvent.VK_MINUS, KeyEvent.VK_MINUS, KeyEvent.VK_MINUS, KeyEvent.VK_EQUALS);
        robot.pressAndReleaseKeys(KeyEvent.VK_MINUS);
        robot.releaseKey(KeyEvent.VK_CONTROL);
        desk.menuItemWithPath("Look", "Units", "psi, in³").click();

        nothingLongRanOnTheEventThread();
        desk.close();

        FrameFixture next = openDesk();
        next.button("go on").click();
        until("all ten are there again", () -> next.label("status").text().equals("10 recordings brought in"));
        assertTrue(next.textBox("leak").text().contains("in³/min"), "units are remembered");
    }

    @Test
    void theSetupIsDescribedInAFormTheResultFollowsAndTheFormIsKept() throws IOException {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        Path beside = demo.resolve("08-thistle-clamp.setup.json");
        String before = Files.readString(beside);
        String leak = desk.textBox("leak").text();
        watch.begin();
        desk.tabbedPane("beside the trace").selectTab("Setup");
        Screens.keep(desk.target(), "desk-setup");

        desk.textBox("limit").selectAll().enterText("0.2 cmm/min");
        assertEquals(
                "✗ \"0.2 cmm/min\": unknown unit \"cmm/min\"; expected \"cm3/min\"? (a unit of flow: cm3/min, ml/min, l/min,"
                        + " l/h, in3/min, gpm or m3/s) Until then “0.5 cm3/min” counts.",
                desk.textBox("limit note").text());
        Screens.keep(desk.target(), "desk-setup-mistake");
        desk.textBox("limit").selectAll().enterText("0.2 cm3/min");
        until("the verdict follows", () -> desk.textBox("verdict").text().startsWith("OVER the limit of 0.2 cm³/min"));
        desk.textBox("trappedVolume").selectAll().enterText("60 ± 3 cm3");
        until("the leak follows", () -> !desk.textBox("leak").text().equals(leak));
        until("it is kept", () -> read(beside).contains("\"trappedVolume\" : \"60 ± 3 cm3\""));
        assertTrue(read(beside).contains("\"limit\" : \"0.2 cm3/min\""));

        desk.menuItemWithPath("Change", "Undo: Trapped volume").click();
        desk.menuItemWithPath("Change", "Undo: Leak limit").click();
        until("all is as before", () -> desk.textBox("leak").text().equals(leak));
        until("on disk as well", () -> sameSetup(read(beside), before));
        robot.pressKey(KeyEvent.VK_CONTROL);
        robot.pressAndReleaseKey(KeyEvent.VK_Y);
        robot.releaseKey(KeyEvent.VK_CONTROL);
        until("done again", () -> desk.textBox("limit").text().equals("0.2 cm3/min"));
        nothingLongRanOnTheEventThread();
        desk.close();
    }

    @Test
    void theTrappedVolumeIsWorkedOutFromBoreAndStroke() {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        desk.tabbedPane("beside the trace").selectTab("Setup");
        desk.button("work out volume").click();
        DialogFixture dialog = desk.dialog("trapped volume");
        dialog.textBox("part 1 Bore").enterText("80 mm");
        dialog.textBox("part 1 Length or stroke").enterText("10 ± 0.1 mm");
        dialog.textBox("part 2 Bore").enterText("4 mm");
        dialog.textBox("part 2 Length or stroke").enterText("2 m");
        dialog.textBox("part 3 or volume").enterText("3 ± 1 cm3");
        // 50.27 + 25.13 + 3 cm³, the uncertainties 0.50 and 1 cm³.
        assertEquals("Together 78.4 ± 1.1 cm³", dialog.textBox("total").text());
        Screens.keep(dialog.target(), "desk-volume");
        dialog.button("use volume").click();
        assertEquals("78.4 ± 1.1 cm3", desk.textBox("trappedVolume").text());
        until(
                "the parts are kept",
                () -> read(demo.resolve("08-thistle-clamp.work.json")).contains("\"bore\" : \"80 mm\""));
        desk.close();
    }

    @Test
    void aBoundaryIsMovedByMouseAndByKeyboardTheEstimateFollowsAndItIsFoundThereNextMorning() {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        String leak = desk.textBox("leak").text();
        TraceView trace = robot.finder().findByName("trace", TraceView.class);
        watch.begin();
        robot.click(trace);
        robot.pressAndReleaseKeys(KeyEvent.VK_B, KeyEvent.VK_B, KeyEvent.VK_B);
        assertTrue(heard(trace).contains("boundary chosen: hold starts at "), heard(trace));
        Point at = GuiActionRunner.execute(() -> trace.placeOfChosenBoundary().orElseThrow());
        robot.moveMouse(trace, at);
        robot.pressMouse(MouseButton.LEFT_BUTTON);
        robot.moveMouse(trace, at.x + 20, at.y);
        robot.moveMouse(trace, at.x + 60, at.y);
        robot.releaseMouseButtons();
        until("it is said", () -> desk.textBox("cautions").text().contains("Moved by hand: \"hold starts\""));
        Screens.keep(desk.target(), "desk-boundary");
        robot.click(trace, new Point(at.x + 60, at.y));
        String dragged = heard(trace);
        robot.pressKey(KeyEvent.VK_SHIFT);
        robot.pressAndReleaseKeys(KeyEvent.VK_RIGHT);
        robot.releaseKey(KeyEvent.VK_SHIFT);
        assertNotEquals(dragged, heard(trace));
        String moved =
                GuiActionRunner.execute(() -> trace.getAccessibleContext().getAccessibleDescription());
        nothingLongRanOnTheEventThread();
        desk.close();

        FrameFixture next = openDesk();
        next.button("go on").click();
        until("it is there again", () -> next.label("status").text().equals("1 recording brought in"));
        assertTrue(next.textBox("cautions").text().contains("Moved by hand: \"hold starts\""), moved);
        next.menuItemWithPath("Change", "Boundaries of this hold test as found").click();
        until("as found", () -> !next.textBox("cautions").text().contains("Moved by hand"));
        assertEquals(leak, next.textBox("leak").text());
        until("the notes are gone", () -> !Files.exists(demo.resolve("08-thistle-clamp.work.json")));
        next.close();
    }

    @Test
    void aReportIsAskedForWithWhatWasChangedLastAlreadyBesideTheRecording() {
        List<List<String>> called = new CopyOnWriteArrayList<>();
        List<String> setups = new CopyOnWriteArrayList<>();
        commands = words -> {
            called.add(words);
            setups.add(read(demo.resolve("08-thistle-clamp.setup.json")));
            return new Commands.Told(1, "", "holdtrace: something to know\n");
        };
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        desk.tabbedPane("beside the trace").selectTab("Setup");
        desk.textBox("port").enterText("C");
        desk.menuItemWithPath("Work", "Report on this recording…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose report");
        chooser.fileNameTextBox().setText(home.resolve("clamp").toString());
        chooser.approve();
        until("it is over", () -> desk.label("status").text().equals("Not everything was done"));
        assertEquals(
                List.of(List.of(
                        "report",
                        demo.resolve("08-thistle-clamp.csv").toString(),
                        "--out",
                        home.resolve("clamp.pdf").toString(),
                        "--units",
                        "bar, cm3")),
                called);
        assertTrue(setups.get(0).contains("\"port\" : \"C\""), setups.get(0));
        assertEquals("1 was refused: why?", desk.button("refused").text());
        desk.close();
    }

    @Test
    void aCaseIsJudgedByTheCommandAndShown() {
        List<List<String>> called = new CopyOnWriteArrayList<>();
        commands = words -> {
            called.add(words);
            return new Commands.Told(0, "part          chance\nspool         0.97\n", "");
        };
        FrameFixture desk = openDesk();
        desk.menuItemWithPath("Work", "Judge a case…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose case");
        chooser.fileNameTextBox().setText(demo.resolve("rowan-loader.case.json").toString());
        chooser.approve();
        DialogFixture judged = desk.dialog("case");
        assertTrue(judged.textBox("case text").text().contains("spool         0.97"));
        judged.button("confirm case").click();
        assertEquals(
                List.of(List.of("case", demo.resolve("rowan-loader.case.json").toString())), called);
        desk.close();
    }

    private static boolean sameSetup(String text, String other) {
        try {
            return SetupSheet.parse(text.getBytes(StandardCharsets.UTF_8), "now")
                    .equals(SetupSheet.parse(other.getBytes(StandardCharsets.UTF_8), "before"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static String heard(TraceView trace) {
        return GuiActionRunner.execute(() -> trace.getAccessibleContext().getAccessibleDescription());
    }

    private void bringIn(FrameFixture desk, String name) {
        desk.button("bring in").click();
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.setCurrentDirectory(demo.toFile());
        chooser.selectFile(demo.resolve(name).toFile()).approve();
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        desk.label("status").click(); // the window, not the dialog that is gone, has the focus
    }

    private static String read(Path file) {
        try {
            return Files.exists(file) ? Files.readString(file) : "";
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void nothingLongRanOnTheEventThread() {
        assertEquals(Set.of(), watch.misplaced());
        assertTrue(watch.longestMs() < 500, watch.longestMs() + " ms in " + watch.longest());
    }
}
