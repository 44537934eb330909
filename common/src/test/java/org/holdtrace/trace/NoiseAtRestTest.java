package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * What rest tells of noise, where it wanders and where a converter shows none: against traces made here, of which the truth
 * is known.
 */
class NoiseAtRestTest {
    @Test
    void noiseThatWandersIsNoStroke() {
        for (long seed = 1; seed <= 8; seed++) {
            MadeTrace made = new MadeTrace(seed);
            made.rateHz = 100;
            made.restS = 7;
            made.strokeCm3 = 0.8;
            made.complianceCm3PerBar = 0.17;
            made.pushS = 0.8;
            made.pauseS = 1.2;
            made.noiseBar = 0.05;
            made.correlation = 0.8;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(1, found.size(), "seed " + seed);
            assertEquals(made.strokes, found.get(0).strokes().size(), "seed " + seed);
        }
    }

    @Test
    void aWildSampleAmidReadingsThatStandStillIsNoStepOfTheConverter() {
        MadeTrace made = new MadeTrace(1);
        made.rateHz = 50;
        made.noiseBar = 0;
        made.stepBar = 0.1;
        Trace still = made.make();
        double[] timeS = new double[still.size()];
        double[] pa = new double[still.size()];
        for (int i = 0; i < timeS.length; i++) {
            timeS[i] = still.timeS(i);
            pa[i] = still.pressurePa(i);
        }
        pa[100] = -18e5; // in its third second, at rest
        List<HoldTest> found = TraceSegmenter.segment(Trace.of(timeS, pa));
        assertEquals(1, found.size());
        assertEquals(made.strokes, found.get(0).strokes().size());
    }
}
