package org.holdtrace.chart;

import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult.FitPoint;
import org.holdtrace.quantity.Unit;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.CombinedDomainXYPlot;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.chart.ui.Layer;
import org.jfree.chart.ui.RectangleInsets;

/** The fit over settling and hold, and what is left of the pressure when the fit is taken off. */
final class FitPanel {
    private static final String TITLE = "B  Fit over the hold";
    private static final int MOST_POINTS = 160;
    private static final double MILLIBAR_BELOW_BAR = 0.2;

    private FitPanel() {}

    static void draw(Graphics2D g, Rectangle2D area, List<FitPoint> fit, ShownUnits units) {
        if (fit.size() < 2) {
            Panels.empty(g, Panels.heading(g, area, TITLE), "There is no hold here that a curve could be fitted to.");
            return;
        }
        Rectangle2D body =
                Panels.heading(g, area, TITLE, "dots: measured, line: fitted;", "below: measured less fitted");
        double firstS = fit.get(0).timeS();
        double lastS = fit.get(fit.size() - 1).timeS();
        TimeUnitShown unit = TimeUnitShown.forSpan(lastS - firstS);
        Columns columns = Columns.of(fit, unit, units);
        NumberAxis time = Axes.number("time [" + unit.symbol() + "]", unit.from(firstS), unit.from(lastS));
        CombinedDomainXYPlot both = new CombinedDomainXYPlot(time);
        both.setGap(16);
        both.add(pressures(columns, units), 3);
        both.add(residuals(columns, units), 2);
        both.setInsets(new RectangleInsets(14, 4, 4, 28));
        Panels.draw(g, both, body);
    }

    private static XYPlot pressures(Columns columns, ShownUnits units) {
        double[] range = range(columns.observed, columns.fitted);
        XYPlot plot = Panels.plot(null, Axes.pressure(units, range[0], range[1]));
        plot.setDataset(0, new Points("fitted", columns.time, columns.fitted));
        XYLineAndShapeRenderer renderer = line();
        renderer.addAnnotation(
                new Overlay((g, scale) -> Panels.dots(g, scale, columns.thinTime, columns.thinObserved)),
                Layer.BACKGROUND);
        plot.setRenderer(0, renderer);
        return plot;
    }

    private static XYPlot residuals(Columns columns, ShownUnits units) {
        double largest = 0;
        for (double residual : columns.residual) {
            largest = Math.max(largest, Math.abs(residual));
        }
        boolean fine = units.pressure() == Unit.BAR && largest < MILLIBAR_BELOW_BAR;
        double[] shown = columns.thinResidual.clone();
        for (int i = 0; i < shown.length; i++) {
            shown[i] *= fine ? 1000 : 1;
        }
        double tick = roundUp(Math.max(1e-6, largest * (fine ? 1000 : 1)));
        NumberAxis axis = Axes.number(
                "residual [" + (fine ? "mbar" : ShownUnits.name(units.pressure())) + "]", -1.25 * tick, 1.25 * tick);
        axis.setTickUnit(Axes.tickUnit(tick));
        XYPlot plot = Panels.plot(null, axis);
        plot.setDataset(0, new Points("residual", columns.thinTime, shown));
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(false, false);
        renderer.addAnnotation(
                new Overlay((g, scale) -> Panels.dots(g, scale, columns.thinTime, shown)), Layer.FOREGROUND);
        plot.setRenderer(0, renderer);
        plot.addRangeMarker(new ValueMarker(0, Ink.TEXT, Ink.THIN), Layer.BACKGROUND);
        return plot;
    }

    /** The next larger round number with one digit: residuals are few bars high, and two ticks are all there is room for. */
    private static double roundUp(double value) {
        double decade = Math.pow(10, Math.floor(Math.log10(value)));
        return decade * Math.ceil(value / decade - 1e-9);
    }

    private static XYLineAndShapeRenderer line() {
        XYLineAndShapeRenderer renderer = new XYLineAndShapeRenderer(true, false);
        renderer.setDrawSeriesLineAsPath(true);
        renderer.setSeriesPaint(0, Ink.FITTED);
        renderer.setSeriesStroke(0, Ink.HEAVY);
        return renderer;
    }

    private static double[] range(double[] first, double[] second) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (double[] values : List.of(first, second)) {
            for (double value : values) {
                low = Math.min(low, value);
                high = Math.max(high, value);
            }
        }
        double room = 0.06 * (high - low);
        return new double[] {low - room, high + room};
    }

    /** The fit's points by column, whole and thinned to what can be told apart. */
    private record Columns(
            double[] time,
            double[] fitted,
            double[] observed,
            double[] residual,
            double[] thinTime,
            double[] thinObserved,
            double[] thinResidual) {
        static Columns of(List<FitPoint> fit, TimeUnitShown unit, ShownUnits units) {
            int n = fit.size();
            int step = Math.max(1, (n + MOST_POINTS - 1) / MOST_POINTS);
            int thin = (n + step - 1) / step;
            Columns columns = new Columns(
                    new double[n],
                    new double[n],
                    new double[n],
                    new double[n],
                    new double[thin],
                    new double[thin],
                    new double[thin]);
            for (int i = 0; i < n; i++) {
                FitPoint point = fit.get(i);
                columns.time[i] = unit.from(point.timeS());
                columns.fitted[i] = units.pressure().fromSi(point.fittedPa());
                columns.observed[i] = units.pressure().fromSi(point.observedPa());
                columns.residual[i] = units.pressure().fromSi(point.residualPa());
                if (i % step == 0) {
                    columns.thinTime[i / step] = columns.time[i];
                    columns.thinObserved[i / step] = columns.observed[i];
                    columns.thinResidual[i / step] = columns.residual[i];
                }
            }
            return columns;
        }
    }
}
