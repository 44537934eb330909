package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Point;
import java.awt.event.KeyEvent;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import javax.swing.JList;
import javax.swing.SwingUtilities;
import org.assertj.swing.core.MouseButton;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.fixture.JOptionPaneFixture;
import org.assertj.swing.timing.Timeout;
import org.holdtrace.command.CaseTexts;
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
                        "bar, cm3",
                        "--paper",
                        "a4")),
                called);
        assertTrue(setups.get(0).contains("\"port\" : \"C\""), setups.get(0));
        assertEquals("1 was refused: why?", desk.button("refused").text());
        desk.close();
    }

    @Test
    void whatIsNotRightYetInAFieldIsThereAgainAfterAnotherRecordingAndNextMorning() {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv", "07-heron-load-check.csv");
        desk.tabbedPane("beside the trace").selectTab("Setup");
        desk.list("hold tests").selectItem(0);
        String right = desk.textBox("limit").text();
        desk.textBox("limit").selectAll().enterText("0.2 cmm/min");
        String why = desk.textBox("limit note").text();
        assertTrue(why.startsWith("✗ \"0.2 cmm/min\"") && why.endsWith("Until then “" + right + "” counts."), why);
        desk.list("hold tests").selectItem(1);
        assertNotEquals("0.2 cmm/min", desk.textBox("limit").text());
        desk.list("hold tests").selectItem(0);
        assertEquals("0.2 cmm/min", desk.textBox("limit").text());
        assertEquals(why, desk.textBox("limit note").text());
        desk.close();

        FrameFixture next = openDesk();
        next.button("go on").click();
        until("both are there again", () -> next.label("status").text().equals("2 recordings brought in"));
        next.tabbedPane("beside the trace").selectTab("Setup");
        next.list("hold tests").selectItem(0);
        assertEquals("0.2 cmm/min", next.textBox("limit").text());
        assertEquals(why, next.textBox("limit note").text());
        next.textBox("limit").selectAll().enterText("0.2 cm3/min");
        until("nothing is unfinished any more", () -> demoNotes().noneMatch(Files::exists));
        next.close();
    }

    private Stream<Path> demoNotes() {
        return Stream.of("08-thistle-clamp.work.json", "07-heron-load-check.work.json")
                .map(demo::resolve);
    }

    @Test
    void whenAnotherProgramChangedTheSetupAPersonDecides() throws IOException {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        Path beside = demo.resolve("08-thistle-clamp.setup.json");
        desk.tabbedPane("beside the trace").selectTab("Setup");
        String theirs = "{ \"limit\": \"3 cm3/min\" }";
        Files.writeString(beside, theirs);
        desk.textBox("limit").selectAll().enterText("0.2 cm3/min");
        JOptionPaneFixture asks = desk.optionPane(Timeout.timeout(20_000));
        Screens.keep(SwingUtilities.getWindowAncestor(asks.target()), "desk-changed-by-another");
        asks.buttonWithText("Decide later").click();
        assertEquals(theirs, read(beside));
        desk.textBox("port").selectAll().enterText("C");
        desk.optionPane(Timeout.timeout(20_000)).buttonWithText("Write over it").click();
        until("ours stands there", () -> read(beside).contains("\"port\" : \"C\""));
        assertTrue(read(beside).contains("\"limit\" : \"0.2 cm3/min\""));

        Files.writeString(beside, theirs);
        desk.textBox("port").selectAll().enterText("D");
        desk.optionPane(Timeout.timeout(20_000))
                .buttonWithText("Take what stands there")
                .click();
        until("theirs is shown", () -> desk.textBox("limit").text().equals("3 cm3/min"));
        assertEquals("", desk.textBox("port").text());
        desk.close();
    }

    @Test
    void whereTheSetupCannotBeWrittenADraftIsKeptAndSaidSo() throws IOException {
        FrameFixture desk = openDesk();
        bringIn(desk, "08-thistle-clamp.csv");
        Path beside = demo.resolve("08-thistle-clamp.setup.json");
        Files.delete(beside);
        Files.createDirectory(beside); // whoever runs the tests may write anywhere, so the place itself is taken
        desk.tabbedPane("beside the trace").selectTab("Setup");
        desk.textBox("port").selectAll().enterText("C");
        until(
                "it is said",
                () -> desk.label("status")
                        .text()
                        .equals("Kept as a draft: 08-thistle-clamp.setup.json cannot be written"));
        assertEquals("1 was refused: why?", desk.button("refused").text());
        String where = desk.textBox("where it is kept").text();
        assertTrue(where.contains(home.resolve("drafts").toString()), where);
        Screens.keep(desk.target(), "desk-draft");
        desk.close();

        Files.delete(beside);
        FrameFixture next = openDesk();
        next.button("go on").click();
        until("it is there again", () -> next.label("status").text().equals("1 recording brought in"));
        next.tabbedPane("beside the trace").selectTab("Setup");
        assertEquals("C", next.textBox("port").text());
        next.textBox("port").selectAll().enterText("B");
        until("it stands beside now", () -> read(beside).contains("\"port\" : \"B\""));
        until(
                "no word of a draft",
                () -> next.textBox("where it is kept").text().startsWith("Kept as "));
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
        desk.optionPane().okButton().click();
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

    private void bringIn(FrameFixture desk, String... names) {
        desk.button("bring in").click();
        JFileChooserFixture chooser = desk.fileChooser("choose recordings");
        chooser.setCurrentDirectory(demo.toFile());
        File[] files = Stream.of(names).map(each -> demo.resolve(each).toFile()).toArray(File[]::new);
        chooser.selectFiles(files).approve();
        String came = names.length == 1 ? "1 recording brought in" : names.length + " recordings brought in";
        until("it is there", () -> desk.label("status").text().equals(came));
        JList<?> tests = desk.list("hold tests").target();
        until("the window, not the dialog that is gone, has the focus", () -> {
            tests.requestFocusInWindow();
            return tests.isFocusOwner();
        });
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
