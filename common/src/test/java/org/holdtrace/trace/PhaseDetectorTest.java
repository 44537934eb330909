package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Against traces made here, of which the truth is known: how they are made is the only source there is. */
class PhaseDetectorTest {
    /** Notes what is heard and when. */
    private static final class Notes implements PhaseDetector.Listener {
        final List<String> phases = new ArrayList<>();
        final List<Stroke> strokes = new ArrayList<>();
        final List<HoldTest> finished = new ArrayList<>();
        double nowS;
        double worstDelayS;
        double plateauS = Double.NaN;

        @Override
        public void phaseChanged(Phase phase, double sinceS) {
            phases.add(phase.label());
            assertTrue(sinceS <= nowS);
        }

        @Override
        public void strokeEnded(Stroke stroke, double startPa, double endPa) {
            strokes.add(stroke);
            worstDelayS = Math.max(worstDelayS, nowS - stroke.endS());
            assertTrue(endPa > startPa);
        }

        @Override
        public void plateauBegun(double sinceS) {
            plateauS = sinceS;
        }

        @Override
        public void holdTestFinished(HoldTest test) {
            finished.add(test);
        }
    }

    private static Notes follow(Trace trace) {
        return follow(trace, 0, 0);
    }

    /** From {@code fromS} on, by a converter whose step of {@code stepPa} is known. */
    private static Notes follow(Trace trace, double fromS, double stepPa) {
        Notes notes = new Notes();
        PhaseDetector detector = new PhaseDetector(notes, stepPa);
        for (int i = trace.indexAt(fromS); i < trace.size(); i++) {
            notes.nowS = trace.timeS(i);
            detector.accept(trace.timeS(i), trace.pressurePa(i));
        }
        detector.finish();
        return notes;
    }

    @Test
    void aHoldTestIsFollowedFromPumpUpToLetOff() {
        Notes notes = follow(new MadeTrace(1).make());
        assertEquals(List.of("pump-up", "settling", "hold", "bleed-off", "rest"), notes.phases);
        assertEquals(14, notes.strokes.size());
        assertEquals(1, notes.finished.size());
        assertTrue(notes.worstDelayS < 0.5, "a stroke is known " + notes.worstDelayS + " s after its end");
    }

    @Test
    void aPortThatNeverHoldsIsCalledStalledWhilePumpingGoesOn() {
        MadeTrace made = new MadeTrace(2);
        made.strokes = 30;
        made.leakCm3PerSBar = made.complianceCm3PerBar / 1.5;
        Notes notes = follow(made.make());
        assertTrue(notes.plateauS < made.trueStrokes.get(20)[0], "plateau since " + notes.plateauS);
        assertEquals(30, notes.strokes.size());
    }

    @Test
    void aReadingThatMovesByOneStepOfTheConverterIsNoStroke() {
        for (double noiseBar : new double[] {0, 0.002, 0.02}) {
            for (int seed = 0; seed < 12; seed++) {
                MadeTrace made = new MadeTrace(400 + seed);
                made.restS = 12;
                made.strokes = 10;
                made.noiseBar = noiseBar;
                made.stepBar = 0.1;
                // Within the seconds before the first stroke the zero passes from one step to the next.
                made.zeroBar = 0.2501 - 0.0005 * (9 + 0.25 * seed);
                made.driftBarPerS = 0.0005;
                Notes notes = follow(made.make(), 0, 0.1e5);
                String which = "noise " + noiseBar + ", seed " + seed;
                assertEquals(10, notes.strokes.size(), which);
                assertEquals(List.of("pump-up", "settling", "hold", "bleed-off", "rest"), notes.phases, which);
            }
        }
    }

    @Test
    void aTraceThatBeginsAmidThePumpUpIsOneHoldTest() {
        for (int stroke = 0; stroke < 12; stroke++) {
            MadeTrace made = new MadeTrace(20);
            Trace whole = made.make();
            double[] next = made.trueStrokes.get(stroke + 1);
            double pauseS = 0.5 * (made.trueStrokes.get(stroke)[1] + next[0]);
            for (double fromS : new double[] {pauseS, 0.5 * (next[0] + next[1])}) {
                Notes notes = follow(whole, fromS, 0);
                assertEquals(1, notes.finished.size(), "from " + fromS + " s");
                int left = made.trueStrokes.size() - stroke - 1;
                assertEquals(left, notes.strokes.size(), 1, "from " + fromS + " s");
                assertEquals(notes.strokes, notes.finished.get(0).strokes());
                List<String> phases = notes.phases;
                assertEquals(1, phases.stream().filter("pump-up"::equals).count(), phases + " from " + fromS + " s");
                assertEquals(1, phases.stream().filter("rest"::equals).count(), phases + " from " + fromS + " s");
            }
        }
    }

    /** Pumped steadily from air into a stiff line: a push and a pause of 0.2 to 1 s each (common practice, no source). */
    @Test
    void smallFirstStrokesThatRunTogetherDoNotSwallowThePumpUp() {
        for (int seed = 0; seed < 20; seed++) {
            MadeTrace made = new MadeTrace(seed);
            made.strokes = 60;
            made.pushS = 0.52;
            made.pauseS = 0.37;
            made.airCm3 = 10;
            made.complianceCm3PerBar = 0.06;
            made.noiseBar = 0.06;
            made.stepBar = 0.122;
            Trace trace = made.make();
            List<Stroke> live = follow(trace).strokes;
            List<Stroke> afterwards = TraceSegmenter.segment(trace).get(0).strokes();
            assertTrue(live.size() <= 60 && afterwards.size() <= 60, "strokes made up, seed " + seed);
            double peakPa = 0;
            for (double[] stroke : made.trueStrokes) {
                peakPa = Math.max(peakPa, trace.pressurePa(trace.indexAt(stroke[1])));
            }
            for (double[] stroke : made.trueStrokes) {
                // The first, which only squeeze the air, raise too little to be told apart.
                if (trace.pressurePa(trace.indexAt(stroke[0])) > 0.03 * peakPa) {
                    String place = "seed " + seed + ", stroke at " + stroke[0] + " s";
                    assertEquals(1, during(stroke, live), "live, " + place);
                    assertEquals(1, during(stroke, afterwards), place);
                }
            }
        }
    }

    /** How many of these strokes have their middle in the true one. */
    private static long during(double[] stroke, List<Stroke> found) {
        return found.stream()
                .mapToDouble(each -> 0.5 * (each.startS() + each.endS()))
                .filter(middleS -> middleS > stroke[0] && middleS < stroke[1])
                .count();
    }

    @Test
    void everySessionOfSeveralTestsIsReportedAsItEnds() {
        MadeTrace made = new MadeTrace(3);
        made.tests = 3;
        Notes notes = follow(made.make());
        assertEquals(3, notes.finished.size());
        assertEquals(
                List.of(1, 2, 3), notes.finished.stream().map(HoldTest::number).toList());
    }

    @Test
    void valuesThatAreNoNumbersAndStampsThatStandStillAreLeftOut() {
        Trace trace = new MadeTrace(4).make();
        PhaseDetector detector = new PhaseDetector();
        for (int i = 0; i < trace.size(); i++) {
            detector.accept(trace.timeS(i), trace.pressurePa(i));
            if (i % 97 == 0) {
                detector.accept(trace.timeS(i), 9e9);
                detector.accept(trace.timeS(i) + 1e-4, Double.NaN);
                detector.accept(Double.NaN, 0);
                detector.accept(trace.timeS(i) - 1, -5e6);
            }
        }
        List<HoldTest> tests = detector.finish();
        assertEquals(1, tests.size());
        assertEquals(14, tests.get(0).strokes().size());
    }

    @Test
    void acceptingASampleAllocatesNothing() {
        Trace trace = new MadeTrace(5).make();
        PhaseDetector detector = new PhaseDetector();
        com.sun.management.ThreadMXBean threads = (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
        long before = threads.getCurrentThreadAllocatedBytes();
        for (int i = 0; i < trace.size(); i++) {
            detector.accept(trace.timeS(i), trace.pressurePa(i));
        }
        long bytes = threads.getCurrentThreadAllocatedBytes() - before;
        // Strokes, phase changes and loading classes cost a little; samples would cost megabytes.
        assertTrue(bytes < 4L * trace.size(), bytes + " bytes for " + trace.size() + " samples");
    }

    @Test
    void whatIsKnownAtASampleDoesNotDependOnWhatComesAfter() {
        Trace trace = new MadeTrace(6).make();
        Notes whole = follow(trace);
        int half = trace.indexAt(12);
        double[] timeS = new double[half];
        double[] pa = new double[half];
        for (int i = 0; i < half; i++) {
            timeS[i] = trace.timeS(i);
            pa[i] = trace.pressurePa(i);
        }
        List<Stroke> early = follow(Trace.of(timeS, pa)).strokes;
        // The last may be one cut off by the end.
        for (int i = 0; i < early.size() - 1; i++) {
            assertEquals(whole.strokes.get(i), early.get(i));
        }
        assertTrue(early.size() > 5);
    }
}
