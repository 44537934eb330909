package org.holdtrace.desk.look;

import com.formdev.flatlaf.FlatDarkLaf;
import com.formdev.flatlaf.FlatLaf;
import com.formdev.flatlaf.FlatLightLaf;
import java.awt.Color;
import java.awt.Font;
import java.awt.Window;
import java.util.LinkedHashMap;
import java.util.Map;
import javax.swing.SwingUtilities;
import javax.swing.UIManager;
import javax.swing.plaf.FontUIResource;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.XYPlot;

/**
 * Light or dark, and how large the type is.
 *
 * @param dark whether light stands on dark
 * @param textPercent size of type, 100 to 300 % of the usual
 */
public record Theme(boolean dark, int textPercent) {
    /** Smallest size of type, %. */
    public static final int SMALLEST_PERCENT = 100;
    /** Largest size of type, %. */
    public static final int LARGEST_PERCENT = 300;

    /** With larger type, lines of the usual length would be wider than a small screen, %. */
    private static final int LARGEST_WIDE_PERCENT = 150;

    private static final float USUAL_POINTS = 14f;
    /** Pixels. */
    private static final int HIGH_SCREEN = 2000;

    private static final int HIGH_SCREEN_PERCENT = 200;

    public Theme {
        if (textPercent < SMALLEST_PERCENT || textPercent > LARGEST_PERCENT) {
            throw new IllegalArgumentException("text size must be 100 to 300 %, was " + textPercent + " %");
        }
    }

    /**
     * The size of type, %, for whoever has not chosen one yet, on a screen of {@code height} (pixels as Java counts them,
     * which is after the system's own scaling): a screen so high that nothing scales has small pixels.
     */
    public static int firstPercent(int height) {
        return height < HIGH_SCREEN ? SMALLEST_PERCENT : HIGH_SCREEN_PERCENT;
    }

    /** Light, with type of the usual size. */
    public static Theme usual() {
        return new Theme(false, SMALLEST_PERCENT);
    }

    /** The colours that go with it. */
    public Palette palette() {
        return Palette.of(dark);
    }

    /** Plain type {@code times} the size of ordinary text. */
    public Font font(double times) {
        return new Font(Font.SANS_SERIF, Font.PLAIN, 1).deriveFont((float) (USUAL_POINTS * textPercent / 100 * times));
    }

    /** A length of {@code pixels} at 100 %, grown with the type. */
    public double scaled(double pixels) {
        return pixels * textPercent / 100;
    }

    /** Makes this the look of the whole program, windows that are open included. On the event thread. */
    public void install() {
        Palette palette = palette();
        Map<String, String> colours = new LinkedHashMap<>();
        colours.put("@background", hex(dark ? palette.surface() : palette.background()));
        colours.put("@foreground", hex(palette.text()));
        colours.put("@accentColor", hex(palette.accent()));
        colours.put("@disabledForeground", hex(palette.quiet()));
        colours.put("Component.focusWidth", "2");
        colours.put("Button.arc", "4");
        // Questions stay narrower than a small screen.
        colours.put("OptionPane.maxCharactersPerLine", textPercent > LARGEST_WIDE_PERCENT ? "38" : "80");
        // Enter presses the button that has the keyboard, as Space does.
        colours.put("Button.defaultButtonFollowsFocus", "true");
        FlatLaf.setGlobalExtraDefaults(colours);
        if (dark) {
            FlatDarkLaf.setup();
        } else {
            FlatLightLaf.setup();
        }
        UIManager.put("defaultFont", new FontUIResource(font(1)));
        for (Window each : Window.getWindows()) {
            // Those that were closed are listed until the garbage is collected, and a window takes its time.
            if (each.isDisplayable()) {
                SwingUtilities.updateComponentTreeUI(each);
            }
        }
    }

    /** Gives {@code chart} the colours and type of this theme; the caller colours its series. */
    public void apply(JFreeChart chart) {
        Palette palette = palette();
        chart.setBackgroundPaint(palette.background());
        if (chart.getTitle() != null) {
            chart.getTitle().setPaint(palette.text());
            chart.getTitle().setFont(font(1.2).deriveFont(Font.BOLD));
        }
        if (chart.getPlot() instanceof CombinedDomainXYPlot combined) {
            for (Object each : combined.getSubplots()) {
                apply((XYPlot) each, palette);
            }
        }
        if (chart.getPlot() instanceof XYPlot plot) {
            apply(plot, palette);
        }
    }

    private void apply(XYPlot plot, Palette palette) {
        plot.setBackgroundPaint(palette.background());
        plot.setOutlinePaint(palette.text());
        plot.setDomainGridlinePaint(palette.grid());
        plot.setRangeGridlinePaint(palette.grid());
        for (ValueAxis axis : new ValueAxis[] {plot.getDomainAxis(), plot.getRangeAxis()}) {
            if (axis != null) {
                axis.setLabelPaint(palette.text());
                axis.setTickLabelPaint(palette.text());
                axis.setAxisLinePaint(palette.text());
                axis.setTickMarkPaint(palette.text());
                axis.setLabelFont(font(1));
                axis.setTickLabelFont(font(0.95));
            }
        }
    }

    private static String hex(Color color) {
        String digits = Integer.toHexString(color.getRGB() & 0xFFFFFF);
        return "#" + "0".repeat(6 - digits.length()) + digits;
    }
}
