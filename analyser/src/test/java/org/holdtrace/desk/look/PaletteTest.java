package org.holdtrace.desk.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Contrast after W3C, Web Content Accessibility Guidelines (WCAG) 2.1, definitions "contrast ratio" and "relative
 * luminance"; limits from success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (graphics, 3 : 1). Formula and limits are
 * written down from memory.
 */
class PaletteTest {
    @Test
    void theFormulaGivesTheGuidelinesOwnExtremes() {
        assertEquals(21, contrast(Color.BLACK, Color.WHITE), 1e-9);
        assertEquals(1, contrast(Color.RED, Color.RED), 1e-12);
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void textIsLegibleOnEveryGround(boolean dark) {
        Palette p = Palette.of(dark);
        List<Color> texts = new ArrayList<>(List.of(p.text(), p.quiet(), p.caution(), p.accent()));
        for (Outcome outcome : Outcome.values()) {
            texts.add(p.verdict(outcome));
        }
        for (Color text : texts) {
            for (Color ground : grounds(p)) {
                check(text, ground, 4.5);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void linesStandOutFromEveryGround(boolean dark) {
        Palette p = Palette.of(dark);
        for (Color line : List.of(p.measured(), p.fitted(), p.accent())) {
            for (Color ground : grounds(p)) {
                check(line, ground, 3);
            }
        }
        check(p.fitted(), p.band(), 3);
        check(p.text(), p.band(), 4.5);
    }

    @Test
    void everyPhaseHasASignOfItsOwn() {
        Set<String> signs = new HashSet<>();
        for (Phase phase : Phase.values()) {
            assertTrue(signs.add(PhaseLook.sign(phase)), phase.label());
        }
        assertEquals("■ hold", PhaseLook.words(Phase.HOLD));
    }

    private static List<Color> grounds(Palette p) {
        List<Color> grounds = new ArrayList<>(List.of(p.background(), p.surface()));
        for (Phase phase : Phase.values()) {
            grounds.add(p.ground(phase));
        }
        return grounds;
    }

    private static void check(Color front, Color ground, double least) {
        double found = contrast(front, ground);
        assertTrue(
                found >= least,
                () -> String.format(
                        Locale.ROOT,
                        "%06X on %06X: %.2f : 1, wanted %.1f",
                        front.getRGB() & 0xFFFFFF,
                        ground.getRGB() & 0xFFFFFF,
                        found,
                        least));
    }

    private static double contrast(Color a, Color b) {
        double first = luminance(a);
        double second = luminance(b);
        return (Math.max(first, second) + 0.05) / (Math.min(first, second) + 0.05);
    }

    private static double luminance(Color c) {
        return 0.2126 * linear(c.getRed()) + 0.7152 * linear(c.getGreen()) + 0.0722 * linear(c.getBlue());
    }

    private static double linear(int channel) {
        double s = channel / 255.0;
        return s <= 0.03928 ? s / 12.92 : Math.pow((s + 0.055) / 1.055, 2.4);
    }
}
