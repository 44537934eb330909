package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.Plot;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.RectangleInsets;

/** What the four panels of a picture have in common. */
final class Panels {
    private static final double TITLE_LINE = 38;
    private static final double EXPLANATION_LINE = 28;

    private Panels() {}

    /** An empty plot in the house style; renderers and data are added by the panel. */
    static XYPlot plot(NumberAxis domain, NumberAxis range) {
        XYPlot plot = new XYPlot(null, domain, range, new XYLineAndShapeRenderer(true, false));
        style(plot);
        return plot;
    }

    /** Paper, frame and grid of the house. */
    static void style(XYPlot plot) {
        plot.setBackgroundPaint(Ink.PAPER);
        plot.setOutlinePaint(Ink.TEXT);
        plot.setOutlineStroke(Ink.LINE);
        plot.setDomainGridlinePaint(Ink.GRID);
        plot.setRangeGridlinePaint(Ink.GRID);
        plot.setDomainGridlineStroke(Ink.THIN);
        plot.setRangeGridlineStroke(Ink.THIN);
        plot.setAxisOffset(RectangleInsets.ZERO_INSETS);
        plot.setInsets(new RectangleInsets(14, 4, 4, 28));
    }

    /**
     * Draws a panel's title and, below it, what its marks mean.
     *
     * @param explanation one line for each entry
     * @return what is left of {@code area} below
     */
    static Rectangle2D heading(Graphics2D g, Rectangle2D area, String title, String... explanation) {
        double width = area.getWidth() - 20;
        double x = area.getX() + 10;
        double y = area.getY() + 30;
        Text.left(g, Text.fitting(g, Ink.TITLE, title, width), Ink.TEXT, title, x, y);
        for (String line : explanation) {
            y += EXPLANATION_LINE;
            Text.left(g, Text.fitting(g, Ink.NOTE, line, width), Ink.TEXT, line, x, y);
        }
        double used = TITLE_LINE + EXPLANATION_LINE * explanation.length;
        return new Rectangle2D.Double(area.getX(), area.getY() + used, area.getWidth(), area.getHeight() - used);
    }

    /** Draws {@code plot} without the library's own title and legend. */
    static void draw(Graphics2D g, Plot plot, Rectangle2D area) {
        JFreeChart chart = new JFreeChart(null, null, plot, false);
        chart.setBackgroundPaint(null);
        chart.setPadding(RectangleInsets.ZERO_INSETS);
        chart.draw(g, area);
    }

    /** Says in {@code body} why there is nothing to draw. */
    static void empty(Graphics2D g, Rectangle2D body, String reason) {
        g.setColor(Ink.GRID);
        g.setStroke(Ink.THIN);
        g.draw(new Rectangle2D.Double(body.getX() + 10, body.getY(), body.getWidth() - 20, body.getHeight() - 20));
        double y = body.getCenterY() - 20;
        for (String line : Text.wrapped(g, Ink.LABEL, reason, body.getWidth() - 60)) {
            Text.centred(g, Ink.LABEL, Ink.QUIET, line, body.getCenterX(), y);
            y += 34;
        }
    }

    /** Draws dots as one path of strokes without length, a tenth of the size of a shape for each. */
    static void dots(Graphics2D g, Overlay.Scale scale, double[] x, double[] y) {
        Path2D dots = new Path2D.Double();
        for (int i = 0; i < x.length; i++) {
            dots.moveTo(scale.x(x[i]), scale.y(y[i]));
            dots.lineTo(scale.x(x[i]) + 0.02, scale.y(y[i]));
        }
        g.setColor(Ink.MEASURED);
        g.setStroke(Ink.DOT);
        g.draw(dots);
    }

    /** Words on a strip of paper, so that no line runs through them. */
    static void words(Graphics2D g, String words, double x, double baseLine) {
        g.setColor(Ink.PAPER);
        g.fill(new Rectangle2D.Double(x - 4, baseLine - 20, Text.width(g, Ink.NOTE, words) + 8, 26));
        Text.left(g, Ink.NOTE, Ink.TEXT, words, x, baseLine);
    }
}
