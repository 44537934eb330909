package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.CurvePoint;
import org.holdtrace.wording.Figures;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;

/** The leak rate against pressure with its 95 % band, the limit and the pressure the leak is stated at. */
final class LeakCurvePanel {
    private static final String TITLE = "C  Leak against pressure";

    private LeakCurvePanel() {}

    static void draw(
            Graphics2D g,
            Rectangle2D area,
            List<CurvePoint> whole,
            Optional<HoldTestResult.Leak> leak,
            Optional<Double> limitM3PerS,
            ShownUnits units) {
        if (whole.size() < 2) {
            Panels.empty(g, Panels.heading(g, area, TITLE), "No leak against pressure could be told from this test.");
            return;
        }
        LeakScale scaled = LeakScale.of(whole, leak, limitM3PerS, units);
        double top = scaled.highest();
        List<CurvePoint> curve = scaled.told(whole, leak, units);
        double lowest = 0;
        for (CurvePoint point : curve) {
            lowest = Math.min(lowest, units.flow().fromSi(point.lower95()));
        }
        Rectangle2D body = Panels.heading(
                g,
                area,
                TITLE,
                "line: leak, tinted: its 95 % interval;",
                curve.size() == whole.size() ? "ring: as stated above" : "ring: as stated; no more told above it");
        double fromBar = units.pressure().fromSi(curve.get(0).pressurePa());
        double toBar = units.pressure().fromSi(curve.get(curve.size() - 1).pressurePa());
        if (leak.isPresent()) {
            double atBar = units.pressure().fromSi(leak.get().atPa());
            double room = 0.04 * (toBar - fromBar);
            fromBar = Math.min(fromBar, atBar - room);
            toBar = Math.max(toBar, atBar + room);
        }
        NumberAxis pressure = Axes.pressure(units, fromBar, toBar);
        NumberAxis rate =
                Axes.leak(units, lowest - 0.02 * (top - lowest), lowest + LeakScale.ROOM_ABOVE * (top - lowest));
        XYPlot plot = Panels.plot(pressure, rate);
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, Ink.FITTED);
        renderer.setSeriesStroke(0, Ink.HEAVY);
        renderer.addAnnotation(new Overlay((g2, scale) -> band(g2, scale, curve, units)), Layer.BACKGROUND);
        leak.ifPresent(found ->
                renderer.addAnnotation(new Overlay((g2, scale) -> stated(g2, scale, found, units)), Layer.FOREGROUND));
        limitM3PerS.ifPresent(limit -> renderer.addAnnotation(
                new Overlay((g2, scale) -> limit(g2, scale, units.flow().fromSi(limit))), Layer.FOREGROUND));
        plot.setRenderer(renderer);
        plot.setDataset(line(curve, units));
        Panels.draw(g, plot, body);
    }

    private static Points line(List<CurvePoint> curve, ShownUnits units) {
        double[] x = new double[curve.size()];
        double[] y = new double[curve.size()];
        for (int i = 0; i < x.length; i++) {
            x[i] = units.pressure().fromSi(curve.get(i).pressurePa());
            y[i] = units.flow().fromSi(curve.get(i).m3PerS());
        }
        return new Points("leak", x, y);
    }

    private static void band(Graphics2D g, Overlay.Scale scale, List<CurvePoint> curve, ShownUnits units) {
        Path2D upper = new Path2D.Double();
        Path2D lower = new Path2D.Double();
        Path2D band = new Path2D.Double();
        for (int i = 0; i < curve.size(); i++) {
            double x = scale.x(units.pressure().fromSi(curve.get(i).pressurePa()));
            double y = scale.y(units.flow().fromSi(curve.get(i).upper95()));
            move(upper, i == 0, x, y);
            move(band, i == 0, x, y);
            move(lower, i == 0, x, scale.y(units.flow().fromSi(curve.get(i).lower95())));
        }
        for (int i = curve.size() - 1; i >= 0; i--) {
            CurvePoint point = curve.get(i);
            band.lineTo(
                    scale.x(units.pressure().fromSi(point.pressurePa())),
                    scale.y(units.flow().fromSi(point.lower95())));
        }
        band.closePath();
        g.setColor(Ink.BAND);
        g.fill(band);
        g.setColor(Ink.FITTED);
        g.setStroke(Ink.THIN);
        g.draw(upper);
        g.draw(lower);
    }

    private static void move(Path2D path, boolean first, double x, double y) {
        if (first) {
            path.moveTo(x, y);
        } else {
            path.lineTo(x, y);
        }
    }

    private static void stated(Graphics2D g, Overlay.Scale scale, HoldTestResult.Leak leak, ShownUnits units) {
        double x = scale.x(units.pressure().fromSi(leak.atPa()));
        double y = scale.y(units.flow().fromSi(leak.m3PerS()));
        Rectangle2D area = scale.area();
        g.setColor(Ink.TEXT);
        g.setStroke(Ink.REFERENCE);
        g.draw(new Line2D.Double(x, area.getY(), x, area.getMaxY()));
        g.setStroke(Ink.LINE);
        double lower = scale.y(units.flow().fromSi(leak.lower95()));
        double upper = scale.y(units.flow().fromSi(leak.upper95()));
        g.draw(new Line2D.Double(x, lower, x, upper));
        g.draw(new Line2D.Double(x - 8, lower, x + 8, lower));
        g.draw(new Line2D.Double(x - 8, upper, x + 8, upper));
        g.setColor(Ink.PAPER);
        g.fill(new Ellipse2D.Double(x - 9, y - 9, 18, 18));
        g.setColor(Ink.TEXT);
        g.draw(new Ellipse2D.Double(x - 9, y - 9, 18, 18));
        String label = Phrases.pressure(leak.atPa(), units);
        double width = Text.width(g, Ink.NOTE, label);
        boolean fitsRight = x + 12 + width < area.getMaxX();
        Panels.words(g, label, fitsRight ? x + 10 : x - 10 - width, area.getY() + 27);
    }

    private static void limit(Graphics2D g, Overlay.Scale scale, double limit) {
        Rectangle2D area = scale.area();
        String label = "limit " + Figures.significant(limit, 4);
        double y = scale.y(limit);
        if (y < area.getY()) {
            String note = label + " is far above ↑";
            Panels.words(g, note, area.getX() + 10, area.getY() + 58);
            return;
        }
        g.setColor(Ink.TEXT);
        g.setStroke(Ink.LIMIT);
        g.draw(new Line2D.Double(area.getX(), y, area.getMaxX(), y));
        Panels.words(g, label, area.getX() + 10, y - 9);
    }
}
