package org.holdtrace.desk.classroom;

import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.RoundRectangle2D;
import java.util.List;
import javax.accessibility.AccessibleRole;
import org.holdtrace.desk.look.Drawing;
import org.holdtrace.desk.look.Theme;

/**
 * What can be pressed, as framed keys and words in as many lines as they take. Large type stays large only as far as it
 * leaves the screen to what the class looks at. On the event thread.
 */
final class KeyLine extends Drawing {
    private static final long serialVersionUID = 1L;
    private static final double TYPE = 1.1;
    private static final int LEAST_WIDTH = 600;
    /** Height of a screen on which the usual type is right, pixels. */
    private static final double USUAL_HEIGHT = 768;
    /** No more of a screen's height than this is for keys. */
    private static final double LARGEST_SHARE = 0.17;

    private transient Theme theme;
    private transient List<Key> keys = List.of();

    KeyLine(Theme theme) {
        super(AccessibleRole.LABEL);
        this.theme = theme;
        setName("keys");
        setOpaque(true);
    }

    void setTheme(Theme next) {
        theme = next;
        revalidate();
        repaint();
    }

    void setKeys(List<Key> next) {
        keys = next.stream().filter(key -> !key.words().isEmpty()).toList();
        getAccessibleContext()
                .setAccessibleName("keys: "
                        + String.join(
                                ", ",
                                keys.stream()
                                        .map(key -> key.shown() + " " + key.words())
                                        .toList()));
        revalidate();
        repaint();
    }

    @Override
    public Dimension getPreferredSize() {
        FontMetrics metrics = getFontMetrics(font());
        return new Dimension(LEAST_WIDTH, rows(null, metrics, wide()) * rowHeight(metrics));
    }

    private int wide() {
        return getParent() == null
                ? LEAST_WIDTH
                : Math.max(LEAST_WIDTH, getParent().getWidth());
    }

    /** The type that is wished for, or the largest with which the keys take their share of the height. */
    private Font font() {
        int height = getParent() == null ? 0 : getParent().getHeight();
        Font wished = theme.font(TYPE * growth(height));
        double most = LARGEST_SHARE * height;
        double least = Theme.usual().font(1).getSize2D();
        float size = wished.getSize2D();
        Font font = wished;
        while (height > 0 && size > least && isHigherThan(most, font)) {
            size -= 1;
            font = wished.deriveFont(size);
        }
        return font;
    }

    private boolean isHigherThan(double most, Font font) {
        FontMetrics metrics = getFontMetrics(font);
        return rows(null, metrics, wide()) * rowHeight(metrics) > most;
    }

    /** How many times larger than usual small type is on a screen of {@code height} pixels. */
    static double growth(int height) {
        return Math.max(1, height / USUAL_HEIGHT);
    }

    private static int rowHeight(FontMetrics metrics) {
        return (int) Math.ceil(1.6 * metrics.getHeight());
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics.create();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setColor(theme.palette().surface());
        g.fillRect(0, 0, getWidth(), getHeight());
        g.setFont(font());
        rows(g, g.getFontMetrics(), getWidth());
        g.dispose();
    }

    /** Lays the keys out, and draws them where {@code g} is there; how many rows they take. */
    private int rows(Graphics2D g, FontMetrics metrics, int width) {
        double gap = 0.45 * metrics.getHeight();
        double x = gap;
        int row = 0;
        for (Key key : keys) {
            double keyWidth = metrics.stringWidth(key.shown()) + gap;
            double needed = keyWidth + gap + metrics.stringWidth(key.words()) + 2 * gap;
            if (x > gap && x + needed > width) {
                row++;
                x = gap;
            }
            if (g != null) {
                double top = row * rowHeight(metrics) + 0.2 * metrics.getHeight();
                float base = (float) (top + 0.1 * metrics.getHeight() + metrics.getAscent());
                g.setColor(theme.palette().text());
                g.setStroke(new BasicStroke(1.4f));
                g.draw(new RoundRectangle2D.Double(x, top, keyWidth, 1.2 * metrics.getHeight(), 6, 6));
                g.drawString(key.shown(), (float) (x + gap / 2), base);
                g.drawString(key.words(), (float) (x + keyWidth + 0.6 * gap), base);
            }
            x += needed;
        }
        return row + 1;
    }
}
