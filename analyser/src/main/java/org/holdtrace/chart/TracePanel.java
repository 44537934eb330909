package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleInsets;

/** The whole hold test: pressure over time, its phases, a tick for each stroke. */
final class TracePanel {
    private static final double STROKE_TICK = 16;
    private static final int COLUMNS = 1400;

    private TracePanel() {}

    static void draw(Graphics2D g, Rectangle2D area, Trace trace, HoldTestResult result, ShownUnits units) {
        Rectangle2D body = Panels.heading(
                g,
                area,
                "A  Pressure over the hold test",
                "line: gauge pressure, zero error taken off; ticks at the foot: pump strokes");
        HoldTest test = result.holdTest();
        double fromS = startS(test, trace);
        double toS = endS(test, trace);
        MinMax shown = MinMax.of(trace, trace.indexAt(fromS), upTo(trace, toS), COLUMNS);
        TimeUnitShown unit = TimeUnitShown.forSpan(toS - fromS);
        double[] x = new double[shown.size()];
        double[] y = new double[shown.size()];
        double lowest = 0;
        double highest = 1e-3;
        for (int i = 0; i < shown.size(); i++) {
            x[i] = unit.from(shown.timeS(i));
            y[i] = units.pressure().fromSi(shown.pressurePa(i) - test.rest().zeroPa());
            lowest = Math.min(lowest, y[i]);
            highest = Math.max(highest, y[i]);
        }
        double room = 0.06 * (highest - lowest);
        NumberAxis time = Axes.number("time [" + unit.symbol() + "]", unit.from(fromS), unit.from(toS));
        NumberAxis pressure = Axes.pressure(units, lowest - room, highest + room);
        XYPlot plot = Panels.plot(time, pressure);
        plot.setInsets(new RectangleInsets(PhaseBands.LANE, 4, 4, 28));
        PhaseBands bands = new PhaseBands(test, unit);
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, Ink.MEASURED);
        renderer.setSeriesStroke(0, Ink.LINE);
        renderer.addAnnotation(new Overlay(bands::drawBehind), Layer.BACKGROUND);
        renderer.addAnnotation(new Overlay((g2, scale) -> strokes(g2, scale, test.strokes(), unit)), Layer.FOREGROUND);
        plot.setRenderer(renderer);
        plot.setDataset(new Points("pressure", x, y));
        Overlay.Scale[] used = new Overlay.Scale[1];
        renderer.addAnnotation(new Overlay((g2, scale) -> used[0] = scale), Layer.FOREGROUND);
        Panels.draw(g, plot, body);
        if (used[0] != null) {
            bands.drawWords(g, used[0]);
        }
    }

    private static double startS(HoldTest test, Trace trace) {
        return test.phases().isEmpty() ? trace.timeS(0) : test.phases().get(0).fromS();
    }

    private static double endS(HoldTest test, Trace trace) {
        double endS = Double.NEGATIVE_INFINITY;
        for (PhaseSpan span : test.phases()) {
            endS = Math.max(endS, span.toS());
        }
        return test.phases().isEmpty() ? trace.timeS(trace.size() - 1) : endS;
    }

    private static int upTo(Trace trace, double toS) {
        return Math.min(trace.size(), trace.indexAt(toS) + 1);
    }

    private static void strokes(Graphics2D g, Overlay.Scale scale, List<Stroke> strokes, TimeUnitShown unit) {
        if (strokes.isEmpty()) {
            return;
        }
        Path2D ticks = new Path2D.Double();
        double foot = scale.area().getMaxY();
        for (Stroke stroke : strokes) {
            double x = scale.x(unit.from(stroke.startS()));
            ticks.moveTo(x, foot);
            ticks.lineTo(x, foot - STROKE_TICK);
        }
        g.setColor(Ink.TEXT);
        g.setStroke(strokes.size() > 100 ? Ink.THIN : Ink.LINE);
        g.draw(ticks);
    }
}
