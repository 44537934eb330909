package org.holdtrace.chart;

import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;

/** Sets text so that it fits where it is to stand. */
final class Text {
    /** Smallest type that can be read from the back of a room on a picture of this size. */
    private static final float SMALLEST = 19f;

    private Text() {}

    static double width(Graphics2D g, Font font, String text) {
        return g.getFontMetrics(font).getStringBounds(text, g).getWidth();
    }

    /** {@code font}, or a smaller size of it in which {@code text} is at most {@code width} wide. */
    static Font fitting(Graphics2D g, Font font, String text, double width) {
        Font fitting = font;
        while (width(g, fitting, text) > width && fitting.getSize2D() > SMALLEST) {
            fitting = fitting.deriveFont(fitting.getSize2D() - 1f);
        }
        return fitting;
    }

    /** Draws from {@code x} on the base line {@code y}. */
    static void left(Graphics2D g, Font font, Color color, String text, double x, double y) {
        g.setFont(font);
        g.setColor(color);
        g.drawString(text, (float) x, (float) y);
    }

    /** Draws centred on {@code x}. */
    static void centred(Graphics2D g, Font font, Color color, String text, double x, double y) {
        left(g, font, color, text, x - width(g, font, text) / 2, y);
    }

    /** Draws so that it ends at {@code x}. */
    static void right(Graphics2D g, Font font, Color color, String text, double x, double y) {
        left(g, font, color, text, x - width(g, font, text), y);
    }

    /** {@code text} in lines of at most {@code width}, broken between words. */
    static List<String> wrapped(Graphics2D g, Font font, String text, double width) {
        List<String> lines = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (String word : text.split(" ", -1)) {
            String longer = line.length() == 0 ? word : line + " " + word;
            if (line.length() > 0 && width(g, font, longer) > width) {
                lines.add(line.toString());
                line.setLength(0);
                line.append(word);
            } else {
                line.setLength(0);
                line.append(longer);
            }
        }
        lines.add(line.toString());
        return lines;
    }

    /** {@code text}, cut with an ellipsis where it is wider than {@code width}. */
    static String cut(Graphics2D g, Font font, String text, double width) {
        if (width(g, font, text) <= width) {
            return text;
        }
        int end = text.length();
        while (end > 1 && width(g, font, text.substring(0, end) + "…") > width) {
            end--;
        }
        return text.substring(0, end).strip() + "…";
    }
}
