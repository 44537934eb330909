package org.holdtrace.desk.view;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.PhaseLook;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.FitPoint;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.wording.Figures;

/** Draws one frame of a trace view: phases, trace, strokes and fit above, residuals below on the same time axis. */
final class TracePainter {
    private final Graphics2D g;
    private final TraceModel model;
    private final TimeWindow window;
    private final Palette palette;
    private final Theme theme;
    private final FontMetrics metrics;
    private final Rectangle2D plot;
    private final Rectangle2D residuals;

    TracePainter(Graphics2D g, TraceModel model, TimeWindow window, Theme theme, double width, double height) {
        this.g = g;
        this.model = model;
        this.window = window;
        this.theme = theme;
        this.palette = theme.palette();
        Font font = theme.font(1);
        g.setFont(font);
        this.metrics = g.getFontMetrics(font);
        this.plot = plot(metrics, width, height, hasFit(model));
        double top = plot.getMaxY() + metrics.getHeight() * 1.4;
        this.residuals = new Rectangle2D.Double(
                plot.getX(), top, plot.getWidth(), Math.max(1, height - 3.6 * metrics.getHeight() - top));
    }

    /** Where the trace is drawn in a view of that size; the same for painting and for pointing. */
    static Rectangle2D plot(FontMetrics metrics, double width, double height, boolean fit) {
        double line = metrics.getHeight();
        double left = metrics.stringWidth("−0000.0") + line;
        double room = Math.max(2, height - 7.8 * line);
        return new Rectangle2D.Double(
                left, 2.8 * line, Math.max(2, width - left - line), Math.max(1, fit ? 0.72 * room : room));
    }

    static boolean hasFit(TraceModel model) {
        return model.results().stream().anyMatch(result -> result.picture().isPresent());
    }

    void paint() {
        g.setColor(palette.background());
        g.fill(new Rectangle2D.Double(0, 0, 1e5, 1e5));
        Columns columns = Columns.of(model.pyramid(), window, (int) Math.ceil(plot.getWidth()));
        Unit unit = model.pressure();
        double low = unit.fromSi(columns.lowPa());
        double high = unit.fromSi(columns.highPa());
        double room = Math.max(1e-9, 0.06 * (high - low));
        Scale pressure = new Scale(plot, low - room, high + room);
        phases();
        grid(pressure, "pressure as recorded [" + unit.symbol() + "]", 1.5);
        Shape clip = g.getClip();
        g.clip(plot);
        strokes();
        g.setColor(palette.measured());
        g.setStroke(new BasicStroke((float) theme.scaled(1.6)));
        g.draw(columns.path(this::x, pa -> pressure.y(unit.fromSi(pa))));
        for (HoldTestResult result : model.results()) {
            double zeroPa = result.holdTest().rest().zeroPa();
            line(result, palette.fitted(), point -> pressure.y(unit.fromSi(point.fittedPa() + zeroPa)));
        }
        g.setClip(clip);
        frame(plot);
        if (hasFit(model)) {
            residuals();
        }
        times();
    }

    double x(double timeS) {
        return plot.getX() + (timeS - window.fromS()) / window.durationS() * plot.getWidth();
    }

    private void phases() {
        double right = 0;
        for (HoldTest test : model.tests()) {
            for (PhaseSpan span : test.phases()) {
                double from = Math.max(plot.getX(), x(span.fromS()));
                double to = Math.min(plot.getMaxX(), x(span.toS()));
                if (to <= from) {
                    continue;
                }
                Rectangle2D band = new Rectangle2D.Double(from, plot.getY(), to - from, plot.getHeight());
                PhaseLook.fill(g, band, span.phase(), palette);
                g.setColor(palette.quiet());
                g.setStroke(new BasicStroke(1f));
                g.draw(new Line2D.Double(from, plot.getY(), from, plot.getMaxY()));
                right = word(span, from, to, right);
            }
        }
    }

    /** The phase's words above its band, or its sign alone where words do not fit; returns where it ends. */
    private double word(PhaseSpan span, double from, double to, double right) {
        String words = PhaseLook.words(span.phase());
        // A band narrower than its words shows its sign: the tooltip and the screen reader say the rest.
        if (metrics.stringWidth(words) > to - from) {
            words = PhaseLook.sign(span.phase());
        }
        double width = metrics.stringWidth(words);
        double x = Math.max(right, (from + to - width) / 2);
        if (x + width > plot.getMaxX() + metrics.getHeight()) {
            return right;
        }
        g.setColor(palette.text());
        g.drawString(words, (float) x, (float) (plot.getY() - 0.4 * metrics.getHeight()));
        return x + width + 0.3 * metrics.getHeight();
    }

    private void strokes() {
        Path2D ticks = new Path2D.Double();
        double size = theme.scaled(9);
        for (HoldTest test : model.tests()) {
            for (Stroke stroke : test.strokes()) {
                if (stroke.startS() >= window.fromS() && stroke.startS() <= window.toS()) {
                    ticks.moveTo(x(stroke.startS()), plot.getMaxY());
                    ticks.lineTo(x(stroke.startS()), plot.getMaxY() - size);
                }
            }
        }
        g.setColor(palette.text());
        g.setStroke(new BasicStroke((float) theme.scaled(1.4)));
        g.draw(ticks);
    }

    private void residuals() {
        double largestPa = 1;
        for (HoldTestResult result : model.results()) {
            for (FitPoint point : fit(result)) {
                if (point.timeS() >= window.fromS() && point.timeS() <= window.toS()) {
                    largestPa = Math.max(largestPa, Math.abs(point.residualPa()));
                }
            }
        }
        Unit unit = model.pressure();
        double half = 1.2 * unit.differenceFromSi(largestPa);
        Scale scale = new Scale(residuals, -half, half);
        grid(scale, "measured − fitted [" + unit.symbol() + "]", 0.35);
        Shape clip = g.getClip();
        g.clip(residuals);
        for (HoldTestResult result : model.results()) {
            line(result, palette.measured(), point -> scale.y(unit.differenceFromSi(point.residualPa())));
        }
        g.setClip(clip);
        frame(residuals);
    }

    private void line(HoldTestResult result, Color color, ToDoubleFunction<FitPoint> y) {
        Path2D line = new Path2D.Double();
        for (FitPoint point : fit(result)) {
            if (line.getCurrentPoint() == null) {
                line.moveTo(x(point.timeS()), y.applyAsDouble(point));
            } else {
                line.lineTo(x(point.timeS()), y.applyAsDouble(point));
            }
        }
        g.setColor(color);
        g.setStroke(new BasicStroke((float) theme.scaled(2.2)));
        g.draw(line);
    }

    private static List<FitPoint> fit(HoldTestResult result) {
        return result.picture().map(HoldTestResult.FitPicture::fit).orElse(List.of());
    }

    private void grid(Scale scale, String label, double linesAbove) {
        double wanted = Ticks.step(scale.high() - scale.low(), scale.area().getHeight() / (2.2 * metrics.getHeight()));
        // A low plot would be left with its zero alone, which tells nothing of its scale.
        double step = Math.min(wanted, Ticks.below(0.9 * (scale.high() - scale.low()) / 2));
        for (double v = Math.ceil(scale.low() / step) * step; v <= scale.high(); v += step) {
            double y = scale.y(v);
            g.setColor(palette.grid());
            g.setStroke(new BasicStroke(1f));
            g.draw(new Line2D.Double(scale.area().getX(), y, scale.area().getMaxX(), y));
            String text = Figures.fixed(v, Ticks.decimals(step));
            g.setColor(palette.text());
            g.drawString(text, (float) (plot.getX() - metrics.stringWidth(text) - 6), (float)
                    (y + 0.35 * metrics.getAscent()));
        }
        g.setColor(palette.text());
        double raise = linesAbove * metrics.getHeight();
        g.drawString(label, (float) (0.4 * metrics.getHeight()), (float)
                (scale.area().getY() - raise));
    }

    private void times() {
        double bottom = hasFit(model) ? residuals.getMaxY() : plot.getMaxY();
        double each = 1.8 * metrics.stringWidth("000.0");
        double step =
                Math.min(Ticks.step(window.durationS(), plot.getWidth() / each), Ticks.below(0.9 * window.durationS()));
        for (double t = Math.ceil(window.fromS() / step) * step; t <= window.toS(); t += step) {
            String text = Figures.fixed(t, Ticks.decimals(step));
            g.setColor(palette.text());
            g.draw(new Line2D.Double(x(t), bottom, x(t), bottom + 5));
            g.drawString(text, (float) (x(t) - metrics.stringWidth(text) / 2.0), (float)
                    (bottom + 0.3 * metrics.getHeight() + metrics.getAscent()));
        }
        String label = "time [s]";
        g.drawString(label, (float) (0.4 * metrics.getHeight()), (float)
                (bottom + 0.3 * metrics.getHeight() + metrics.getAscent()));
    }

    private void frame(Rectangle2D area) {
        g.setColor(palette.text());
        g.setStroke(new BasicStroke((float) theme.scaled(1.2)));
        g.draw(area);
    }

    /** From values in the shown unit to pixels of {@code area}, upwards. */
    private record Scale(Rectangle2D area, double low, double high) {
        double y(double value) {
            return area.getMaxY() - (value - low) / (high - low) * area.getHeight();
        }
    }
}
