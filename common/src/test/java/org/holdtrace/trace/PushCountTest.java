package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Pushes counted while they come: traces made here, of which the truth is known. */
class PushCountTest {
    /** Pauses among fewer strokes do not show what a pause is like, so so many may be counted twice. */
    private static final int FIRST = 4;

    private static final class Counted implements PhaseDetector.Listener {
        private final PushCount pushes = new PushCount();
        private final PhaseDetector detector = new PhaseDetector(this);
        private final List<PushCount.Push> told = new ArrayList<>();

        Counted(Trace trace) {
            for (int i = 0; i < trace.size(); i++) {
                pushes.accept(trace.timeS(i), trace.pressurePa(i));
                detector.accept(trace.timeS(i), trace.pressurePa(i));
            }
        }

        @Override
        public void strokeEnded(Stroke stroke, double startPa, double endPa) {
            told.add(pushes.ended(stroke, startPa, endPa, detector.zeroPa(), detector.noisePa()));
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = MadeTrace.Push.class,
            names = {"LEANING_IN", "JERKS"})
    void aPushThatSlowsDownIsCountedOnceAsSoonAsPausesAreKnown(MadeTrace.Push push) {
        int twice = 0;
        for (double leak : new double[] {0, 0.0003, 0.001}) {
            for (long seed = 1; seed <= 4; seed++) {
                MadeTrace made = MadeTrace.pumped(seed, push, leak);
                Counted counted = new Counted(made.make());
                int count = counted.pushes.count();
                assertTrue(
                        count >= made.strokes && count <= made.strokes + FIRST,
                        count + " for " + made.strokes + ", seed " + seed + ", leak " + leak);
                twice += counted.told.size() - made.strokes;
            }
        }
        assertTrue(twice > 12, "the detector itself tells of more: else nothing was tried");
    }

    @Test
    void thePartsOfAPushAreToldAsOneThatGoesOn() {
        MadeTrace made = MadeTrace.pumped(2, MadeTrace.Push.LEANING_IN, 0.0003);
        Counted counted = new Counted(made.make());
        List<PushCount.Push> late =
                counted.told.subList(3 * FIRST, counted.told.size()); // where all is known of the first ones
        int whole = 0;
        for (int i = 1; i < late.size(); i++) {
            PushCount.Push before = late.get(i - 1);
            PushCount.Push now = late.get(i);
            assertEquals(now.goesOn(), now.stroke().startS() == before.stroke().startS());
            if (now.goesOn()) {
                assertTrue(now.stroke().endS() > before.stroke().endS());
                assertTrue(now.risePa() > before.risePa());
                whole++;
            }
        }
        assertTrue(whole > 5, whole + " pushes went on");
    }

    @ParameterizedTest
    @EnumSource(
            value = MadeTrace.Push.class,
            names = {"HALF_SINE", "EVEN", "GENTLE", "TWO_SPEEDS"})
    void pushesWithPausesBetweenThemAreAllCounted(MadeTrace.Push push) {
        for (double leak : new double[] {0, 0.0003, 0.001}) {
            MadeTrace made = MadeTrace.pumped(5, push, leak);
            assertEquals(made.strokes, new Counted(made.make()).pushes.count(), "leak " + leak);
        }
    }

    @Test
    void strokesInAQuickRowBetweenLongRestsAreNotRunTogether() {
        for (double leak : new double[] {0, 0.001}) {
            MadeTrace made = MadeTrace.pumped(6, MadeTrace.Push.HALF_SINE, leak);
            made.pushS = 0.35;
            made.pauseS = 0.2;
            made.longPauseAfter = 11;
            assertEquals(made.strokes, new Counted(made.make()).pushes.count(), "leak " + leak);
        }
    }

    @Test
    void anotherRecordingAndWildSamplesAreNoTrouble() {
        PushCount pushes = new PushCount();
        for (int i = 0; i < 10_000; i++) {
            pushes.accept(100 + i / 200.0, i % 50 == 7 ? Double.NaN : 1e5);
        }
        pushes.accept(3, 1e5);
        pushes.accept(3, 2e5);
        PushCount.Push push = pushes.ended(new Stroke(3, 3.5), 1e5, 2e5, 0, 100);
        assertEquals(new PushCount.Push(new Stroke(3, 3.5), 1e5, 2e5, false), push);
        assertEquals(1, pushes.count());
        pushes.begin();
        assertEquals(0, pushes.count());
    }
}
