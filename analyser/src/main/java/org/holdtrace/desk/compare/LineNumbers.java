package org.holdtrace.desk.compare;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jfree.chart.annotations.AbstractXYAnnotation;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.data.xy.XYSeries;

/**
 * The number of each line upon it: at its end where there is room, otherwise so far back that no number covers another,
 * whatever the size of type and of the picture.
 */
final class LineNumbers extends AbstractXYAnnotation {
    private static final long serialVersionUID = 1L;
    /** Places along a line that are looked at. */
    private static final int PLACES = 60;
    /** Rim around a number, as a share of its type. */
    private static final double HALO = 0.16;

    /**
     * A line and its number.
     *
     * @param points of the line
     * @param color of both
     */
    record Line(int number, XYSeries points, Color color) {}

    private final transient List<Line> lines;
    private final Font font;
    private final Color ground;

    LineNumbers(List<Line> lines, Font font, Color ground) {
        this.lines = List.copyOf(lines);
        this.font = font;
        this.ground = ground;
    }

    @Override
    public void draw(
            Graphics2D g,
            XYPlot plot,
            Rectangle2D area,
            ValueAxis times,
            ValueAxis pressures,
            int rendererIndex,
            PlotRenderingInfo info) {
        List<Shape> digits = new ArrayList<>();
        List<List<Rectangle2D>> candidates = new ArrayList<>();
        double halo = HALO * font.getSize2D();
        for (Line line : lines) {
            Shape number = font.createGlyphVector(g.getFontRenderContext(), Integer.toString(line.number()))
                    .getOutline();
            double width = number.getBounds2D().getWidth() + 2 * halo;
            double height = number.getBounds2D().getHeight() + 2 * halo;
            List<Rectangle2D> along = new ArrayList<>();
            for (int i = 0; i <= PLACES && !line.points().isEmpty(); i++) {
                int index = (int) ((line.points().getItemCount() - 1) * (1 - (double) i / PLACES));
                double x = times.valueToJava2D(line.points().getX(index).doubleValue(), area, plot.getDomainAxisEdge());
                double y =
                        pressures.valueToJava2D(line.points().getY(index).doubleValue(), area, plot.getRangeAxisEdge());
                if (area.contains(x, y)) {
                    // The first stands behind the end of the line, all others on it.
                    along.add(new Rectangle2D.Double(
                            inside(i == 0 ? x : x - width / 2, width, area.getX(), area.getMaxX()),
                            inside(y - height / 2, height, area.getY(), area.getMaxY()),
                            width,
                            height));
                }
            }
            digits.add(number);
            candidates.add(along);
        }
        List<Optional<Rectangle2D>> places = choose(candidates, area);
        for (int i = 0; i < lines.size(); i++) {
            Color color = lines.get(i).color();
            Shape number = digits.get(i);
            places.get(i).ifPresent(place -> paint(g, number, place, halo, color));
        }
    }

    /** Where something of {@code size} begins that should begin at {@code wanted} and lie between two ends. */
    private static double inside(double wanted, double size, double from, double to) {
        return Math.max(from, Math.min(to - size, wanted));
    }

    /** With a rim in the colour of the ground, so that lines stop short of it. */
    private void paint(Graphics2D g, Shape number, Rectangle2D place, double halo, Color color) {
        Rectangle2D own = number.getBounds2D();
        Shape there = AffineTransform.getTranslateInstance(
                        place.getX() + halo - own.getX(), place.getY() + halo - own.getY())
                .createTransformedShape(number);
        g.setColor(ground);
        g.setStroke(new BasicStroke((float) (2 * halo), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(there);
        g.setColor(color);
        g.fill(there);
    }

    /**
     * Of each line's candidates the first within {@code area} that covers none chosen before; where all do, the one that
     * covers least. Nothing for a line without a candidate in the area.
     */
    static List<Optional<Rectangle2D>> choose(List<List<Rectangle2D>> candidates, Rectangle2D area) {
        List<Rectangle2D> taken = new ArrayList<>();
        List<Optional<Rectangle2D>> chosen = new ArrayList<>();
        for (List<Rectangle2D> along : candidates) {
            Optional<Rectangle2D> place =
                    along.stream().filter(area::contains).min(Comparator.comparingDouble(each -> covered(each, taken)));
            place.ifPresent(taken::add);
            chosen.add(place);
        }
        return chosen;
    }

    /** How much of {@code place} is covered by what is there already, square pixels. */
    private static double covered(Rectangle2D place, List<Rectangle2D> taken) {
        double sum = 0;
        for (Rectangle2D each : taken) {
            Rectangle2D both = place.createIntersection(each);
            sum += Math.max(0, both.getWidth()) * Math.max(0, both.getHeight());
        }
        return sum;
    }
}
