package org.holdtrace.desk;

import java.awt.Graphics2D;
import java.awt.Window;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import javax.swing.JComponent;
import javax.swing.SwingUtilities;
import org.assertj.swing.edt.GuiActionRunner;

/** Pictures of windows as tests leave them, in {@code target/screens}. */
final class Screens {
    private static final Path FOLDER = Path.of("target", "screens");

    private Screens() {}

    /** Draws what is inside {@code window} now to {@code name}.png. */
    static BufferedImage keep(Window window, String name) {
        BufferedImage image = GuiActionRunner.execute(() -> {
            JComponent shown = SwingUtilities.getRootPane(window.getComponent(0));
            BufferedImage drawn = new BufferedImage(shown.getWidth(), shown.getHeight(), BufferedImage.TYPE_INT_RGB);
            Graphics2D g = drawn.createGraphics();
            shown.printAll(g);
            g.dispose();
            return drawn;
        });
        try {
            Files.createDirectories(FOLDER);
            ImageIO.write(image, "png", FOLDER.resolve(name + ".png").toFile());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return image;
    }
}
