package org.holdtrace.desk;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.MouseEvent;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import javax.accessibility.AccessibleRole;
import javax.swing.ToolTipManager;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.Hover;
import org.holdtrace.desk.look.Palette;
import org.holdtrace.desk.look.Sourced;
import org.holdtrace.desk.look.Theme;

/** Rows of a name, its figure and a mark to scale below: an interval with its estimate, or a bar from zero. */
final class RowsView extends Drawing implements Sourced {
    private static final long serialVersionUID = 1L;

    /**
     * One row.
     *
     * @param name what it is
     * @param figures its number in words
     * @param origin where that comes from
     * @param from where the mark begins
     * @param at the estimate; NaN for a bar, which has none
     * @param to where the mark ends
     * @param together whether it stands for all others
     */
    record Row(String name, String figures, String origin, double from, double at, double to, boolean together) {
        static Row bar(String name, String figures, String origin, double length) {
            return new Row(name, figures, origin, 0, Double.NaN, length, false);
        }
    }

    private transient List<Row> rows = List.of();
    private double mark = Double.NaN;
    private double full;
    private transient Theme theme = Theme.usual();

    RowsView(String name) {
        super(AccessibleRole.CANVAS);
        setName(name);
        getAccessibleContext().setAccessibleName(name);
        ToolTipManager.sharedInstance().registerComponent(this);
    }

    /** Shows bars of shares, so that a bar from side to side is all of it. */
    void showShares(List<Row> next, Theme nextTheme) {
        full = 1;
        show(next, Double.NaN, nextTheme);
    }

    /** Shows {@code next}, and a dashed line at {@code nextMark} unless that is NaN. */
    void show(List<Row> next, double nextMark, Theme nextTheme) {
        rows = List.copyOf(next);
        mark = nextMark;
        theme = nextTheme;
        setFont(theme.font(1));
        StringBuilder words = new StringBuilder();
        for (Row row : rows) {
            words.append(row.name()).append(": ").append(row.figures()).append(". ");
        }
        getAccessibleContext().setAccessibleDescription(words.toString().strip());
        revalidate();
        repaint();
    }

    /** What is shown. */
    List<Row> rows() {
        return rows;
    }

    @Override
    public List<Figure> figures() {
        return rows.stream()
                .map(row -> new Figure(row.name() + ": " + row.figures(), row.origin()))
                .toList();
    }

    private double rowHeight() {
        FontMetrics metrics = getFontMetrics(theme.font(1));
        double captions = fits(metrics) ? 1.15 : 2.2;
        return captions * metrics.getHeight() + theme.scaled(22);
    }

    /** Whether name and figures fit beside one another in every row. */
    private boolean fits(FontMetrics metrics) {
        for (Row row : rows) {
            FontMetrics each = row.together() ? getFontMetrics(theme.font(1).deriveFont(Font.BOLD)) : metrics;
            if (each.stringWidth(row.name() + "  " + row.figures()) > getWidth()) {
                return false;
            }
        }
        return true;
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(200, (int) Math.ceil(rows.size() * rowHeight()));
    }

    @Override
    public String getToolTipText(MouseEvent event) {
        int index = (int) (event.getY() / rowHeight());
        return index < 0 || index >= rows.size()
                ? null
                : Hover.html(rows.get(index).origin());
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Palette palette = theme.palette();
        double high = Double.isNaN(mark) ? full : mark;
        double low = 0;
        for (Row row : rows) {
            high = Math.max(high, row.to());
            low = Math.min(low, row.from());
        }
        double room = theme.scaled(8);
        Scale scale = new Scale(low, high > low ? high : low + 1, room, Math.max(1, getWidth() - 2 * room));
        double height = rowHeight();
        boolean oneLine = fits(getFontMetrics(theme.font(1)));
        for (int i = 0; i < rows.size(); i++) {
            Row row = rows.get(i);
            Font font = row.together() ? theme.font(1).deriveFont(Font.BOLD) : theme.font(1);
            g.setFont(font);
            FontMetrics metrics = g.getFontMetrics();
            double top = i * height;
            g.setColor(palette.text());
            double base = top + metrics.getAscent();
            g.drawString(row.name(), 0f, (float) base);
            double second = oneLine ? base : base + metrics.getHeight();
            g.drawString(row.figures(), (float) (getWidth() - metrics.stringWidth(row.figures())), (float) second);
            row(g, row, scale, second + metrics.getDescent() + theme.scaled(9), palette);
        }
        if (!Double.isNaN(mark)) {
            dashed(g, scale.x(mark), palette.text());
        }
        g.dispose();
    }

    private void row(Graphics2D g, Row row, Scale scale, double y, Palette palette) {
        double from = scale.x(row.from());
        double to = scale.x(row.to());
        double half = theme.scaled(row.together() ? 7 : 5);
        Color color = row.together() ? palette.text() : palette.measured();
        if (full > 0) {
            g.setColor(palette.quiet());
            g.setStroke(new BasicStroke(1f));
            g.draw(new Rectangle2D.Double(scale.x(0), y - half, scale.x(full) - scale.x(0), 2 * half));
        }
        g.setColor(color);
        if (Double.isNaN(row.at())) {
            g.fill(new Rectangle2D.Double(from, y - half, Math.max(1, to - from), 2 * half));
            return;
        }
        g.setStroke(new BasicStroke((float) theme.scaled(row.together() ? 3 : 2)));
        g.draw(new Line2D.Double(from, y, to, y));
        g.draw(new Line2D.Double(from, y - half, from, y + half));
        g.draw(new Line2D.Double(to, y - half, to, y + half));
        double at = scale.x(row.at());
        if (row.together()) {
            g.fill(new Rectangle2D.Double(at - half, y - half, 2 * half, 2 * half));
        } else {
            g.fill(new Ellipse2D.Double(at - half, y - half, 2 * half, 2 * half));
        }
    }

    /** Beside the marks only, so that it runs through no words. */
    private void dashed(Graphics2D g, double x, Color color) {
        g.setColor(color);
        g.setStroke(new BasicStroke(
                (float) theme.scaled(2), BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, new float[] {6f, 4f}, 0f));
        double height = rowHeight();
        for (int i = 0; i < rows.size(); i++) {
            double bottom = (i + 1) * height - theme.scaled(3);
            g.draw(new Line2D.Double(x, bottom - theme.scaled(18), x, bottom));
        }
    }

    /** From values to pixels. */
    private record Scale(double low, double high, double left, double width) {
        double x(double value) {
            return left + (value - low) / (high - low) * width;
        }
    }
}
