package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.List;

/**
 * Joins what the detector, not knowing what was to come, took for two hold tests: a hold test is one pump-up, rests
 * included, and what follows until the pressure is let off.
 */
final class TestJoiner {
    /** First strokes into air raise so little that some pass unseen and a pause seems long. */
    private static final double AIR_PART = 0.1;

    private static final double BLIP_PART = 0.05;
    private static final int BLIP_STROKES = 2;

    /**
     * A trace that begins at less than this part of what is then pumped up to begins at rest: a transducer of a wide span
     * may be off by bars (common practice).
     */
    private static final double REST_PART = 0.05;

    /** The error of a slope goes with time^-1.5: a hold of this part of the one at the end tells its rate a third as well. */
    private static final double PAUSE_PART = 0.5;

    /** Who stops for longer, s, and for longer than is pumped then, waits to see the pressure fall (common practice). */
    private static final double LONGEST_PAUSE_S = 60;

    /**
     * Who tops up stops once the pressure is back where it was; who begins one more stroke when it is higher than that by
     * this part goes on pumping up (common practice).
     */
    private static final double HIGHER_PART = 0.05;

    private TestJoiner() {}

    /** The tests of {@code found}, joined where no let-off parts them and one is but a scrap of the other or no test at all. */
    static List<FoundTest> join(List<FoundTest> found) {
        List<FoundTest> joined = new ArrayList<>();
        for (FoundTest next : found) {
            if (beganAtRest(next)) {
                next.restFromS = next.pumpedUpS;
                next.restToS = next.startS(0);
                next.pumpedUpS = Double.NaN;
            }
            FoundTest last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
            if (last != null && isRest(last, next)) {
                next.restFromS = last.pumpedUpS;
                next.restToS = next.startS(0);
                joined.set(joined.size() - 1, next);
            } else if (last != null && Double.isNaN(last.bleedFromS) && isBlip(next)) {
                last.endS = next.endS;
                last.bleedFromS = next.bleedFromS;
                last.bleedToS = next.bleedToS;
            } else if (last != null && Double.isNaN(last.bleedFromS) && isAir(last, next)) {
                joined.set(joined.size() - 1, last.with(next));
            } else {
                joined.add(next);
            }
        }
        withoutPauses(joined);
        return joined;
    }

    /** From the end: what a pause led to is known, and what is one hold test with it, when the pause is asked about. */
    private static void withoutPauses(List<FoundTest> tests) {
        for (int i = tests.size() - 2; i >= 0; i--) {
            if (isPause(tests.get(i), tests.get(i + 1))) {
                tests.set(i, tests.get(i).with(tests.remove(i + 1)));
            }
        }
    }

    /** Whether what looked like the hold of {@code early} was a rest amid the pump-up that goes on in {@code late}. */
    private static boolean isPause(FoundTest early, FoundTest late) {
        if (!Double.isNaN(early.bleedFromS) || early.strokes() == 0 || late.strokes() == 0) {
            return false;
        }
        double higherPa = late.highestStartPa() - early.peakPa();
        if (higherPa < HIGHER_PART * (early.peakPa() - early.zeroPa)) {
            return false;
        }
        double pauseS = late.startS(0) - early.lastStrokeEndS();
        double pumpingS = late.lastStrokeEndS() - late.startS(0);
        double holdEndS = Double.isNaN(late.bleedFromS) ? late.endS : late.bleedFromS;
        return pauseS < PAUSE_PART * (holdEndS - late.lastStrokeEndS()) && pauseS < Math.max(LONGEST_PAUSE_S, pumpingS);
    }

    /** Whether what looked like a line pumped up before was the zero of the transducer. */
    private static boolean isRest(FoundTest early, FoundTest late) {
        return early.strokes() == 0
                && !Double.isNaN(early.pumpedUpS)
                && Double.isNaN(early.bleedFromS)
                && beginsNearZero(late);
    }

    /** The same where the first stroke came so soon that the detector took it for one of a pump-up under way. */
    private static boolean beganAtRest(FoundTest test) {
        return !Double.isNaN(test.pumpedUpS) && beginsNearZero(test);
    }

    private static boolean beginsNearZero(FoundTest test) {
        return test.strokes() > 0 && test.startPa(0) < REST_PART * test.peakPa();
    }

    private static boolean isBlip(FoundTest test) {
        int n = test.strokes();
        if (n == 0 || n > BLIP_STROKES) {
            return false;
        }
        double level = test.endPa(n - 1) - test.zeroPa;
        return test.endPa(n - 1) - test.startPa(0) < BLIP_PART * level;
    }

    private static boolean isAir(FoundTest early, FoundTest late) {
        return early.strokes() > 0
                && late.strokes() > 0
                && early.peakPa() - early.zeroPa < AIR_PART * (late.peakPa() - early.zeroPa);
    }
}
