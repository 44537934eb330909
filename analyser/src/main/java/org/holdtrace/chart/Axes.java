package org.holdtrace.chart;

import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.util.Locale;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.chart.axis.TickUnits;
import org.jfree.chart.ui.RectangleInsets;

/** Axes with large type and round numbers, whatever the machine's language. */
final class Axes {
    private static final int FINEST_DECADE = -7;
    private static final int COARSEST_DECADE = 7;

    private Axes() {}

    /** An axis from {@code lower} to {@code upper} with ticks at 1, 2 and 5 times powers of ten. */
    static NumberAxis number(String label, double lower, double upper) {
        NumberAxis axis = new NumberAxis(label);
        axis.setStandardTickUnits(tickUnits());
        axis.setAutoRangeIncludesZero(false);
        double room = upper > lower ? 0 : Math.max(1e-6, 0.05 * Math.abs(lower));
        axis.setRange(lower - room, upper + room);
        axis.setLabelFont(Ink.LABEL);
        axis.setTickLabelFont(Ink.TICK);
        axis.setLabelPaint(Ink.TEXT);
        axis.setTickLabelPaint(Ink.TEXT);
        axis.setAxisLinePaint(Ink.TEXT);
        axis.setTickMarkPaint(Ink.TEXT);
        axis.setTickMarkOutsideLength(6);
        // Large insets make the library choose fewer, wider spaced ticks.
        axis.setTickLabelInsets(new RectangleInsets(3, 9, 3, 9));
        return axis;
    }

    /** An axis of pressures. */
    static NumberAxis pressure(ShownUnits units, double lower, double upper) {
        return number("pressure [" + ShownUnits.name(units.pressure()) + "]", lower, upper);
    }

    /** An axis of leak rates. */
    static NumberAxis leak(ShownUnits units, double lower, double upper) {
        return number("leak [" + ShownUnits.name(units.flow()) + "]", lower, upper);
    }

    /** A tick every {@code size}, labelled with as many decimals as that needs. */
    static NumberTickUnit tickUnit(double size) {
        int decimals = Math.max(0, (int) -Math.floor(Math.log10(size) + 1e-9));
        String pattern = decimals == 0 ? "0" : "0." + "0".repeat(decimals);
        return new NumberTickUnit(size, new DecimalFormat(pattern, DecimalFormatSymbols.getInstance(Locale.ROOT)));
    }

    private static TickUnits tickUnits() {
        TickUnits units = new TickUnits();
        for (int decade = FINEST_DECADE; decade <= COARSEST_DECADE; decade++) {
            for (int factor : new int[] {1, 2, 5}) {
                units.add(tickUnit(factor * Math.pow(10, decade)));
            }
        }
        return units;
    }
}
