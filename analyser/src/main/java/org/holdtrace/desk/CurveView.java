package org.holdtrace.desk;

import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import javax.accessibility.AccessibleRole;
import org.holdtrace.chart.LeakScale;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.Hover;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.Sourced;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.CurvePoint;
import org.holdtrace.wording.ShownUnits;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.ValueMarker;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.DeviationRenderer;
import org.jfree.chart.ui.RectangleAnchor;
import org.jfree.chart.ui.TextAnchor;
import org.jfree.data.xy.YIntervalSeries;
import org.jfree.data.xy.YIntervalSeriesCollection;

/** The leak rate against pressure with its 95 % band, the limit and the pressure the leak is stated at. */
final class CurveView extends Drawing implements Sourced {
    private static final long serialVersionUID = 1L;

    private transient JFreeChart chart;
    private transient Theme theme = Theme.usual();

    CurveView() {
        super(AccessibleRole.CANVAS);
        setName("leak against pressure");
        getAccessibleContext().setAccessibleName("leak against pressure");
        getAccessibleContext().setAccessibleDescription(Origins.CURVE);
        setToolTipText(Hover.html(Origins.CURVE));
    }

    void show(HoldTestResult result, Optional<Double> limitM3PerS, Theme nextTheme, ShownUnits units) {
        theme = nextTheme;
        List<CurvePoint> curve =
                result.picture().map(HoldTestResult.FitPicture::leakCurve).orElse(List.of());
        chart = curve.size() < 2 ? null : chart(curve, result.leak(), limitM3PerS, units);
        setVisible(chart != null);
        revalidate();
        repaint();
    }

    @Override
    public List<Figure> figures() {
        return List.of(new Figure("Leak against pressure, the picture", Origins.CURVE));
    }

    private JFreeChart chart(
            List<CurvePoint> curve,
            Optional<HoldTestResult.Leak> leak,
            Optional<Double> limitM3PerS,
            ShownUnits units) {
        YIntervalSeries series = new YIntervalSeries("leak");
        LeakScale scale = LeakScale.of(curve, leak, limitM3PerS, units);
        for (CurvePoint point : scale.told(curve, leak, units)) {
            series.add(
                    units.pressure().fromSi(point.pressurePa()),
                    units.flow().fromSi(point.m3PerS()),
                    units.flow().fromSi(point.lower95()),
                    units.flow().fromSi(point.upper95()));
        }
        YIntervalSeriesCollection data = new YIntervalSeriesCollection();
        data.addSeries(series);
        Palette palette = theme.palette();
        DeviationRenderer renderer = new DeviationRenderer(true, false);
        renderer.setSeriesPaint(0, palette.fitted());
        renderer.setSeriesFillPaint(0, palette.band());
        renderer.setAlpha(1f);
        renderer.setSeriesStroke(0, new BasicStroke((float) theme.scaled(2.4)));
        NumberAxis pressure = new NumberAxis("pressure [" + ShownUnits.name(units.pressure()) + "]");
        pressure.setAutoRangeIncludesZero(true);
        NumberAxis rate = new NumberAxis("leak [" + ShownUnits.name(units.flow()) + "]");
        XYPlot plot = new XYPlot(data, pressure, rate, renderer);
        if (scale.limitFits()) {
            plot.addRangeMarker(line(scale.limit().orElseThrow(), "limit", 8f, TextAnchor.BOTTOM_LEFT));
        }
        rate.setRange(0, LeakScale.ROOM_ABOVE * scale.highest());
        leak.ifPresent(each -> plot.addDomainMarker(
                line(units.pressure().fromSi(each.atPa()), "stated at", 2.5f, TextAnchor.TOP_RIGHT)));
        JFreeChart made = new JFreeChart(null, null, plot, false);
        theme.apply(made);
        return made;
    }

    private ValueMarker line(double at, String label, float dash, TextAnchor anchor) {
        ValueMarker marker = new ValueMarker(at);
        marker.setPaint(theme.palette().text());
        marker.setStroke(new BasicStroke(
                (float) theme.scaled(1.6),
                BasicStroke.CAP_BUTT,
                BasicStroke.JOIN_MITER,
                10f,
                new float[] {dash, 5f},
                0f));
        marker.setLabel(label);
        marker.setLabelFont(theme.font(0.95));
        marker.setLabelPaint(theme.palette().text());
        marker.setLabelBackgroundColor(theme.palette().background());
        marker.setLabelAnchor(RectangleAnchor.TOP_LEFT);
        marker.setLabelTextAnchor(anchor);
        return marker;
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(200, (int) theme.scaled(250));
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        if (chart != null) {
            Graphics2D g = (Graphics2D) graphics.create();
            chart.draw(g, new Rectangle2D.Double(0, 0, getWidth(), getHeight()));
            g.dispose();
        }
    }
}
