package org.holdtrace.desk.look;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.holdtrace.trace.Phase;

/** How a phase is told without colour: a sign before its word, and a hatch over its ground. */
public final class PhaseLook {
    private static final double SPACING = 14;
    /** Narrower bands than this, pixels, have no room for a hatch. */
    private static final double NARROWEST = 3;
    /** More lines than this nobody can tell from a tint, and a band zoomed far past the window would cost time. */
    private static final int MOST_LINES = 2000;

    private PhaseLook() {}

    /** One sign, unlike those of the other phases. */
    public static String sign(Phase phase) {
        return switch (phase) {
            case REST -> "○";
            case PUMP_UP -> "▲";
            case PLATEAU -> "▬";
            case SETTLING -> "≈";
            case HOLD -> "■";
            case BLEED_OFF -> "▼";
        };
    }

    /** Sign and word: "■ hold". */
    public static String words(Phase phase) {
        return sign(phase) + " " + phase.label();
    }

    /** Fills {@code band}, which should be cut to what is shown, with the phase's ground and hatch, to whole pixels. */
    public static void fill(Graphics2D g, Rectangle2D band, Phase phase, Palette palette) {
        g.setColor(palette.ground(phase));
        int x = (int) Math.round(band.getX());
        int y = (int) Math.round(band.getY());
        fillWhole(g, x, y, (int) Math.round(band.getMaxX()) - x, (int) Math.round(band.getMaxY()) - y);
        if (band.getWidth() < NARROWEST) {
            return;
        }
        switch (phase) {
            case PLATEAU -> hatch(g, band, 1, palette.grid());
            case SETTLING -> hatch(g, band, 0, palette.grid());
            case BLEED_OFF -> hatch(g, band, -1, palette.grid());
            default -> {}
        }
    }

    /** Fills whole pixels, without the blending of edges, which makes an area many times as dear to draw. */
    public static void fillWhole(Graphics2D g, int x, int y, int width, int height) {
        Object before = g.getRenderingHint(RenderingHints.KEY_ANTIALIASING);
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_OFF);
        g.fillRect(x, y, width, height);
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, before);
    }

    private static void hatch(Graphics2D g, Rectangle2D band, int slant, Color color) {
        Shape clip = g.getClip();
        g.clip(band);
        double height = band.getHeight();
        double spacing = Math.max(SPACING, (band.getWidth() + height) / MOST_LINES);
        Path2D lines = new Path2D.Double();
        // Fixed to the screen's grid, so that hatches do not crawl while the trace is panned.
        double first = Math.floor((band.getX() - height) / spacing) * spacing;
        for (double x = first; x < band.getMaxX() + height; x += spacing) {
            lines.moveTo(x, band.getMaxY());
            lines.lineTo(x + slant * height, band.getY());
        }
        g.setColor(color);
        g.setStroke(new BasicStroke(1.2f));
        g.draw(lines);
        g.setClip(clip);
    }
}
