package org.holdtrace.desk.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.lang.reflect.InvocationTargetException;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.SwingUtilities;
import org.jfree.chart.ChartFactory;
import org.jfree.chart.JFreeChart;
import org.junit.jupiter.api.Test;

class ThemeTest {
    @Test
    void installingSetsColoursAndSizeOfOrdinaryComponents() throws InterruptedException, InvocationTargetException {
        for (Theme theme : new Theme[] {new Theme(true, 300), new Theme(false, 150), Theme.usual()}) {
            SwingUtilities.invokeAndWait(() -> {
                theme.install();
                JLabel label = new JLabel("hold");
                assertEquals(theme.font(1).getSize2D(), label.getFont().getSize2D());
                assertEquals(
                        theme.palette().text().getRGB(), label.getForeground().getRGB());
                Palette p = theme.palette();
                assertEquals(
                        (theme.dark() ? p.surface() : p.background()).getRGB(),
                        new JPanel().getBackground().getRGB());
            });
        }
    }

    @Test
    void aChartTakesTheThemesColoursAndType() {
        JFreeChart chart = ChartFactory.createXYLineChart("t", "x", "y", null);
        Theme theme = new Theme(true, 200);
        theme.apply(chart);
        assertEquals(Palette.DARK.background(), chart.getBackgroundPaint());
        assertEquals(Palette.DARK.text(), chart.getXYPlot().getDomainAxis().getTickLabelPaint());
        assertEquals(28f, chart.getXYPlot().getRangeAxis().getLabelFont().getSize2D());
    }

    @Test
    void onAScreenWithSmallPixelsTypeIsLargeFromTheFirstDay() {
        assertEquals(100, Theme.firstPercent(768));
        assertEquals(100, Theme.firstPercent(1440));
        assertEquals(200, Theme.firstPercent(2160));
    }

    @Test
    void typeOutsideItsRangeIsRefused() {
        assertEquals(
                "text size must be 100 to 300 %, was 90 %",
                assertThrows(IllegalArgumentException.class, () -> new Theme(false, 90))
                        .getMessage());
    }
}
