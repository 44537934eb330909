package org.holdtrace.desk.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Compared with what Java 2D, which has a rasteriser of its own, makes of the same points. */
class SpansTest {
    private static final int WIDTH = 400;
    private static final int HEIGHT = 240;

    @Test
    void aNoisyLineWithRisesAndSpikesIsInkedAsJava2dInksIt() {
        Random random = new Random(3);
        double[] y = new double[2 * WIDTH];
        for (int i = 0; i < y.length; i++) {
            double hump = 100 * Math.sin(i / 60.0) * Math.sin(i / 60.0);
            y[i] = 170 - hump + 1.5 * random.nextGaussian() - (i == 333 ? 55 : 0);
        }
        for (float thick : new float[] {1.6f, 3.2f, 4.8f}) {
            BufferedImage ours = spans(y, thick);
            BufferedImage theirs = java2d(y, thick);
            double difference = 0;
            double ink = 0;
            for (int at = 0; at < WIDTH * HEIGHT; at++) {
                int our = ours.getRGB(at % WIDTH, at / WIDTH) & 0xFF;
                int their = theirs.getRGB(at % WIDTH, at / WIDTH) & 0xFF;
                difference += Math.abs(our - their);
                ink += 255 - their;
            }
            // Corners differ by the shape of pens, and edges by three parts of a column against Java's eight.
            assertTrue(difference < 0.12 * ink, thick + ": " + difference / ink + " of the ink is elsewhere");
        }
    }

    @Test
    void noNumberBreaksTheLineAndNothingIsDrawnOutsideTheArea() {
        Sheet sheet = sheet();
        Spans spans = new Spans(0, WIDTH);
        spans.to(0, 100);
        spans.to(100.5, 100);
        spans.to(150, Double.NaN);
        spans.to(200.5, 300);
        spans.to(399, -50);
        spans.draw(sheet, new Rectangle2D.Double(0, 50, WIDTH, 100), 2, Color.BLACK);
        assertEquals(0, sheet.pixels()[100 * WIDTH + 50] & 0xFFFFFF);
        assertEquals(0xFFFFFF, sheet.pixels()[100 * WIDTH + 150] & 0xFFFFFF);
        for (int y = 0; y < HEIGHT; y++) {
            for (int x = 0; x < WIDTH; x++) {
                assertTrue(
                        (y >= 50 && y < 150) || (sheet.pixels()[y * WIDTH + x] & 0xFFFFFF) == 0xFFFFFF, x + ", " + y);
            }
        }
    }

    private static Sheet sheet() {
        Sheet sheet = new Sheet();
        BufferedImage screen = new BufferedImage(1, 1, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = sheet.begin(screen.createGraphics(), WIDTH, HEIGHT);
        g.setColor(Color.WHITE);
        g.fillRect(0, 0, WIDTH, HEIGHT);
        g.dispose();
        return sheet;
    }

    private static BufferedImage spans(double[] y, float thick) {
        Sheet sheet = sheet();
        Spans spans = new Spans(0, WIDTH);
        for (int i = 0; i < y.length; i++) {
            spans.to(0.5 * i, y[i]);
        }
        spans.draw(sheet, new Rectangle2D.Double(0, 0, WIDTH, HEIGHT), thick, Color.BLACK);
        BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        sheet.show(image.createGraphics());
        return image;
    }

    private static BufferedImage java2d(double[] y, float thick) {
        Sheet sheet = sheet();
        BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
        sheet.show(image.createGraphics());
        Graphics2D g = image.createGraphics();
        g.setRenderingHint(java.awt.RenderingHints.KEY_ANTIALIASING, java.awt.RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(java.awt.RenderingHints.KEY_STROKE_CONTROL, java.awt.RenderingHints.VALUE_STROKE_PURE);
        g.setColor(Color.BLACK);
        g.setStroke(new BasicStroke(thick, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        Path2D path = new Path2D.Double();
        path.moveTo(0, y[0]);
        for (int i = 1; i < y.length; i++) {
            path.lineTo(0.5 * i, y[i]);
        }
        g.draw(path);
        return image;
    }
}
