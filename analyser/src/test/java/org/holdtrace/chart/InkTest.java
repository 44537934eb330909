package org.holdtrace.chart;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Contrast as W3C, Web Content Accessibility Guidelines 2.1 defines it: relative luminance from linearised sRGB, contrast
 * (L1 + 0.05) / (L2 + 0.05); 4.5 : 1 for text and 3 : 1 for the parts of a figure (success criteria 1.4.3 and 1.4.11).
 */
class InkTest {
    private static final List<Color> GROUNDS = List.of(Ink.PAPER, Ink.PUMPING, Ink.SETTLING, Ink.HOLDING, Ink.BAND);

    private static double linear(int channel) {
        double c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
    }

    private static double luminance(Color color) {
        return 0.2126 * linear(color.getRed()) + 0.7152 * linear(color.getGreen()) + 0.0722 * linear(color.getBlue());
    }

    private static double contrast(Color a, Color b) {
        double lighter = Math.max(luminance(a), luminance(b));
        double darker = Math.min(luminance(a), luminance(b));
        return (lighter + 0.05) / (darker + 0.05);
    }

    @Test
    void textCanBeReadOnEveryGround() {
        for (Color ground : GROUNDS) {
            assertTrue(contrast(Ink.TEXT, ground) >= 4.5, ground.toString());
        }
        assertTrue(contrast(Ink.QUIET, Ink.PAPER) >= 4.5);
    }

    @Test
    void linesStandOutFromEveryGroundTheyAreDrawnOn() {
        for (Color ground : GROUNDS) {
            assertTrue(contrast(Ink.MEASURED, ground) >= 3, ground.toString());
        }
        assertTrue(contrast(Ink.FITTED, Ink.PAPER) >= 3);
        assertTrue(contrast(Ink.FITTED, Ink.BAND) >= 3);
    }

    @Test
    void measuredAndFittedStayApartInGrey() {
        assertTrue(contrast(Ink.MEASURED, Ink.FITTED) >= 2, "was " + contrast(Ink.MEASURED, Ink.FITTED));
    }
}
