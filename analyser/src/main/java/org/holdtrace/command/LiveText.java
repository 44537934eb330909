package org.holdtrace.command;

import static org.holdtrace.wording.Figures.bar;
import static org.holdtrace.wording.Figures.cm3PerMin;
import static org.holdtrace.wording.Figures.decimalsFor;
import static org.holdtrace.wording.Figures.fixed;

import org.holdtrace.link.Status;

/** A logger's state as one line of columns that keep their place. */
final class LiveText {
    private static final int PRESSURE_WIDTH = 7;
    private static final int PHASE_WIDTH = 9;
    private static final int STROKES_WIDTH = 3;
    private static final int LEAK_WIDTH = 22;
    private static final int TIME_WIDTH = 7;
    private static final double NS_PER_S = 1e9;

    private LiveText() {}

    /**
     * Such as {@code 120.3 bar | hold      |  12 strokes | 7.81 ± 0.40 cm³/min}. The leak and its standard uncertainty
     * are what the logger can tell so far. Fits a terminal of 80 columns.
     */
    static String line(Status status) {
        return right(fixedOrDash(bar(status.pressurePa()), 1), PRESSURE_WIDTH) + " bar | "
                + left(status.phase().map(phase -> phase.label()).orElse("-"), PHASE_WIDTH) + " | "
                + right(Integer.toString(status.strokes()), STROKES_WIDTH)
                + (status.strokes() == 1 ? " stroke  | " : " strokes | ")
                + left(leak(status), LEAK_WIDTH) + (status.enough() ? " | ENOUGH" : "");
    }

    /** The line with the seconds since {@code firstNs} before it and the advice behind it. */
    static String timedLine(Status status, long firstNs) {
        return right(fixed((status.timeNs() - firstNs) / NS_PER_S, 1), TIME_WIDTH) + " s " + line(status) + " | "
                + PlainText.of(status.advice());
    }

    private static String leak(Status status) {
        double rate = cm3PerMin(status.leakM3PerS());
        double u = cm3PerMin(status.leakUncertaintyM3PerS());
        if (!Double.isFinite(rate)) {
            return status.enough() ? "no stroke or volume" : "no leak rate yet";
        }
        if (!(u > 0)) {
            return fixed(rate, 2) + " cm³/min";
        }
        int decimals = decimalsFor(rate - u, rate + u);
        return fixed(rate, decimals) + " ± " + fixed(u, decimals) + " cm³/min";
    }

    private static String fixedOrDash(double value, int decimals) {
        return Double.isFinite(value) ? fixed(value, decimals) : "-";
    }

    private static String right(String text, int width) {
        return " ".repeat(Math.max(0, width - text.length())) + text;
    }

    private static String left(String text, int width) {
        return text + " ".repeat(Math.max(0, width - text.length()));
    }
}
