package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Pushes that slow down or go in jerks, and strokes in so quick a row: traces made here, of which the truth is known. */
class UnevenPushesTest {
    /** Strokes found after the first one: into an empty line it hardly shows where it begins. */
    private static int afterTheFirst(MadeTrace made, HoldTest found) {
        int n = 0;
        for (Stroke stroke : found.strokes()) {
            n += stroke.startS() > made.trueStrokes.get(0)[1] ? 1 : 0;
        }
        return n;
    }

    @ParameterizedTest
    @EnumSource(
            value = MadeTrace.Push.class,
            names = {"LEANING_IN", "JERKS"})
    void aPushThatNeverStopsIsOneStrokeHoweverItSlowsDown(MadeTrace.Push push) {
        for (double leak : new double[] {0, 0.0003, 0.001}) {
            for (long seed = 1; seed <= 4; seed++) {
                MadeTrace made = MadeTrace.pumped(seed, push, leak);
                List<HoldTest> found = TraceSegmenter.segment(made.make());
                assertEquals(1, found.size());
                assertEquals(made.strokes - 1, afterTheFirst(made, found.get(0)), "seed " + seed + ", leak " + leak);
            }
        }
    }

    @Test
    void stampsThatJitterMakeNoSlope() {
        MadeTrace made = MadeTrace.pumped(5, MadeTrace.Push.JERKS, 0.0003);
        made.jitter = 0.3;
        HoldTest found = TraceSegmenter.segment(made.make()).get(0);
        assertEquals(made.strokes - 1, afterTheFirst(made, found));
    }

    @Test
    void strokesInAQuickRowBetweenLongRestsAreNotRunTogether() {
        for (double leak : new double[] {0, 0.001}) {
            MadeTrace made = MadeTrace.pumped(6, MadeTrace.Push.HALF_SINE, leak);
            made.pushS = 0.35;
            made.pauseS = 0.2;
            made.longPauseAfter = 11;
            assertEquals(
                    made.strokes,
                    TraceSegmenter.segment(made.make()).get(0).strokes().size(),
                    "leak " + leak);
        }
    }
}
