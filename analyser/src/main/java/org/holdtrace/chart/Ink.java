package org.holdtrace.chart;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;

/**
 * Colours, pens and type of all pictures. The colours step down in luminance, so that they stay apart in grey; lines
 * that cross one another differ in their pen as well, areas in their hatch.
 */
final class Ink {
    /** Text, axes, limits. Luminance 0.01 (WCAG 2 relative luminance, as all below). */
    static final Color TEXT = new Color(0x14, 0x14, 0x14);
    /** What was measured. Luminance 0.05. */
    static final Color MEASURED = new Color(0x1B, 0x40, 0x6B);
    /** What was fitted or derived. Luminance 0.20. */
    static final Color FITTED = new Color(0xC8, 0x54, 0x0C);
    /** Notes and helping lines; 5.7 : 1 against white. */
    static final Color QUIET = new Color(0x63, 0x63, 0x63);
    /** Hatching and grid. */
    static final Color GRID = new Color(0xC4, 0xC4, 0xC4);
    /** Area of an interval. Luminance 0.72. */
    static final Color BAND = new Color(0xF6, 0xD6, 0xBC);
    /** Phases in which somebody pumps. Luminance 0.82. */
    static final Color PUMPING = new Color(0xDF, 0xEB, 0xF6);
    /** Phases in which the line settles. Luminance 0.70. */
    static final Color SETTLING = new Color(0xD8, 0xD8, 0xD8);
    /** The hold. Luminance 0.93. */
    static final Color HOLDING = new Color(0xFD, 0xF6, 0xDF);

    static final Color PAPER = Color.WHITE;

    static final BasicStroke THIN = new BasicStroke(1.2f);
    static final BasicStroke LINE = new BasicStroke(2.6f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    static final BasicStroke HEAVY = new BasicStroke(4.2f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    static final BasicStroke DOT = new BasicStroke(7f, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    static final BasicStroke LIMIT =
            new BasicStroke(3.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, new float[] {16f, 7f}, 0f);
    static final BasicStroke REFERENCE =
            new BasicStroke(2.4f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 10f, new float[] {3f, 6f}, 0f);

    static final Font STATEMENT = font(Font.BOLD, 46);
    static final Font VERDICT = font(Font.BOLD, 36);
    static final Font TITLE = font(Font.BOLD, 28);
    static final Font LABEL = font(Font.PLAIN, 25);
    static final Font TICK = font(Font.PLAIN, 24);
    static final Font NOTE = font(Font.PLAIN, 22);

    private Ink() {}

    private static Font font(int style, int size) {
        return Typeface.font(style, size);
    }
}
