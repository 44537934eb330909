package org.holdtrace.desk.classroom;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.function.DoubleConsumer;
import javax.accessibility.AccessibleRole;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.PhaseLook;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.Phase;
import org.holdtrace.wording.Figures;

/** The last seconds of a lane as a line: the newest at the right, the oldest falls off at the left. */
final class StripView extends Drawing {
    private static final long serialVersionUID = 1L;
    private static final double TYPE_SHARE = 0.11;
    private static final int SMALLEST_TYPE = 11;

    private final transient Lane lane;
    private transient Theme theme;
    private transient Unit unit = Unit.BAR;
    private double windowS = ClassView.WINDOWS_S[ClassView.USUAL_WINDOW];
    private double topPa = Unit.BAR.toSi(10);
    private transient DoubleConsumer painted = timeS -> {};

    StripView(Lane lane, Theme theme) {
        super(AccessibleRole.CANVAS);
        this.lane = lane;
        this.theme = theme;
        setOpaque(true);
        setName("strip");
        getAccessibleContext().setAccessibleName("pressure over the last seconds");
    }

    void setTheme(Theme next) {
        theme = next;
        repaint();
    }

    /** Shows the last {@code seconds} from no pressure to {@code highestPa}. */
    void setScale(Unit shownIn, double seconds, double highestPa) {
        unit = shownIn;
        windowS = seconds;
        topPa = highestPa;
        repaint();
    }

    /** Who is told, after each drawing, the time of the newest sample in it. */
    void onPainted(DoubleConsumer who) {
        painted = who;
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        g.setColor(theme.palette().background());
        g.fillRect(0, 0, getWidth(), getHeight());
        Font font = theme.font(1).deriveFont((float) Math.max(SMALLEST_TYPE, TYPE_SHARE * getHeight()));
        g.setFont(font);
        FontMetrics metrics = g.getFontMetrics();
        double left = metrics.stringWidth("0000") + 0.6 * metrics.getHeight();
        double bottom = getHeight() - 1.25 * metrics.getHeight();
        double top = 0.5 * metrics.getHeight();
        double right = getWidth() - 0.5 * metrics.getHeight();
        if (right - left > 20 && bottom - top > 20) {
            paint(g, new Rectangle2D.Double(left, top, right - left, bottom - top), metrics);
        }
        g.dispose();
    }

    private void paint(Graphics2D g, Rectangle2D plot, FontMetrics metrics) {
        Lane.Shown shown = lane.shown();
        double newestS = shown.hasSamples() ? shown.timeS() : 0;
        Strip.Scale scale = new Pixels(plot, newestS, windowS, topPa);
        phases(g, plot, scale, newestS);
        grid(g, plot, scale, metrics);
        times(g, plot, scale, newestS, metrics);
        if (shown.hasSamples()) {
            g.clip(plot);
            g.setColor(theme.palette().measured());
            float width = (float) Math.max(2.5, 0.014 * getHeight());
            g.setStroke(new BasicStroke(width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_BEVEL));
            g.draw(lane.path(windowS, (int) plot.getWidth(), scale));
            painted.accept(newestS);
        }
    }

    private void phases(Graphics2D g, Rectangle2D plot, Strip.Scale scale, double newestS) {
        List<Lane.Mark> marks = lane.marks();
        for (int i = 0; i < marks.size(); i++) {
            Lane.Mark mark = marks.get(i);
            double toS = i + 1 < marks.size() ? marks.get(i + 1).sinceS() : newestS;
            double from = Math.max(plot.getX(), scale.x(mark.sinceS()));
            double to = Math.min(plot.getMaxX(), scale.x(toS));
            if (to > from && mark.phase() != Phase.REST) {
                PhaseLook.fill(
                        g,
                        new Rectangle2D.Double(from, plot.getY(), to - from, plot.getHeight()),
                        mark.phase(),
                        theme.palette());
            }
        }
    }

    private void grid(Graphics2D g, Rectangle2D plot, Strip.Scale scale, FontMetrics metrics) {
        double top = unit.fromSi(topPa);
        double step = ClassView.roundUp(top / 4.01);
        g.setStroke(new BasicStroke(1f));
        for (double value = 0; value <= top * 1.0001; value += step) {
            double y = scale.y(unit.toSi(value));
            g.setColor(theme.palette().grid());
            g.draw(new Line2D.Double(plot.getX(), y, plot.getMaxX(), y));
            String text = Figures.significant(value, 4);
            g.setColor(theme.palette().text());
            g.drawString(text, (float) (plot.getX() - metrics.stringWidth(text) - 0.3 * metrics.getHeight()), (float)
                    (y + 0.36 * metrics.getAscent()));
        }
    }

    private void times(Graphics2D g, Rectangle2D plot, Strip.Scale scale, double newestS, FontMetrics metrics) {
        float y = (float) (plot.getMaxY() + metrics.getAscent() + 0.15 * metrics.getHeight());
        g.setColor(theme.palette().text());
        g.draw(new Line2D.Double(plot.getX(), plot.getMaxY(), plot.getMaxX(), plot.getMaxY()));
        double half = windowS / 2;
        for (double ago : new double[] {windowS, half, 0}) {
            String text = ago == 0 ? "now" : Figures.significant(ago, 3) + " s ago";
            double width = metrics.stringWidth(text);
            double x = Math.min(plot.getMaxX() - width, Math.max(plot.getX(), scale.x(newestS - ago) - width / 2));
            g.drawString(text, (float) x, y);
        }
    }

    private record Pixels(Rectangle2D plot, double newestS, double windowS, double topPa) implements Strip.Scale {
        @Override
        public double x(double timeS) {
            return plot.getMaxX() + (timeS - newestS) / windowS * plot.getWidth();
        }

        @Override
        public double y(double pressurePa) {
            return plot.getMaxY() - pressurePa / topPa * plot.getHeight();
        }
    }
}
