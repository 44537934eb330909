package org.holdtrace.desk.view;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;

/**
 * What a picture is drawn on that is new in every frame: pixels in the program's own memory, put on the screen in one go.
 * Lines and tints drawn straight to a screen cost a message to its server each, and many times the time. Kept from frame
 * to frame. On the event thread.
 */
final class Sheet {
    private BufferedImage image;
    private double scale = 1;

    /** Where to draw {@code width} by {@code height} pixels of a component; whatever is there has to be drawn over. */
    Graphics2D begin(Graphics2D screen, int width, int height) {
        AffineTransform screens = screen.getTransform();
        scale = Math.max(0.1, Math.hypot(screens.getScaleX(), screens.getShearY()));
        int wide = Math.max(1, (int) Math.ceil(width * scale));
        int high = Math.max(1, (int) Math.ceil(height * scale));
        if (image == null || image.getWidth() != wide || image.getHeight() != high) {
            image = new BufferedImage(wide, high, BufferedImage.TYPE_INT_RGB);
        }
        Graphics2D g = image.createGraphics();
        g.scale(scale, scale);
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        return g;
    }

    /** Pixels of the screen for each of the component's. */
    double scale() {
        return scale;
    }

    /** Width in pixels of the screen. */
    int width() {
        return image.getWidth();
    }

    /** Height in pixels of the screen. */
    int height() {
        return image.getHeight();
    }

    /** The pixels, row by row, each 0xRRGGBB below eight bits that count for nothing. */
    int[] pixels() {
        return ((DataBufferInt) image.getRaster().getDataBuffer()).getData();
    }

    /** Puts what was drawn on the screen, its left upper corner at the origin. */
    void show(Graphics2D screen) {
        Graphics2D g = (Graphics2D) screen.create();
        g.scale(1 / scale, 1 / scale);
        g.drawImage(image, 0, 0, null);
        g.dispose();
    }
}
