package org.holdtrace.desk.view;

import java.awt.BasicStroke;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.estimate.HoldTestResult;

/** The two cursors of a trace view: where they are, what they read, how they are drawn. */
final class Cursors {
    private static final String GAP = "   ";
    /** So many lines of what they read have their place below the plot. */
    private static final int LINES_BELOW = 2;

    private final double[] atS = {Double.NaN, Double.NaN};
    private int last;

    /** Puts cursor 0 or 1 at {@code timeS}, s, kept within {@code whole}. */
    void set(int which, double timeS, TimeWindow whole) {
        atS[which] = Math.max(whole.fromS(), Math.min(whole.toS(), timeS));
        last = which;
    }

    /** Moves the one that was set last by {@code byS}, s. */
    void nudge(double byS, TimeWindow whole) {
        if (!Double.isNaN(atS[last])) {
            set(last, atS[last] + byS, whole);
        }
    }

    /** Takes both away. */
    void clear() {
        Arrays.fill(atS, Double.NaN);
    }

    /** What they read of {@code model}, once both are set; the compliance is that of the test the first one stands in. */
    Optional<CursorReading> reading(TraceModel model) {
        if (Double.isNaN(atS[0]) || Double.isNaN(atS[1])) {
            return Optional.empty();
        }
        return CursorReading.of(
                model.pyramid().trace(),
                atS[0],
                atS[1],
                model.resultAt(Math.min(atS[0], atS[1])).flatMap(HoldTestResult::compliance));
    }

    /** Draws those inside {@code window}, and in words what both read. */
    void paint(Graphics2D g, TraceModel model, TimeWindow window, Room room, Theme theme) {
        Rectangle2D plot = room.plot();
        g.setFont(theme.font(1));
        g.setColor(theme.palette().accent());
        for (int i = 0; i < atS.length; i++) {
            double x = plot.getX() + (atS[i] - window.fromS()) / window.durationS() * plot.getWidth();
            if (x >= plot.getX() && x <= plot.getMaxX()) {
                float[] dash = i == 0 ? null : new float[] {8f, 5f};
                g.setStroke(new BasicStroke(
                        (float) theme.scaled(2), BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, dash, 0f));
                g.draw(new Line2D.Double(x, plot.getY(), x, plot.getMaxY()));
                g.drawString(i == 0 ? "1" : "2", (float) (x + 4), (float) (plot.getY() + theme.scaled(18)));
            }
        }
        reading(model).ifPresent(each -> words(g, each, model, room, theme));
    }

    /** Below the axis, or over the foot of the plot where that is too narrow or too low. */
    private static void words(Graphics2D g, CursorReading reading, TraceModel model, Room room, Theme theme) {
        FontMetrics metrics = g.getFontMetrics();
        Rectangle2D plot = room.plot();
        double left = 0.4 * room.line();
        double right = plot.getMaxX() + 0.6 * room.line();
        List<String> parts = room.isLow() ? reading.fewWords(model.pressure()) : reading.parts(model.pressure());
        List<String> lines = lines(parts, metrics, right - left);
        double bottom = room.showsResiduals() ? room.residuals().getMaxY() : plot.getMaxY();
        // The last line's, two lines below the times.
        double base = bottom + 3.2 * room.line();
        if (room.isLow() || lines.size() > LINES_BELOW) {
            lines = lines(parts, metrics, plot.getWidth() - 2 * left);
            left += plot.getX();
            double height = lines.size() * room.line() + 0.4 * room.line();
            g.setColor(theme.palette().surface());
            g.fill(new Rectangle2D.Double(plot.getX(), plot.getMaxY() - height, plot.getWidth(), height));
            base = plot.getMaxY() - 0.4 * room.line();
        }
        g.setColor(theme.palette().text());
        for (int i = 0; i < lines.size(); i++) {
            g.drawString(lines.get(i), (float) left, (float) (base - (lines.size() - 1 - i) * room.line()));
        }
    }

    /** As many of {@code parts} in a line as fit; a part that is too long by itself is broken between its words. */
    static List<String> lines(List<String> parts, FontMetrics metrics, double width) {
        List<String> lines = new ArrayList<>();
        String line = "";
        for (String part : parts) {
            if (line.isEmpty() || metrics.stringWidth(line + GAP + part) <= width) {
                line = line.isEmpty() ? part : line + GAP + part;
            } else {
                lines.add(line);
                line = part;
            }
            while (metrics.stringWidth(line) > width && line.indexOf(' ') > 0) {
                int cut = line.lastIndexOf(' ');
                while (cut > 0
                        && metrics.stringWidth(line.substring(0, cut)) > width
                        && line.lastIndexOf(' ', cut - 1) > 0) {
                    cut = line.lastIndexOf(' ', cut - 1);
                }
                lines.add(line.substring(0, cut));
                line = line.substring(cut + 1);
            }
        }
        lines.add(line);
        return lines;
    }
}
