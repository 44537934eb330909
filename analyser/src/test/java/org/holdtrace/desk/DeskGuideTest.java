package org.holdtrace.desk;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.swing.JFrame;
import javax.swing.JMenu;
import javax.swing.JMenuItem;
import javax.swing.KeyStroke;
import org.assertj.swing.edt.GuiActionRunner;
import org.assertj.swing.fixture.FrameFixture;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.Recordings;
import org.holdtrace.library.WorkNotes;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.TraceSegmenter;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;
import org.junit.jupiter.api.Test;

/** What {@code docs/desk.md} says is so: its menus and keys are there, its figures are those of the demo data today. */
class DeskGuideTest extends WindowTest {
    private static final Path DOCS = Path.of("..", "docs");

    @Test
    void everyMenuAndEveryKeyOfTheGuideIsThere() throws IOException {
        FrameFixture desk = openDesk();
        Map<String, KeyStroke> items = new HashMap<>();
        GuiActionRunner.execute(() -> {
            var bar = ((JFrame) desk.target()).getJMenuBar();
            for (int i = 0; i < bar.getMenuCount(); i++) {
                collect(bar.getMenu(i), bar.getMenu(i).getText(), items);
            }
        });
        String guide = Files.readString(DOCS.resolve("desk.md"));
        Matcher named = Pattern.compile("\\*\\*(Work|Change|Look|Help)\\*\\*,\\s+\\*([^*]+)\\*(?:\\s\\(`([^`]+)`\\))?")
                .matcher(guide);
        int found = 0;
        while (named.find()) {
            String item = named.group(1) + ", " + named.group(2);
            assertTrue(items.containsKey(item), item + " is none of " + items.keySet());
            if (named.group(3) != null && named.group(3).startsWith("Ctrl+")) {
                assertEquals(KeyStroke.getKeyStroke("ctrl " + named.group(3).substring(5)), items.get(item), item);
            }
            found++;
        }
        assertTrue(found >= 7, "only " + found + " menu items are named");
        desk.close();
    }

    private static void collect(JMenu menu, String title, Map<String, KeyStroke> items) {
        for (int i = 0; i < menu.getItemCount(); i++) {
            JMenuItem item = menu.getItem(i);
            if (item instanceof JMenu inner) {
                collect(inner, title, items);
            } else if (item != null) {
                items.put(title + ", " + item.getText(), item.getAccelerator());
            }
        }
    }

    @Test
    void theFiguresOfTheGuideAreThoseOfTheDemoDataToday() throws IOException {
        String guide = Files.readString(DOCS.resolve("desk.md"));
        List<String> words = List.of("nine", "ten", "eleven", "twelve", "thirteen");
        int tests = 0;
        try (DirectoryStream<Path> files = Files.newDirectoryStream(demo, "*.{hold,csv}")) {
            for (Path file : files) {
                tests += TraceSegmenter.segment(
                                Recordings.read(new InputFile(file, "demo")).trace())
                        .size();
            }
        }
        String counted = words.get(tests - 9) + " hold tests appear";
        assertTrue(guide.contains(counted), counted);

        InputFile clamp = new InputFile(demo.resolve("08-thistle-clamp.csv"), "clamp");
        Recording recording = Recordings.read(clamp);
        List<HoldTest> found = TraceSegmenter.segment(recording.trace());
        String json = guide.substring(guide.indexOf("```json") + 7, guide.indexOf("```", guide.indexOf("```json") + 7));
        WorkNotes notes = WorkNotes.parse(json.getBytes(StandardCharsets.UTF_8), "the guide");
        List<HoldTest> moved = notes.applied(recording.trace(), found);
        assertTrue(!moved.equals(found), "the boundary of the example is still found there");

        for (String name : List.of("02-bramble-bucket-port-a.hold", "08-thistle-clamp.csv")) {
            String figure = figure(new InputFile(demo.resolve(name), name));
            assertTrue(guide.contains(figure), name + ": " + figure);
        }
    }

    /** The leak and its verdict as the window says them. */
    private static String figure(InputFile input) throws IOException {
        Recording recording = Recordings.read(input);
        TestSetup setup = Recordings.setupOf(input, recording);
        HoldTestResult result = HoldTestEstimator.estimate(
                recording.trace(), TraceSegmenter.segment(recording.trace()).get(0), setup, EstimateOptions.none());
        return Sentences.leak(result.leak().orElseThrow(), ShownUnits.METRIC);
    }
}
