package org.holdtrace.desk.classroom;

import java.awt.Component;
import java.awt.Graphics2D;
import java.awt.GraphicsConfiguration;
import java.awt.Image;
import java.awt.datatransfer.DataFlavor;
import java.awt.datatransfer.Transferable;
import java.awt.datatransfer.UnsupportedFlavorException;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import javax.imageio.ImageIO;
import org.jfree.svg.SVGGraphics2D;
import org.jfree.svg.ViewBox;

/** The screen as a picture. Drawing is for the event thread, writing for another. */
final class ClassPicture {
    private ClassPicture() {}

    /** What is to be written to a file: drawn already, so that any thread may write it. */
    interface Drawn {
        void write(Path file) throws IOException;
    }

    /** {@code screen} as it is, in the pixels of the display, of which a system that scales gives several to each of Java's. */
    static BufferedImage image(Component screen) {
        GraphicsConfiguration display = screen.getGraphicsConfiguration();
        AffineTransform scale = display == null ? new AffineTransform() : display.getDefaultTransform();
        return image(screen, scale.getScaleX(), scale.getScaleY());
    }

    /** {@code screen} as it is, {@code scaleX} and {@code scaleY} (above 0) times as large. */
    static BufferedImage image(Component screen, double scaleX, double scaleY) {
        BufferedImage image = new BufferedImage(
                (int) Math.max(1, Math.round(scaleX * screen.getWidth())),
                (int) Math.max(1, Math.round(scaleY * screen.getHeight())),
                BufferedImage.TYPE_INT_RGB);
        Graphics2D g = image.createGraphics();
        g.scale(scaleX, scaleY);
        screen.printAll(g);
        g.dispose();
        return image;
    }

    /** Draws {@code screen} for {@code file}: lines and letters where its name ends in .svg, pixels otherwise. */
    static Drawn draw(Component screen, Path file) {
        if (file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".svg")) {
            SVGGraphics2D g = new SVGGraphics2D(screen.getWidth(), screen.getHeight());
            screen.printAll(g);
            String svg =
                    g.getSVGElement(null, true, new ViewBox(0, 0, screen.getWidth(), screen.getHeight()), null, null);
            return to -> Files.writeString(to, svg);
        }
        BufferedImage image = image(screen);
        return to -> {
            if (!ImageIO.write(image, "png", to.toFile())) {
                throw new IOException(to + ": this Java cannot write PNG pictures");
            }
        };
    }

    /** {@code file} with .png after it where it has neither ending. */
    static Path withEnding(Path file) {
        String name = file.getFileName().toString();
        String low = name.toLowerCase(Locale.ROOT);
        return low.endsWith(".png") || low.endsWith(".svg") ? file : file.resolveSibling(name + ".png");
    }

    /** A picture on its way to the clipboard. */
    record OnClipboard(Image image) implements Transferable {
        @Override
        public DataFlavor[] getTransferDataFlavors() {
            return new DataFlavor[] {DataFlavor.imageFlavor};
        }

        @Override
        public boolean isDataFlavorSupported(DataFlavor flavor) {
            return DataFlavor.imageFlavor.equals(flavor);
        }

        @Override
        public Object getTransferData(DataFlavor flavor) throws UnsupportedFlavorException {
            if (!isDataFlavorSupported(flavor)) {
                throw new UnsupportedFlavorException(flavor);
            }
            return image;
        }
    }
}
