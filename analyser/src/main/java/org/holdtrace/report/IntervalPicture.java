package org.holdtrace.report;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.Optional;
import org.holdtrace.chart.Typeface;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** The leak and its interval on a line from zero, with the limit across: who looks once sees on which side it lies. */
final class IntervalPicture {
    static final int WIDTH = 1600;
    static final int HEIGHT = 190;

    private static final Color INK = new Color(0x14, 0x14, 0x14);
    private static final Color ALLOWED = new Color(0xE4, 0xE4, 0xE4);
    private static final Color INTERVAL = new Color(0x1B, 0x40, 0x6B);
    private static final double LEFT = 30;
    private static final double RIGHT = WIDTH - 60;
    private static final double LINE = 105;

    private IntervalPicture() {}

    static void draw(Graphics2D g, HoldTestResult.Leak leak, Optional<Double> limitM3PerS, ShownUnits units) {
        double limit = limitM3PerS.orElse(0.0);
        double most = 1.12 * Math.max(leak.upper95(), limit);
        g.setFont(Typeface.font(Font.PLAIN, 30));
        if (limit > 0) {
            g.setColor(ALLOWED);
            g.fill(new Rectangle2D.Double(LEFT, LINE - 34, x(limit, most) - LEFT, 68));
        }
        g.setColor(INK);
        g.setStroke(new BasicStroke(3));
        g.draw(new Line2D.Double(LEFT, LINE + 34, RIGHT, LINE + 34));
        label(g, "0", LEFT, LINE + 74);
        double from = x(leak.lower95(), most);
        double to = Math.max(from + 4, x(leak.upper95(), most));
        g.setColor(INTERVAL);
        g.fill(new Rectangle2D.Double(from, LINE - 17, to - from, 34));
        if (leak.law() != Law.NONE) {
            g.setColor(INK);
            double at = x(leak.m3PerS(), most);
            g.fill(new Rectangle2D.Double(at - 3, LINE - 28, 6, 56));
        }
        g.setColor(INK);
        label(
                g,
                leak.law() == Law.NONE
                        ? "no leak above " + Phrases.bound(leak.upper95(), 2, units)
                        : "leak, 95 %: " + Phrases.interval(leak.lower95(), leak.upper95(), units),
                (from + to) / 2,
                LINE + 74);
        if (limit > 0) {
            g.setStroke(new BasicStroke(6));
            g.draw(new Line2D.Double(x(limit, most), LINE - 52, x(limit, most), LINE + 34));
            g.setFont(Typeface.font(Font.BOLD, 30));
            label(g, "limit " + Phrases.bound(limit, 4, units), x(limit, most), LINE - 64);
        }
    }

    private static double x(double m3PerS, double most) {
        return LEFT + (RIGHT - LEFT) * Math.max(0, m3PerS) / most;
    }

    /** Centred on {@code x}, but never past the edge. */
    private static void label(Graphics2D g, String text, double x, double baseLine) {
        double width = g.getFontMetrics().getStringBounds(text, g).getWidth();
        double left = Math.max(x == LEFT ? LEFT : LEFT + 40, Math.min(RIGHT + 40 - width, x - width / 2));
        g.drawString(text, (float) left, (float) baseLine);
    }
}
