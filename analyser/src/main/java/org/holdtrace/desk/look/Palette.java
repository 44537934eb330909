package org.holdtrace.desk.look;

import java.awt.Color;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.trace.Phase;

/**
 * The desk's colours. Text stands out from every ground it is put on by 4.5 : 1 or more, lines by 3 : 1 (WCAG 2.1,
 * success criteria 1.4.3 and 1.4.11; a test computes it). Blue against orange stays apart for the colour-blind, and no
 * meaning rests on colour alone: see {@link PhaseLook}. The light one has the inks of the printed pictures, a shade
 * darker where those would be weak on a tinted ground.
 *
 * @param dark whether this is the dark palette
 * @param background behind plots and panels
 * @param surface behind controls and figures that belong together
 * @param text text, axes, limits
 * @param quiet notes and helping lines; still text
 * @param grid grid lines, which carry no meaning
 * @param measured what was measured
 * @param fitted what was fitted or derived
 * @param band area of an interval
 * @param accent focus, selection, cursors
 * @param within the words "within limit"
 * @param over the words "over limit"
 * @param undecided the word "undecided"
 * @param caution the words of a caution
 * @param pumping ground of a phase in which somebody pumps
 * @param settling ground of settling
 * @param holding ground of the hold
 */
public record Palette(
        boolean dark,
        Color background,
        Color surface,
        Color text,
        Color quiet,
        Color grid,
        Color measured,
        Color fitted,
        Color band,
        Color accent,
        Color within,
        Color over,
        Color undecided,
        Color caution,
        Color pumping,
        Color settling,
        Color holding) {
    /** Dark on light, as in print. */
    public static final Palette LIGHT = new Palette(
            false,
            new Color(0xFFFFFF),
            new Color(0xF3F1EC),
            new Color(0x141414),
            new Color(0x555555),
            new Color(0xC4C4C4),
            new Color(0x1B406B),
            new Color(0xB84A06),
            new Color(0xF6D6BC),
            new Color(0x0B5A63),
            new Color(0x1B4F8A),
            new Color(0x9C3400),
            new Color(0x4A4A4A),
            new Color(0x7A3B00),
            new Color(0xDFEBF6),
            new Color(0xD8D8D8),
            new Color(0xFDF6DF));

    /** Light on dark, for a dim room. */
    public static final Palette DARK = new Palette(
            true,
            new Color(0x14171B),
            new Color(0x20252B),
            new Color(0xF2F2EE),
            new Color(0xBCC1C6),
            new Color(0x474D54),
            new Color(0x8EC3FA),
            new Color(0xF9AC6B),
            new Color(0x57391F),
            new Color(0x6FD0DA),
            new Color(0x9CCBFF),
            new Color(0xFFA578),
            new Color(0xD4D4D4),
            new Color(0xFFC489),
            new Color(0x1D2F42),
            new Color(0x35383C),
            new Color(0x332E1C));

    /** The light or the dark one. */
    public static Palette of(boolean dark) {
        return dark ? DARK : LIGHT;
    }

    /** The ground of {@code phase}. */
    public Color ground(Phase phase) {
        return switch (phase) {
            case REST, BLEED_OFF -> background;
            case PUMP_UP, PLATEAU -> pumping;
            case SETTLING -> settling;
            case HOLD -> holding;
        };
    }

    /** The colour of the verdict's words. */
    public Color verdict(Outcome outcome) {
        return switch (outcome) {
            case WITHIN_LIMIT -> within;
            case OVER_LIMIT -> over;
            case UNDECIDED -> undecided;
        };
    }
}
