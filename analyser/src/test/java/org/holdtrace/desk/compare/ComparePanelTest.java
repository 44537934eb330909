package org.holdtrace.desk.compare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Component;
import java.awt.Container;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import javax.imageio.ImageIO;
import javax.swing.JCheckBox;
import javax.swing.JTable;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.library.InputFile;
import org.holdtrace.library.Recording;
import org.holdtrace.library.Recordings;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.TraceSegmenter;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.ChartPanel;
import org.junit.jupiter.api.Test;

/** The bucket spool of the demo workshop's loader before and after its rebuild. */
class ComparePanelTest {
    @Test
    void afterTheRebuildItLeaksLessBeyondBothIntervalsAndTwoTestsOfOneSpoolDoNotDiffer() throws IOException {
        List<Compared> tests = new ArrayList<>(tests("02-bramble-bucket-port-a"));
        tests.addAll(tests("10-bramble-bucket-after-rebuild"));
        Comparison comparison = Comparison.of(tests);
        assertEquals("what the others are compared with", comparison.words(0));
        assertEquals("leaks less, beyond both intervals", comparison.words(1));
        assertEquals(Comparison.Difference.LESS, comparison.difference(2));
        assertEquals(
                Comparison.Difference.NONE_TO_TELL,
                Comparison.of(tests.subList(1, 3)).difference(1));
        assertEquals(
                Comparison.Difference.MORE,
                Comparison.of(List.of(tests.get(1), tests.get(0))).difference(1));

        ComparePanel panel = new ComparePanel();
        panel.setTests(tests);
        JTable table = (JTable) find(panel, "leak rates");
        assertEquals(3, table.getRowCount());
        assertEquals("leaks less, beyond both intervals", table.getValueAt(1, 4));
        assertTrue(
                table.getColumnName(3).matches("leak at \\d+(\\.\\d+)? bar \\[cm³/min\\], 95 %"),
                table.getColumnName(3));
        draw(panel, "compare-light");
        ((JCheckBox) find(panel, "as share")).doClick();
        panel.look(new Theme(true, 100), ShownUnits.parse("psi, in3"));
        assertTrue(table.getColumnName(3).contains("psi [in³/min]"), table.getColumnName(3));
        draw(panel, "compare-dark");
        table.setValueAt(false, 0, 0);
        assertEquals(2, panel.comparison().tests().size());
        assertEquals("", table.getValueAt(0, 4));
        assertEquals("what the others are compared with", table.getValueAt(1, 4));
    }

    @Test
    void ratesAreComparedAtOnePressureOrNotAtAll() throws IOException {
        Compared test = tests("03-bramble-bucket-port-b").get(0);
        double atPa = test.result().leak().orElseThrow().atPa();
        assertEquals(
                test.result().leak().orElseThrow().m3PerS(),
                test.rateAt(atPa).orElseThrow().m3PerS());
        assertTrue(test.rateAt(10 * atPa).isEmpty(), "nobody measured there");
    }

    private static List<Compared> tests(String stem) throws IOException {
        Path file = Path.of("..", "demo-data", stem + ".hold");
        InputFile input = new InputFile(file, stem);
        Recording recording = Recordings.read(input);
        TestSetup setup = Recordings.setupOf(input, recording);
        List<Compared> tests = new ArrayList<>();
        for (HoldTest test : TraceSegmenter.segment(recording.trace())) {
            tests.add(new Compared(
                    stem + ", test " + test.number(),
                    recording.trace(),
                    HoldTestEstimator.estimate(recording.trace(), test, setup, EstimateOptions.none())));
        }
        return tests;
    }

    private static Component find(Container in, String name) {
        for (Component each : in.getComponents()) {
            if (name.equals(each.getName())) {
                return each;
            }
            if (each instanceof Container container) {
                Component found = find(container, name);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    @Test
    void theAxisIsNamedBrieflyWhereLargeTypeLeavesALowPicture() {
        ComparePanel panel = new ComparePanel();
        panel.setSize(1366, 600);
        panel.look(new Theme(false, 100), ShownUnits.METRIC);
        assertEquals("pressure [bar]", axis(panel));
        panel.look(new Theme(false, 300), ShownUnits.METRIC);
        assertEquals("[bar]", axis(panel));
        panel.look(new Theme(false, 300), ShownUnits.parse("psi, in3"));
        assertEquals("[psi]", axis(panel));
        ((JCheckBox) find(panel, "as share")).doClick();
        assertEquals("[%]", axis(panel));
        panel.look(new Theme(false, 100), ShownUnits.METRIC);
        assertEquals("pressure [% of the start]", axis(panel));
    }

    private static String axis(ComparePanel panel) {
        ChartPanel picture = (ChartPanel) find(panel, "holds over one another");
        return picture.getChart().getXYPlot().getRangeAxis().getLabel();
    }

    @Test
    void everyWordOfTheTableIsSeenOnASmallScreen() throws IOException {
        ComparePanel panel = new ComparePanel();
        Compared cylinder = tests("04-bramble-lift-cylinder").get(0);
        panel.setTests(List.of(
                tests("01-line-check").get(0),
                new Compared(
                        "Arm section with its port relief, port B · 06-heron-port-relief.hold",
                        cylinder.trace(),
                        cylinder.result())));
        draw(panel, "compare-words");
        JTable table = (JTable) find(panel, "leak rates");
        for (int row = 0; row < table.getRowCount(); row++) {
            for (int column = 1; column < table.getColumnCount(); column++) {
                Component cell = table.prepareRenderer(table.getCellRenderer(row, column), row, column);
                assertTrue(
                        cell.getPreferredSize().width <= table.getCellRect(row, column, false).width,
                        table.getValueAt(row, column) + " in " + table.getCellRect(row, column, false));
            }
        }
    }

    private static void draw(ComparePanel panel, String name) throws IOException {
        panel.setSize(1366, 768);
        layOut(panel);
        BufferedImage image = new BufferedImage(1366, 768, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        panel.printAll(g);
        g.dispose();
        Path out = Files.createDirectories(Path.of("target", "pictures"));
        ImageIO.write(image, "png", out.resolve(name + ".png").toFile());
    }

    private static void layOut(Container container) {
        container.doLayout();
        for (Component each : container.getComponents()) {
            if (each instanceof Container inside) {
                layOut(inside);
            }
        }
    }
}
