package org.holdtrace.chart;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleInsets;

/** The rate by each route and the two combined, one below the other on one scale, with the limit across. */
final class RoutesPanel {
    private static final String TITLE = "D  Routes to the leak rate";

    private RoutesPanel() {}

    /** One line of the panel, in the unit shown. */
    private record Row(String name, String figures, double rate, double lower, double upper, boolean combined) {}

    static void draw(
            Graphics2D g, Rectangle2D area, HoldTestResult result, Optional<Double> limitM3PerS, ShownUnits units) {
        List<Row> rows = rows(result, units);
        if (rows.isEmpty()) {
            Panels.empty(
                    g,
                    Panels.heading(g, area, TITLE),
                    "No route to a leak rate is open: inputs or a usable hold are missing.");
            return;
        }
        Rectangle2D body = Panels.heading(g, area, TITLE, marks(limitM3PerS, units), agreement(result));
        double lowest = 0;
        double highest = 1e-9;
        for (Row row : rows) {
            lowest = Math.min(lowest, row.lower());
            highest = Math.max(highest, row.upper());
        }
        double limit = limitM3PerS.map(units.flow()::fromSi).orElse(Double.NaN);
        if (limit > highest) {
            highest = limit;
        }
        double room = 0.06 * (highest - lowest);
        NumberAxis rate = Axes.leak(units, lowest - room, highest + room);
        NumberAxis row = Axes.number(null, 0, rows.size());
        row.setInverted(true);
        row.setTickLabelsVisible(false);
        row.setTickMarksVisible(false);
        XYPlot plot = Panels.plot(rate, row);
        // Room for half the label of the tick at its left end.
        plot.setInsets(new RectangleInsets(14, 28, 4, 28));
        plot.setRangeGridlinesVisible(false);
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, false);
        renderer.addAnnotation(new Overlay((g2, scale) -> limit(g2, scale, limit)), Layer.BACKGROUND);
        renderer.addAnnotation(new Overlay((g2, scale) -> rows(g2, scale, rows)), Layer.FOREGROUND);
        plot.setRenderer(renderer);
        plot.setDataset(new Points("routes", new double[] {0}, new double[] {0}));
        Panels.draw(g, plot, body);
    }

    private static String marks(Optional<Double> limitM3PerS, ShownUnits units) {
        return "bars: 95 % intervals"
                + limitM3PerS
                        .map(limit -> ", dashed: limit "
                                + Figures.significant(units.flow().fromSi(limit), 4))
                        .orElse("");
    }

    private static String agreement(HoldTestResult result) {
        if (result.agreement().isEmpty()) {
            return "only one route is open";
        }
        return result.agreement().get().agree() ? "the routes agree" : "the routes DISAGREE";
    }

    private static List<Row> rows(HoldTestResult result, ShownUnits units) {
        List<Row> rows = new ArrayList<>();
        for (HoldTestResult.RouteRate route : result.routes()) {
            rows.add(row(route.route().label(), route.m3PerS(), route.lower95(), route.upper95(), false, units));
        }
        result.leak().ifPresent(leak -> {
            if (leak.law() == Law.NONE) {
                double upper = units.flow().fromSi(leak.upper95());
                rows.add(new Row("together", "none above " + Figures.significant(upper, 2), 0, 0, upper, true));
            } else {
                rows.add(row("together", leak.m3PerS(), leak.lower95(), leak.upper95(), true, units));
            }
        });
        return rows;
    }

    private static Row row(String name, double m3PerS, double lower, double upper, boolean combined, ShownUnits units) {
        return new Row(
                name,
                Phrases.rateWithInterval(m3PerS, lower, upper, units),
                units.flow().fromSi(m3PerS),
                units.flow().fromSi(lower),
                units.flow().fromSi(upper),
                combined);
    }

    private static void rows(Graphics2D g, Overlay.Scale scale, List<Row> rows) {
        Rectangle2D area = scale.area();
        double height = area.getHeight() / rows.size();
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            double top = area.getY() + i * height;
            if (row.combined() && i > 0) {
                g.setColor(Ink.TEXT);
                g.setStroke(Ink.THIN);
                g.draw(new Line2D.Double(area.getX(), top, area.getMaxX(), top));
            }
            caption(g, area, row, top);
            bar(g, scale, row, top + Math.min(height - 24, 0.5 * height + 24));
        }
    }

    /** Name and figures on a strip of paper, so that the limit's line does not run through the words. */
    private static void caption(Graphics2D g, Rectangle2D area, Row row, double top) {
        double width = area.getWidth() - 28;
        String together = row.name() + "  " + row.figures();
        var font = Text.fitting(g, row.combined() ? Ink.TITLE.deriveFont(25f) : Ink.LABEL, together, width);
        g.setColor(Ink.PAPER);
        g.fill(new Rectangle2D.Double(area.getX() + 2, top + 5, area.getWidth() - 4, 36));
        Text.left(g, font, Ink.TEXT, row.name(), area.getX() + 12, top + 33);
        Text.right(g, font, Ink.TEXT, row.figures(), area.getMaxX() - 12, top + 33);
    }

    private static void bar(Graphics2D g, Overlay.Scale scale, Row row, double y) {
        Color color = row.combined() ? Ink.TEXT : Ink.MEASURED;
        double from = scale.x(row.lower());
        double to = scale.x(row.upper());
        double at = scale.x(row.rate());
        double half = row.combined() ? 13 : 9;
        g.setColor(color);
        g.setStroke(row.combined() ? Ink.HEAVY : Ink.LINE);
        g.draw(new Line2D.Double(from, y, to, y));
        g.draw(new Line2D.Double(from, y - half, from, y + half));
        g.draw(new Line2D.Double(to, y - half, to, y + half));
        if (row.combined()) {
            g.fill(new Rectangle2D.Double(at - 8, y - 8, 16, 16));
        } else {
            g.fill(new java.awt.geom.Ellipse2D.Double(at - 7, y - 7, 14, 14));
        }
    }

    private static void limit(Graphics2D g, Overlay.Scale scale, double limit) {
        if (Double.isNaN(limit)) {
            return;
        }
        double x = scale.x(limit);
        g.setColor(Ink.TEXT);
        g.setStroke(Ink.LIMIT);
        g.draw(new Line2D.Double(x, scale.area().getY(), x, scale.area().getMaxY()));
    }
}
