package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Strokes into a port that loses most of one before the next: against traces made here, of which the truth is known. */
class LeakingPortStrokesTest {
    /** Pumped to a plateau that passes two thirds of what a hand pushes. */
    private static MadeTrace leaking(long seed, double rateHz) {
        MadeTrace made = new MadeTrace(seed);
        made.rateHz = rateHz;
        made.strokes = 34;
        made.strokeCm3 = 0.16;
        made.complianceCm3PerBar = 0.0095;
        made.leakCm3PerSBar = 0.0014;
        made.pushS = 0.75;
        made.pauseS = 0.25;
        made.scatter = 0.08;
        made.noiseBar = 0.1;
        return made;
    }

    @Test
    void noStrokeIsLostOnTheWayToAPlateauThoughItHardlyRaisesPressureAnyMore() {
        for (double rateHz : new double[] {50, 128, 400}) {
            for (long seed = 1; seed <= 6; seed++) {
                MadeTrace made = leaking(seed, rateHz);
                List<HoldTest> found = TraceSegmenter.segment(made.make());
                assertEquals(1, found.size());
                assertEquals(made.strokes, found.get(0).strokes().size(), "seed " + seed + ", " + rateHz + " Hz");
            }
        }
    }

    @Test
    void aPushThatBeginsWithNoMoreThanLeaksAwayIsSeenToBeginThen() {
        MadeTrace made = leaking(3, 200);
        made.push = MadeTrace.Push.TWO_SPEEDS;
        made.noiseBar = 0.04;
        made.pauseS = 0.5;
        List<Stroke> strokes = TraceSegmenter.segment(made.make()).get(0).strokes();
        double[] late = new double[14];
        for (int i = 1; i <= late.length; i++) {
            late[i - 1] =
                    strokes.get(strokes.size() - i).startS() - made.trueStrokes.get(made.strokes - i)[0];
        }
        Arrays.sort(late);
        // A push lasts 0.75 s, and for half of that pressure does not rise.
        assertEquals(0, late[late.length / 2], 0.05, Arrays.toString(late));
    }
}
