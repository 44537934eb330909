package org.holdtrace.rig;

import java.util.List;
import org.holdtrace.quantity.Require;

/**
 * How the pump is worked.
 *
 * @param strokeS usual duration of a stroke, s
 * @param pauseS usual pause between strokes, s
 * @param spread relative scatter of both
 * @param slowing how much slower strokes and pauses get on the way to the target, 0.5 for half as long again
 * @param shapes shapes that strokes take, drawn at random; at least one
 * @param irregularities what else happens
 * @param reactionS usual time from reaching the target to stopping, s
 * @param finishesLastStroke whether the stroke that reaches the target is pushed to its end
 */
public record Hand(
        double strokeS,
        double pauseS,
        double spread,
        double slowing,
        List<StrokeShape> shapes,
        Irregularities irregularities,
        double reactionS,
        boolean finishesLastStroke) {
    public Hand {
        Require.positive(strokeS, "duration of a stroke", "s");
        Require.notNegative(pauseS, "pause between strokes", "s");
        Require.within(spread, 0, 0.5, "scatter of the tempo", "");
        Require.within(slowing, 0, 5, "slowing", "");
        Require.notNegative(reactionS, "reaction time", "s");
        shapes = List.copyOf(shapes);
        if (shapes.isEmpty()) {
            throw new IllegalArgumentException("a hand needs at least one shape of stroke");
        }
    }

    /**
     * What makes pumping irregular; shares are of strokes, 0 to 1.
     *
     * @param halfStrokes share of strokes pushed only part of the way (30 to 80 % of their volume)
     * @param hesitations share of strokes interrupted on the way
     * @param hesitationLengthS how long, s
     * @param breaks share of strokes followed by a break
     * @param breakLengthS how long, s
     */
    public record Irregularities(
            double halfStrokes, double hesitations, double hesitationLengthS, double breaks, double breakLengthS) {
        public Irregularities {
            Require.within(halfStrokes, 0, 1, "share of half strokes", "");
            Require.within(hesitations, 0, 1, "share of hesitations", "");
            Require.notNegative(hesitationLengthS, "length of a hesitation", "s");
            Require.within(breaks, 0, 1, "share of breaks", "");
            Require.notNegative(breakLengthS, "length of a break", "s");
        }

        /** Nothing of the kind. */
        public static Irregularities none() {
            return new Irregularities(0, 0, 0, 0, 0);
        }
    }

    /** A regular hand that stops at the target. */
    public static Hand regular(double strokeS, double pauseS) {
        return new Hand(strokeS, pauseS, 0, 0, List.of(StrokeShape.HALF_SINE), Irregularities.none(), 0.1, false);
    }
}
