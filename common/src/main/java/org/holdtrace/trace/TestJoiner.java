package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.List;

/** Joins what the detector, not knowing what was to come, took for two hold tests. */
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
        return joined;
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
