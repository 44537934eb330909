package org.holdtrace.desk.classroom;

import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.util.Optional;
import javax.accessibility.AccessibleRole;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.PhaseLook;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.trace.Phase;

/** A line of text as large as its place allows. On the event thread. */
final class Plate extends Drawing {
    private static final long serialVersionUID = 1L;
    private static final double LARGEST_SHARE = 0.84;
    private static final double SIDE_SHARE = 0.03;
    /** Size of what stands behind the text in small type. */
    private static final float SUFFIX = 0.36f;

    private final String widest;
    private final int style;
    private final boolean left;
    private String suffix = "";
    private transient Theme theme;
    private transient Color color;
    private String text = "";
    private transient Optional<Phase> ground = Optional.empty();

    /**
     * @param widest sizes the type, so that it does not change with the text; empty: the text itself does
     * @param style a style of {@link Font}
     * @param left whether the text stands at the left, not in the middle
     */
    Plate(String name, String widest, int style, boolean left, Theme theme) {
        super(AccessibleRole.LABEL);
        this.widest = widest;
        this.style = style;
        this.left = left;
        this.theme = theme;
        color = theme.palette().text();
        setName(name);
        getAccessibleContext().setAccessibleName(name);
        setOpaque(true);
    }

    void setTheme(Theme next) {
        theme = next;
        color = next.palette().text();
        repaint();
    }

    void setText(String next) {
        if (!next.equals(text)) {
            text = next;
            getAccessibleContext().setAccessibleName(next.isEmpty() ? getName() : next);
            repaint();
        }
    }

    String text() {
        return text;
    }

    /** What stands behind the text in small type, such as a unit. */
    void setSuffix(String next) {
        if (!next.equals(suffix)) {
            suffix = next;
            repaint();
        }
    }

    void setColor(Color next) {
        if (!next.equals(color)) {
            color = next;
            repaint();
        }
    }

    /** The phase whose ground and hatch lie behind the text. */
    void setGround(Optional<Phase> next) {
        if (!next.equals(ground)) {
            ground = next;
            repaint();
        }
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        Rectangle2D all = new Rectangle2D.Double(0, 0, getWidth(), getHeight());
        g.setColor(theme.palette().background());
        g.fill(all);
        ground.ifPresent(phase -> PhaseLook.fill(g, all, phase, theme.palette()));
        double side = SIDE_SHARE * getWidth();
        Font font = fit(g, getWidth() - 2 * side);
        FontMetrics metrics = g.getFontMetrics(font);
        Font small = font.deriveFont(SUFFIX * font.getSize2D());
        double textWidth = metrics.stringWidth(text);
        double width = textWidth + g.getFontMetrics(small).stringWidth(suffix);
        double x = left ? side : (getWidth() - width) / 2;
        double y = (getHeight() + metrics.getAscent() - metrics.getDescent()) / 2.0;
        if (ground.isPresent()) {
            // Lines of the hatch would cut through the letters.
            g.setColor(theme.palette().ground(ground.get()));
            double pad = 0.3 * metrics.getAscent();
            g.fill(new Rectangle2D.Double(x - pad, 0, width + 2 * pad, getHeight()));
        }
        g.setFont(font);
        g.setColor(color);
        g.drawString(text, (float) x, (float) y);
        g.setFont(small);
        g.drawString(suffix, (float) (x + textWidth), (float) y);
        g.dispose();
    }

    private Font fit(Graphics2D g, double width) {
        Font probe = theme.font(1).deriveFont(style, 100f);
        FontMetrics metrics = g.getFontMetrics(probe);
        double sized =
                Math.max(metrics.stringWidth(text), metrics.stringWidth(widest)) + SUFFIX * metrics.stringWidth(suffix);
        double byWidth = sized == 0 ? Double.POSITIVE_INFINITY : 100 * width / sized;
        double byHeight = 100 * LARGEST_SHARE * getHeight() / (metrics.getAscent() + metrics.getDescent());
        return probe.deriveFont((float) Math.max(4, Math.min(byWidth, byHeight)));
    }
}
