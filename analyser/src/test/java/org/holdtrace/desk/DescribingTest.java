package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.event.KeyEvent;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Stream;
import javax.swing.SwingUtilities;
import org.assertj.swing.fixture.DialogFixture;
import org.assertj.swing.fixture.FrameFixture;
import org.assertj.swing.fixture.JFileChooserFixture;
import org.assertj.swing.fixture.JOptionPaneFixture;
import org.holdtrace.desk.work.Commands;
import org.holdtrace.session.SetupSheet;
import org.junit.jupiter.api.Test;

/** Describing a test at the desk: the form of the setup, and that nothing of what was written there is lost. */
class DescribingTest extends WindowTest {
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
                        + " l/h, in3/min, gpm or m3/s). Until then “0.5 cm3/min” counts.",
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
    void aReportIsAskedForWithWhatWasChangedLastAlreadyBesideTheRecording() {
        List<List<String>> called = new CopyOnWriteArrayList<>();
        List<String> setups = new CopyOnWriteArrayList<>();
        commands = words -> {
            called.add(words);
            setups.add(read(demo.resolve("08-thistle-clamp.setup.json")));
            return new Commands.Told(1, "", "something to know\n");
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
        goOn(next, "2 recordings brought in");
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
        // In one go: the question comes 0.3 s after the first key, which a busy computer's typing takes longer than.
        desk.textBox("limit").setText("0.2 cm3/min");
        JOptionPaneFixture asks = desk.optionPane();
        Screens.keep(SwingUtilities.getWindowAncestor(asks.target()), "desk-changed-by-another");
        asks.buttonWithText("Decide later").click();
        assertEquals(theirs, read(beside));
        desk.textBox("port").selectAll().enterText("C");
        desk.optionPane().buttonWithText("Write over it").click();
        until("ours stands there", () -> read(beside).contains("\"port\" : \"C\""));
        assertTrue(read(beside).contains("\"limit\" : \"0.2 cm3/min\""));

        Files.writeString(beside, theirs);
        desk.textBox("port").selectAll().enterText("D");
        desk.optionPane().buttonWithText("Take what stands there").click();
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
        goOn(next, "1 recording brought in");
        next.tabbedPane("beside the trace").selectTab("Setup");
        assertEquals("C", next.textBox("port").text());
        next.textBox("port").selectAll().enterText("B");
        until("it stands beside now", () -> read(beside).contains("\"port\" : \"B\""));
        until(
                "it is said",
                () -> next.label("status").text().equals("Kept beside 08-thistle-clamp.csv again, the draft is gone"));
        until(
                "no word of a draft",
                () -> next.textBox("where it is kept").text().startsWith("Kept as "));
        next.close();
    }

    private static boolean sameSetup(String text, String other) {
        try {
            return SetupSheet.parse(text.getBytes(StandardCharsets.UTF_8), "now")
                    .equals(SetupSheet.parse(other.getBytes(StandardCharsets.UTF_8), "before"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
