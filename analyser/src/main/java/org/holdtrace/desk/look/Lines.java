package org.holdtrace.desk.look;

import java.awt.Dimension;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JComponent;

/**
 * Words in as many lines as they need, for what is drawn over and over as the cells of a list are. A label would have to
 * be given HTML, which it reads anew each time: most of the time that a list takes to be laid out and painted.
 */
public final class Lines extends JComponent {
    private static final long serialVersionUID = 1L;

    private transient List<String> lines = List.of();

    public Lines() {
        setAlignmentX(LEFT_ALIGNMENT);
    }

    /** Says {@code words} in lines no wider than {@code room} pixels. */
    public void say(String words, int room) {
        FontMetrics metrics = getFontMetrics(getFont());
        lines = wrapped(words, metrics, room);
        int widest = lines.stream().mapToInt(metrics::stringWidth).max().orElse(0);
        setPreferredSize(new Dimension(widest, lines.size() * metrics.getHeight()));
    }

    /** Behind spaces and hyphens, and where one word alone is wider than {@code room} anywhere in it. */
    static List<String> wrapped(String words, FontMetrics metrics, int room) {
        List<String> lines = new ArrayList<>();
        String line = "";
        for (String word : words.split("(?<=[ -])", -1)) {
            if (!line.isEmpty() && metrics.stringWidth((line + word).stripTrailing()) > room) {
                lines.add(line.stripTrailing());
                line = "";
            }
            line += word;
            while (line.length() > 1 && metrics.stringWidth(line.stripTrailing()) > room) {
                int fits = 1;
                while (metrics.stringWidth(line.substring(0, fits + 1)) <= room) {
                    fits++;
                }
                lines.add(line.substring(0, fits));
                line = line.substring(fits);
            }
        }
        lines.add(line.stripTrailing());
        return List.copyOf(lines);
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        Graphics2D g = (Graphics2D) graphics;
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setFont(getFont());
        g.setColor(getForeground());
        FontMetrics metrics = g.getFontMetrics();
        int y = metrics.getAscent();
        for (String line : lines) {
            g.drawString(line, 0, y);
            y += metrics.getHeight();
        }
    }
}
