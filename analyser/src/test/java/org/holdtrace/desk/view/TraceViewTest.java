package org.holdtrace.desk.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Graphics2D;
import java.awt.event.ActionEvent;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import org.holdtrace.chart.TracePyramid;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.quantity.Unit;
import org.holdtrace.session.CsvTraceReader;
import org.holdtrace.session.SetupReader;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;
import org.junit.jupiter.api.Test;

/** Draws without a window; the pictures stay in {@code target/pictures}. */
class TraceViewTest {
    @Test
    void theKeysZoomPanAndSetCursors() {
        TraceView view = view(Theme.usual(), List.of(), Trace.of(new double[] {0, 60}, new double[] {120e5, 114e5}));
        press(view, "PLUS");
        assertEquals(48, view.window().durationS(), 1e-9);
        press(view, "RIGHT");
        assertEquals(10.8, view.window().fromS(), 1e-9);
        press(view, "HOME");
        assertEquals(new TimeWindow(0, 60), view.window());
        press(view, "1");
        press(view, "2");
        assertEquals(20, view.reading().orElseThrow().deltaS(), 1e-9);
        assertEquals(
                "Shows 0 to 60 s; cursors: Δt 20 s   Δp -2 bar   slope -6 bar/min   no compliance known, so no leak rate",
                view.getAccessibleContext().getAccessibleDescription());
    }

    @Test
    void aDemoTraceIsDrawnInItsColoursAtEverySizeOfType() throws IOException {
        Path folder = Path.of("..", "demo-data");
        Trace trace = CsvTraceReader.read(folder.resolve("07-heron-load-check.csv"));
        List<HoldTest> tests = TraceSegmenter.segment(trace);
        List<HoldTestResult> results = new ArrayList<>();
        for (HoldTest test : tests) {
            results.add(HoldTestEstimator.estimate(
                    trace,
                    test,
                    SetupReader.read(folder.resolve("07-heron-load-check.setup.json")),
                    EstimateOptions.none()));
        }
        for (Theme theme : new Theme[] {Theme.usual(), new Theme(true, 100), new Theme(true, 300)}) {
            TraceView view = view(theme, results, trace);
            view.setCursor(0, tests.get(0).phases().get(1).fromS());
            view.setCursor(1, tests.get(0).phases().get(1).toS());
            BufferedImage image = new BufferedImage(1366, 700, BufferedImage.TYPE_INT_RGB);
            Graphics2D g = image.createGraphics();
            view.paint(g);
            g.dispose();
            Path out = Path.of("target", "pictures");
            Files.createDirectories(out);
            String name = "trace-view-" + (theme.dark() ? "dark-" : "light-") + theme.textPercent() + ".png";
            ImageIO.write(image, "png", out.resolve(name).toFile());
            Palette palette = theme.palette();
            assertTrue(count(image, palette.measured().getRGB()) > 200, name + " shows the trace");
            assertTrue(count(image, palette.fitted().getRGB()) > 100, name + " shows the fit");
            assertTrue(count(image, palette.holding().getRGB()) > 1000, name + " shows the hold");
        }
    }

    private static TraceView view(Theme theme, List<HoldTestResult> results, Trace trace) {
        List<HoldTest> tests = results.stream().map(HoldTestResult::holdTest).toList();
        TraceView view = new TraceView(new TraceModel(new TracePyramid(trace), tests, results, Unit.BAR), theme);
        view.setSize(1366, 700);
        return view;
    }

    private static void press(TraceView view, String key) {
        view.getActionMap().get(key).actionPerformed(new ActionEvent(view, 0, key));
    }

    private static int count(BufferedImage image, int rgb) {
        int count = 0;
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                count += image.getRGB(x, y) == rgb ? 1 : 0;
            }
        }
        return count;
    }
}
