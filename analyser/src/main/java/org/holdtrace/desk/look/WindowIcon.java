package org.holdtrace.desk.look;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.util.ArrayList;
import java.util.List;

/** The picture windows have in their title and in the system's bar: pressure that is pumped up and falls a little. */
public final class WindowIcon {
    private static final int[] SIZES = {16, 24, 32, 48, 64, 128};

    private WindowIcon() {}

    /** In all sizes systems ask for. */
    public static List<Image> images() {
        List<Image> images = new ArrayList<>();
        for (int size : SIZES) {
            images.add(image(size));
        }
        return images;
    }

    private static BufferedImage image(int size) {
        BufferedImage image = new BufferedImage(size, size, BufferedImage.TYPE_INT_ARGB);
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.scale(size / 16.0, size / 16.0);
        g.setColor(Palette.LIGHT.measured());
        g.fill(new RoundRectangle2D.Double(0, 0, 16, 16, 4, 4));
        Path2D line = new Path2D.Double();
        line.moveTo(2, 13);
        line.lineTo(4, 13);
        line.lineTo(6.5, 3.5);
        line.curveTo(8, 6.5, 10.5, 7.5, 14, 8);
        g.setColor(Palette.LIGHT.holding());
        g.setStroke(new BasicStroke(1.8f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        g.draw(line);
        g.dispose();
        return image;
    }
}
