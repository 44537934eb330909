package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Point;
import java.awt.event.KeyEvent;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.assertj.swing.core.MouseButton;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.fixture.JOptionPaneFixture;
import org.holdtrace.command.CaseTexts;
import org.holdtrace.desk.view.TraceView;
import org.holdtrace.desk.work.Commands;
import org.junit.jupiter.api.Test;

/** An analyst's day at the desk, from what comes in to what is written about it. */
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
        listTakesTheKeyboard(desk);
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
        until("it is nearer", () -> Math.abs(trace.window().durationS() - 0.64 * whole) < 1e-6 * whole);
        until("both cursors are set", () -> trace.reading().isPresent());
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
    void aBoundaryIsMovedByMouseAndByKeyboardTheEstimateFollowsAndItIsFoundThereNextMorning() {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        String leak = desk.textBox("leak").text();
        TraceView trace = robot.finder().findByName("trace", TraceView.class);
        watch.begin();
        robot.click(trace);
        robot.pressAndReleaseKeys(KeyEvent.VK_B, KeyEvent.VK_B, KeyEvent.VK_B);
        until("it is chosen", () -> heard(trace).contains("boundary chosen: hold starts at "));
        Point at = GuiActionRunner.execute(() -> trace.placeOfChosenBoundary().orElseThrow());
        robot.moveMouse(trace, at);
        robot.pressMouse(MouseButton.LEFT_BUTTON);
        robot.moveMouse(trace, at.x + 20, at.y);
        robot.moveMouse(trace, at.x + 60, at.y);
        robot.releaseMouseButtons();
        until("it is said", () -> desk.textBox("cautions").text().contains("Moved by hand: \"hold starts\""));
        Screens.keep(desk.target(), "desk-boundary");
        robot.click(trace, new Point(at.x + 60, at.y));
        String dragged = GuiActionRunner.execute(() -> heard(trace));
        robot.pressKey(KeyEvent.VK_SHIFT);
        robot.pressAndReleaseKeys(KeyEvent.VK_RIGHT);
        robot.releaseKey(KeyEvent.VK_SHIFT);
        until("it is moved on", () -> !heard(trace).equals(dragged));
        String moved = GuiActionRunner.execute(() -> heard(trace));
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
    void leaksAreStatedAtAnotherPressureHereAndInWhatTheCommandsWrite() {
        List<List<String>> called = new CopyOnWriteArrayList<>();
        commands = words -> {
            called.add(words);
            return new Commands.Told(0, "", "");
        };
        FrameFixture desk = openDesk();
        bringIn(desk, "02-bramble-bucket-port-a.hold");
        desk.menuItemWithPath("Change", "State leaks at…").click();
        JOptionPaneFixture asks = desk.optionPane();
        asks.textBox().setText("60 bars");
        asks.okButton().click();
        desk.optionPane()
                .requireMessage("\"60 bars\" cannot be understood at \"60 bars\"; expected a pressure, an oil"
                        + " temperature or both, as in \"140 bar, 50 degC\"");
        JOptionPaneFixture why = desk.optionPane();
        why.okButton().click();
        until("it is gone", () -> !why.target().isShowing());
        asks = desk.optionPane();
        asks.textBox().setText("60 bar");
        asks.okButton().click();
        until("it is so", () -> desk.textBox("leak").text().contains(" at 60 bar "));
        assertEquals(
                "As asked, leaks are stated at 60 bar.", desk.textBox("asked").text());
        desk.menuItemWithPath("Work", "Pictures of all hold tests…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose pictures");
        chooser.selectFile(home.toFile()).approve();
        until("it was called", () -> !called.isEmpty());
        assertEquals(List.of("--at", "60 bar"), called.get(0).subList(4, 6));

        desk.menuItemWithPath("Change", "Take a line check off…").click();
        chooser = desk.fileChooser("choose line check");
        chooser.selectFile(demo.resolve("01-line-check.hold").toFile()).approve();
        until(
                "it is taken off",
                () -> said("asked")
                        .equals(
                                "As asked, leaks are stated at 60 bar. The leak and compliance of a line check are taken off."));
        desk.close();

        FrameFixture next = openDesk();
        next.button("go on").click();
        until("it is there", () -> next.label("status").text().equals("1 recording brought in"));
        until("it is asked for again", () -> said("asked").contains("line check"));
        next.close();
    }

    @Test
    void aSimulatedSessionComesOntoTheDesk() {
        commands = words -> {
            try {
                Files.copy(demo.resolve("02-bramble-bucket-port-a.hold"), Path.of(words.get(3)));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return new Commands.Told(0, "", "");
        };
        FrameFixture desk = openDesk();
        desk.menuItemWithPath("Work", "Simulate a session…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose rig");
        chooser.fileNameTextBox().setText(home.resolve("worn.rig.json").toString());
        chooser.approve();
        chooser = desk.fileChooser("choose simulated");
        chooser.fileNameTextBox().setText(home.resolve("worn").toString());
        chooser.approve();
        until("it is there", () -> desk.label("status").text().equals("1 recording brought in"));
        assertTrue(
                desk.textBox("tested").text().contains("worn.hold"),
                desk.textBox("tested").text());
        desk.close();
    }

    @Test
    void aCaseIsShownAsAViewInWordsAndFiguresOfTheCommand() {
        List<List<String>> called = new CopyOnWriteArrayList<>();
        commands = words -> {
            called.add(words);
            return new Commands.Told(0, "", "");
        };
        FrameFixture desk = openDesk();
        desk.menuItemWithPath("Work", "Judge a case…").click();
        JFileChooserFixture chooser = desk.fileChooser("choose case");
        Path file = demo.resolve("rowan-loader.case.json");
        chooser.fileNameTextBox().setText(file.toString());
        watch.begin();
        chooser.approve();
        until("it is judged", () -> desk.label("status").text().equals("Judged"));
        String parts = GuiActionRunner.execute(() -> robot.finder()
                .findByName("parts", RowsView.class)
                .getAccessibleContext()
                .getAccessibleDescription());
        String text = CaseTexts.of(file);
        for (String line : parts.split("\\. ", -1)) {
            String part = line.substring(2, line.indexOf(':'));
            String chance = line.substring(line.indexOf(':') + 2, line.indexOf('%') - 1);
            assertTrue(
                    text.lines().anyMatch(each -> each.contains(part) && each.contains(chance + " %")),
                    part + " at " + chance + " %, but the command says\n" + text);
        }
        Screens.keep(desk.target(), "desk-case");
        Path open = withoutLastTest(file);
        desk.button("choose a case").click();
        chooser = desk.fileChooser("choose case");
        chooser.fileNameTextBox().setText(open.toString());
        chooser.approve();
        until("it is open", () -> said("case standing").equals("OPEN"));
        Screens.keep(desk.target(), "desk-case-open");
        desk.menuItemWithPath("Look", "Dark").click();
        Screens.keep(desk.target(), "desk-case-dark");
        desk.menuItemWithPath("Look", "Light").click();
        desk.button("plan test").click();
        chooser = desk.fileChooser("choose plan");
        chooser.selectFile(home.toFile()).approve();
        until("it was called", () -> !called.isEmpty());
        assertEquals(
                List.of(
                        "case",
                        open.toString(),
                        "--plan",
                        home.toString(),
                        "--choose",
                        "1",
                        "--units",
                        "bar, cm3",
                        "--paper",
                        "a4"),
                called.get(0));
        until(
                "it is said where the sheet is",
                () -> desk.label("status").text().equals("Done: " + home.getFileName() + " in " + home.getParent()));
        nothingLongRanOnTheEventThread();
        desk.close();
    }

    /** A case that is open again, since its last hold test is taken out. */
    private static Path withoutLastTest(Path file) {
        String text = read(file);
        int last = text.indexOf("{\n      \"name\": \"bore side\"");
        try {
            return Files.writeString(
                    file.resolveSibling("open.case.json"),
                    text.substring(0, text.lastIndexOf(',', last))
                            + text.substring(text.indexOf(']', text.indexOf('}', last))));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** On the event thread. */
    private static String heard(TraceView trace) {
        return trace.getAccessibleContext().getAccessibleDescription();
    }
}
