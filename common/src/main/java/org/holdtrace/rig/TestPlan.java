package org.holdtrace.rig;

import org.holdtrace.quantity.Require;

/**
 * One hold test: what is done and for how long.
 *
 * @param restS time with the line open before the first stroke, s
 * @param drainedM3 volume that has drained out and takes strokes to fill before pressure rises, m³
 * @param targetPa pressure the hand aims for, Pa
 * @param stallStrokes strokes without a new highest pressure after which the hand gives up, at least 2
 * @param maxStrokes most strokes made
 * @param holdS time from the last stroke to letting off, s
 * @param bleedS time the line is then left open, s; 0: the recording ends in the hold
 * @param bleedCoefficient flow coefficient of the bleed valve, m³/(s √Pa)
 * @param startsPumpedUp whether the recording begins only after the last stroke
 */
public record TestPlan(
        double restS,
        double drainedM3,
        double targetPa,
        int stallStrokes,
        int maxStrokes,
        double holdS,
        double bleedS,
        double bleedCoefficient,
        boolean startsPumpedUp) {
    private static final double LONGEST_S = 86_400;

    public TestPlan {
        Require.notNegative(restS, "rest", "s");
        Require.notNegative(drainedM3, "drained volume", "m3");
        Require.positive(targetPa, "target", "Pa");
        Require.within(stallStrokes, 2, 10_000, "strokes until giving up", "");
        Require.within(maxStrokes, 1, 10_000, "most strokes", "");
        Require.positive(holdS, "hold", "s");
        Require.notNegative(bleedS, "bleed-off", "s");
        Require.within(restS + holdS + bleedS, 0, LONGEST_S, "rest, hold and bleed-off together", "s (a day)");
        if (bleedS > 0) {
            Require.positive(bleedCoefficient, "coefficient of the bleed valve", "m3/(s sqrt(Pa))");
        }
    }

    /** Rest, pump to the target, hold, let off; the bleed valve empties the compliance given in about a second. */
    public static TestPlan usual(double restS, double targetPa, double holdS, double bleedS, double complianceM3PerPa) {
        return new TestPlan(
                restS, 0, targetPa, 8, 400, holdS, bleedS, 2 * complianceM3PerPa * Math.sqrt(targetPa), false);
    }
}
