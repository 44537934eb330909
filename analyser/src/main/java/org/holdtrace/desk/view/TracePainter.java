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
import java.util.function.IntToDoubleFunction;
import java.util.function.ToDoubleFunction;
import org.holdtrace.chart.MinMax;
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
    private final Sheet sheet;
    private final TraceModel model;
    private final TimeWindow window;
    private final Palette palette;
    private final Theme theme;
    private final FontMetrics metrics;
    private final Room room;
    private final Rectangle2D plot;
    private final Rectangle2D residuals;

    /**
     * @param sheet what {@code g} draws on
     * @param room how the view is divided
     */
    TracePainter(Graphics2D g, Sheet sheet, TraceModel model, TimeWindow window, Theme theme, Room room) {
        this.g = g;
        this.sheet = sheet;
        this.model = model;
        this.window = window;
        this.theme = theme;
        this.palette = theme.palette();
        Font font = theme.font(1);
        g.setFont(font);
        this.metrics = g.getFontMetrics(font);
        this.room = room;
        this.plot = room.plot();
        this.residuals = room.residuals();
    }

    void paint() {
        around();
        int columns = (int) Math.ceil(sheet.scale() * plot.getWidth());
        MinMax shown = MinMax.of(model.pyramid(), window.fromS(), window.toS(), columns);
        Unit unit = model.pressure();
        Scale pressure = scale(shown, unit);
        phases();
        if (room.isLow()) {
            grid(pressure, "[" + unit.symbol() + "]", 0.4);
        } else {
            grid(pressure, "pressure as recorded [" + unit.symbol() + "]", 1.5);
        }
        Shape clip = g.getClip();
        g.clip(plot);
        strokes();
        draw(
                shown.size(),
                shown::timeS,
                i -> pressure.y(unit.fromSi(shown.pressurePa(i))),
                plot,
                theme.scaled(1.6),
                palette.measured());
        for (HoldTestResult result : model.results()) {
            double zeroPa = result.holdTest().rest().zeroPa();
            line(result, plot, palette.fitted(), point -> pressure.y(unit.fromSi(point.fittedPa() + zeroPa)));
        }
        g.setClip(clip);
        frame(plot);
        if (room.showsResiduals()) {
            residuals();
        }
        times();
    }

    /** Pressures from the lowest to the highest of {@code shown}, and a little room. */
    private Scale scale(MinMax shown, Unit unit) {
        double lowPa = Double.POSITIVE_INFINITY;
        double highPa = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < shown.size(); i++) {
            double pressurePa = shown.pressurePa(i);
            if (Double.isFinite(pressurePa)) {
                lowPa = Math.min(lowPa, pressurePa);
                highPa = Math.max(highPa, pressurePa);
            }
        }
        double low = unit.fromSi(lowPa <= highPa ? lowPa : 0);
        double high = unit.fromSi(lowPa <= highPa ? highPa : 1);
        double room = Math.max(1e-9, 0.06 * (high - low));
        return new Scale(plot, low - room, high + room);
    }

    /**
     * Draws a line of {@code size} points in order of time inside {@code area}: column by column where it has more
     * points than columns, as a path where single ones can be told. No number breaks it.
     */
    private void draw(
            int size, IntToDoubleFunction timeS, IntToDoubleFunction y, Rectangle2D area, double thick, Color color) {
        if (size == 0 || timeS.applyAsDouble(0) > window.toS() || timeS.applyAsDouble(size - 1) < window.fromS()) {
            return;
        }
        double scale = sheet.scale();
        double left = Math.max(area.getX(), x(timeS.applyAsDouble(0)) - thick);
        double right = Math.min(area.getMaxX(), x(timeS.applyAsDouble(size - 1)) + thick);
        if (size > scale * (right - left)) {
            Spans spans = new Spans((int) Math.floor(scale * left), (int) Math.ceil(scale * right));
            for (int i = 0; i < size; i++) {
                spans.to(scale * x(timeS.applyAsDouble(i)), scale * y.applyAsDouble(i));
            }
            Rectangle2D pixels = new Rectangle2D.Double(
                    scale * area.getX(), scale * area.getY(), scale * area.getWidth(), scale * area.getHeight());
            spans.draw(sheet, pixels, scale * thick, color);
            return;
        }
        Path2D path = new Path2D.Double(Path2D.WIND_NON_ZERO, size + 1);
        boolean down = false;
        for (int i = 0; i < size; i++) {
            double at = y.applyAsDouble(i);
            if (!Double.isFinite(at)) {
                down = false;
            } else if (down) {
                path.lineTo(x(timeS.applyAsDouble(i)), at);
            } else {
                path.moveTo(x(timeS.applyAsDouble(i)), at);
                down = true;
            }
        }
        g.setColor(color);
        g.setStroke(new BasicStroke((float) thick));
        g.draw(path);
    }

    double x(double timeS) {
        return plot.getX() + (timeS - window.fromS()) / window.durationS() * plot.getWidth();
    }

    /** The ground around the plot; that of the plot is painted by its phases: a large picture twice would take its time. */
    private void around() {
        int left = (int) Math.round(plot.getX());
        int right = (int) Math.round(plot.getMaxX());
        int top = (int) Math.round(plot.getY());
        int bottom = (int) Math.round(plot.getMaxY());
        int width = sheet.width();
        int height = sheet.height();
        g.setColor(palette.background());
        PhaseLook.fillWhole(g, 0, 0, width, top);
        PhaseLook.fillWhole(g, 0, bottom, width, height);
        PhaseLook.fillWhole(g, 0, top, left, bottom - top);
        PhaseLook.fillWhole(g, right, top, width, bottom - top);
    }

    /** Ground where no phase is, pixels {@code from} to {@code to}; where a phase is, nothing is to be done. */
    private void between(int from, int to) {
        if (to > from) {
            int top = (int) Math.round(plot.getY());
            g.setColor(palette.background());
            PhaseLook.fillWhole(g, from, top, to - from, (int) Math.round(plot.getMaxY()) - top);
        }
    }

    private void phases() {
        double right = 0;
        int painted = (int) Math.round(plot.getX());
        int lastLine = Integer.MIN_VALUE;
        for (HoldTest test : model.tests()) {
            for (PhaseSpan span : test.phases()) {
                double from = Math.max(plot.getX(), x(span.fromS()));
                double to = Math.min(plot.getMaxX(), x(span.toS()));
                if (to <= from) {
                    continue;
                }
                between(painted, (int) Math.round(from));
                painted = Math.max(painted, (int) Math.round(to));
                Rectangle2D band = new Rectangle2D.Double(from, plot.getY(), to - from, plot.getHeight());
                PhaseLook.fill(g, band, span.phase(), palette);
                int line = (int) Math.round(from);
                // Nearer than this, lines are a tint and no boundaries.
                if (line - lastLine >= 3) {
                    g.setColor(palette.quiet());
                    PhaseLook.fillWhole(g, line, (int) Math.round(plot.getY()), 1, (int) Math.round(plot.getHeight()));
                    lastLine = line;
                }
                right = word(span, from, to, right);
            }
        }
        between(painted, (int) Math.round(plot.getMaxX()));
    }

    /** The phase's words above its band, or its sign alone where words do not fit; returns where it ends. */
    private double word(PhaseSpan span, double from, double to, double right) {
        double line = metrics.getHeight();
        if (right > to + line) {
            return right; // so far from its band it would seem to be another's
        }
        String words = PhaseLook.words(span.phase());
        // A band narrower than its words shows its sign: the tooltip and the screen reader say the rest.
        if (metrics.stringWidth(words) > to - from) {
            words = PhaseLook.sign(span.phase());
        }
        double width = metrics.stringWidth(words);
        double x = Math.max(right, (from + to - width) / 2);
        if (x + width > plot.getMaxX() + line) {
            return right;
        }
        g.setColor(palette.text());
        g.drawString(words, (float) x, (float) (plot.getY() - 0.4 * line));
        return x + width + 0.3 * line;
    }

    private void strokes() {
        int size = (int) Math.round(theme.scaled(9));
        int thick = Math.max(1, (int) Math.round(theme.scaled(1.4)));
        int bottom = (int) Math.round(plot.getMaxY());
        int last = Integer.MIN_VALUE;
        g.setColor(palette.text());
        for (HoldTest test : model.tests()) {
            for (Stroke stroke : test.strokes()) {
                int at = (int) Math.round(x(stroke.startS()) - thick / 2.0);
                // Nearer than this they are one black bar.
                if (stroke.startS() >= window.fromS() && stroke.startS() <= window.toS() && at > last + thick) {
                    last = at;
                    PhaseLook.fillWhole(g, at, bottom - size, thick, size);
                }
            }
        }
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
            line(result, residuals, palette.measured(), point -> scale.y(unit.differenceFromSi(point.residualPa())));
        }
        g.setClip(clip);
        frame(residuals);
    }

    private void line(HoldTestResult result, Rectangle2D area, Color color, ToDoubleFunction<FitPoint> y) {
        List<FitPoint> points = fit(result);
        draw(
                points.size(),
                i -> points.get(i).timeS(),
                i -> y.applyAsDouble(points.get(i)),
                area,
                theme.scaled(2.2),
                color);
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
        double bottom = room.showsResiduals() ? residuals.getMaxY() : plot.getMaxY();
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
