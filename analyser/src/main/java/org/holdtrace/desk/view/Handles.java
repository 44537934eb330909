package org.holdtrace.desk.view;

import java.awt.BasicStroke;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.trace.Boundaries;
import org.holdtrace.trace.Boundary;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.wording.Figures;

/** The boundaries of a trace view that can be taken hold of, one of which may be chosen and on its way somewhere else. */
final class Handles {
    /** One boundary of one hold test. */
    record Handle(int holdTest, Boundary boundary) {}

    private Handle chosen;
    private double movedToS = Double.NaN;
    private TraceModel looked;
    /** The handles of {@link #looked} in order of time, with where each was found, s. */
    private final Map<Handle, Double> foundS = new LinkedHashMap<>();

    /** The one that is chosen. */
    Optional<Handle> chosen() {
        return Optional.ofNullable(chosen);
    }

    void choose(Handle handle) {
        chosen = handle;
        movedToS = Double.NaN;
    }

    /** The model shows what was moved so far, or another one is shown. */
    void followed() {
        movedToS = Double.NaN;
    }

    /** All of {@code model}, in order of time, with where each was found, s. */
    @SuppressWarnings("ReferenceEquality") // another model is another object; comparing results would cost a frame
    private Map<Handle, Double> all(TraceModel model) {
        if (model != looked) {
            looked = model;
            List<Map.Entry<Handle, Double>> handles = new ArrayList<>();
            for (HoldTest test : model.tests()) {
                for (Boundary boundary : Boundary.values()) {
                    Boundaries.of(test)
                            .at(boundary)
                            .ifPresent(atS -> handles.add(Map.entry(new Handle(test.number(), boundary), atS)));
                }
            }
            handles.sort(Map.Entry.comparingByValue());
            foundS.clear();
            handles.forEach(each -> foundS.put(each.getKey(), each.getValue()));
        }
        return foundS;
    }

    /** The one shown nearest to {@code timeS}, less than {@code withinS} away. */
    Optional<Handle> nearest(TraceModel model, double timeS, double withinS) {
        Handle nearest = null;
        double least = withinS;
        for (Handle each : all(model).keySet()) {
            double distance = Math.abs(atS(model, each) - timeS);
            if (distance < least) {
                least = distance;
                nearest = each;
            }
        }
        return Optional.ofNullable(nearest);
    }

    private static Optional<Boundaries> of(TraceModel model, Handle handle) {
        for (HoldTest test : model.tests()) {
            if (test.number() == handle.holdTest()
                    && Boundaries.of(test).at(handle.boundary()).isPresent()) {
                return Optional.of(Boundaries.of(test));
            }
        }
        return Optional.empty();
    }

    /** Where {@code handle} is shown, s; NaN where the model has none such. */
    double atS(TraceModel model, Handle handle) {
        return handle.equals(chosen) && !Double.isNaN(movedToS)
                ? movedToS
                : all(model).getOrDefault(handle, Double.NaN);
    }

    /** Chooses the next handle inside {@code window}, or the one before; the first after the last. */
    void step(TraceModel model, TimeWindow window, int by) {
        List<Handle> inside = new ArrayList<>();
        all(model).forEach((each, atS) -> {
            if (atS >= window.fromS() && atS <= window.toS()) {
                inside.add(each);
            }
        });
        if (!inside.isEmpty()) {
            int at = chosen == null ? -1 : inside.indexOf(chosen);
            int next = at < 0 ? (by > 0 ? 0 : inside.size() - 1) : Math.floorMod(at + by, inside.size());
            choose(inside.get(next));
        }
    }

    /** Moves the chosen one to {@code timeS}, or as near to it as it may be; empty where none is chosen. */
    Optional<Double> moveTo(TraceModel model, double timeS) {
        if (chosen == null) {
            return Optional.empty();
        }
        Boundary boundary = chosen.boundary();
        Optional<Boundaries> bounds = of(model, chosen);
        if (bounds.isEmpty()) {
            return Optional.empty();
        }
        double lowest = bounds.get().earliestS(boundary);
        double highest = Math.max(lowest, bounds.get().latestS(boundary));
        movedToS = Figures.tenthMilliseconds(Math.max(lowest, Math.min(highest, timeS)));
        // Rounding must not carry it past the end of its way.
        movedToS = Math.max(lowest, Math.min(highest, movedToS));
        return Optional.of(movedToS);
    }

    /** In words: "hold starts at 34.2 s", and of which test where there are several. */
    Optional<String> words(TraceModel model) {
        return chosen().filter(each -> !Double.isNaN(atS(model, each)))
                .map(each -> each.boundary().label()
                        + (model.tests().size() > 1 ? " of hold test " + each.holdTest() : "") + " at "
                        + Figures.fixed(atS(model, each), 2) + " s");
    }

    /** Draws a grip for each and a line where the chosen one is. */
    void paint(Graphics2D g, TraceModel model, TimeWindow window, Rectangle2D plot, Theme theme) {
        Path2D grips = new Path2D.Double();
        double last = Double.NEGATIVE_INFINITY;
        for (Handle each : all(model).keySet()) {
            double x = x(model, each, window, plot);
            // Hundreds of hold tests have grips that nobody can tell apart until the trace is zoomed.
            if (x >= plot.getX() && x <= plot.getMaxX() && x >= last + theme.scaled(3) && !each.equals(chosen)) {
                grip(grips, x, plot, theme);
                last = x;
            }
        }
        g.setColor(theme.palette().quiet());
        g.fill(grips);
        if (chosen == null) {
            return;
        }
        double x = x(model, chosen, window, plot);
        if (x >= plot.getX() && x <= plot.getMaxX()) {
            Path2D grip = new Path2D.Double();
            grip(grip, x, plot, theme);
            g.setColor(theme.palette().accent());
            g.fill(grip);
            g.setStroke(new BasicStroke((float) theme.scaled(2.5)));
            g.draw(new Line2D.Double(x, plot.getY(), x, plot.getMaxY()));
            label(g, words(model).orElse(""), x, plot, theme);
        }
    }

    private double x(TraceModel model, Handle handle, TimeWindow window, Rectangle2D plot) {
        return plot.getX() + (atS(model, handle) - window.fromS()) / window.durationS() * plot.getWidth();
    }

    private static void grip(Path2D path, double x, Rectangle2D plot, Theme theme) {
        double half = theme.scaled(7);
        path.moveTo(x - half, plot.getY());
        path.lineTo(x + half, plot.getY());
        path.lineTo(x, plot.getY() + 1.6 * half);
        path.closePath();
    }

    private static void label(Graphics2D g, String words, double x, Rectangle2D plot, Theme theme) {
        g.setFont(theme.font(1));
        FontMetrics metrics = g.getFontMetrics();
        double width = metrics.stringWidth(words) + theme.scaled(8);
        double left = x + theme.scaled(6) + width > plot.getMaxX() ? x - theme.scaled(6) - width : x + theme.scaled(6);
        double top = plot.getY() + theme.scaled(24);
        g.setColor(theme.palette().surface());
        g.fill(new Rectangle2D.Double(left, top, width, metrics.getHeight() + theme.scaled(4)));
        g.setColor(theme.palette().text());
        g.drawString(words, (float) (left + theme.scaled(4)), (float) (top + theme.scaled(2) + metrics.getAscent()));
    }
}
