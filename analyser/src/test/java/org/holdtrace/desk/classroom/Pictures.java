package org.holdtrace.desk.classroom;

import java.awt.Component;
import java.awt.Container;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/** Draws screens without a window. */
final class Pictures {
    private Pictures() {}

    static BufferedImage of(Component screen, int width, int height, String name) {
        screen.setSize(width, height);
        layOut(screen);
        BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        screen.printAll(g);
        g.dispose();
        try {
            Path out = Path.of("target", "pictures");
            Files.createDirectories(out);
            ImageIO.write(image, "png", out.resolve(name + ".png").toFile());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return image;
    }

    /** Without a window nobody lays anything out. */
    private static void layOut(Component component) {
        if (component instanceof Container container) {
            container.doLayout();
            for (Component each : container.getComponents()) {
                layOut(each);
            }
        }
    }
}
