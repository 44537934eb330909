package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;

/** What a pump and the valve behind it do beside delivering strokes, against figures worked out by hand (derived). */
class PumpEffectsTest {
    private static final double BAR = 1e5;
    private static final double ML = 1e-6;

    private static Rig with(double deadM3, ShutOff shutOff) {
        return RigExamples.plain(LeakLaw.none())
                .withPump(new HandPump(0.45 * ML, 0, 0, Double.POSITIVE_INFINITY, deadM3, shutOff));
    }

    private static SimulatedRun run(Rig rig) {
        return RigSimulator.simulate(rig, new SplittableRandom(1));
    }

    private static double holdFromS(SimulatedRun run) {
        return run.truth().tests().get(0).phase(Phase.HOLD).orElseThrow().fromS();
    }

    /** Recorded pressure some time after the last push, less what it was at its end, Pa. */
    private static double sinceLastPush(SimulatedRun run, double s) {
        List<Truth.Stroke> strokes = run.truth().tests().get(0).strokes();
        Trace trace = run.trace();
        return trace.pressurePa(trace.indexAt(holdFromS(run) + s))
                - strokes.get(strokes.size() - 1).endPa();
    }

    @Test
    void deadVolumeAndStrokeAreCompressedBeforeOilIsDelivered() {
        SimulatedRun run = run(with(0.9 * ML, ShutOff.none()));
        List<Truth.Stroke> full = run.truth().tests().get(0).strokes().stream()
                .filter(stroke -> !stroke.cutShort())
                .toList();
        for (Truth.Stroke stroke : full) {
            // v - (V_d + v) p/K at line pressure, K = 1.5 GPa + 5.6 p.
            double x = stroke.endPa() / (1.5e9 + 5.6 * stroke.endPa());
            assertEquals(0.45 * ML - 1.35 * ML * x, stroke.volumeM3() * (1 - x), 3e-12);
        }
        // At 100 bar K = 1.556 GPa: 0.450000 - 1.35 x 0.00642674 = 0.441324 ml there, 0.444179 ml at atmospheric
        // pressure.
        for (int i = 1; i < full.size(); i++) {
            Truth.Stroke below = full.get(i - 1);
            Truth.Stroke above = full.get(i);
            if (below.endPa() < 100 * BAR && above.endPa() >= 100 * BAR) {
                double share = (100 * BAR - below.endPa()) / (above.endPa() - below.endPa());
                double volume = below.volumeM3() + share * (above.volumeM3() - below.volumeM3());
                assertEquals(0.444179 * ML, volume, 3e-12);
                assertFalse(run.truth().tests().get(0).pumpReliefOpened());
                return;
            }
        }
        throw new AssertionError("no stroke passed 100 bar");
    }

    @Test
    void aPushMovesNothingUntilItsChamberIsAtLinePressure() {
        Rig plain = with(0.9 * ML, ShutOff.none());
        Hand steady = new Hand(
                0.4, 0.4, 0, 0, List.of(StrokeShape.STEADY), plain.hand().irregularities(), 0.1, false);
        Rig rig = new Rig(
                plain.fill(),
                plain.walls(),
                plain.heat(),
                plain.pump(),
                steady,
                plain.leaks(),
                plain.sensor(),
                plain.tests());
        LiveRig live = new LiveRig(rig, new SplittableRandom(1));
        while (live.pressurePa() < 100 * BAR) {
            live.stroke();
            live.advance(0.5);
        }
        double p = live.pressurePa();
        double before = live.plant().pumpedM3();
        // A chamber of 1.35 ml gives way by 1.35 p/K; the plunger takes 0.4 s for 0.45 ml. At 100 bar that is 7.7 ms.
        double silentS = 1.35 * p / (1.5e9 + 5.6 * p) / 0.45 * 0.4;
        assertTrue(silentS > 0.0076 && silentS < 0.0088, "silent for " + silentS);
        live.stroke();
        live.advance(silentS - 2e-4);
        assertEquals(before, live.plant().pumpedM3());
        live.advance(2e-3);
        assertTrue(live.plant().pumpedM3() > before);
    }

    @Test
    void oilFlowsBackUntilTheValveIsShut() {
        // C at 120 bar by hand: K_sec = 1.5672 GPa, K = K_sec^2/1.5 GPa (1 - p/K_sec) = 1.62487 GPa; 500.6 ml/K and
        // 5e-14
        // of the walls are 3.581e-13 m3/Pa. 3 ml/min at 120 bar, falling to nothing in 2 s, takes the share
        // 1 - exp(-(5e-8 m3/s / 120 bar) (2 s / 2) / C) = 1.157 % of the pressure, three quarters of the exponent in 1
        // s.
        SimulatedRun run = run(with(0, new ShutOff(2, 3 * ML / 60, 0)));
        Truth.Test test = run.truth().tests().get(0);
        double end = test.strokes().get(test.strokes().size() - 1).endPa();
        assertEquals(-0.01157 * end, sinceLastPush(run, 2.05), 2e-4 * end);
        assertEquals(-0.00869 * end, sinceLastPush(run, 1), 2e-4 * end);
        assertEquals(sinceLastPush(run, 2.05), sinceLastPush(run, 55), 1); // then it is tight
        assertEquals(0, test.leakedInHoldM3());
        double pumped =
                test.strokes().stream().mapToDouble(Truth.Stroke::volumeM3).sum();
        // About 0.05 ml at line pressure is missing from what is caught.
        assertEquals(0.05 * ML, pumped - test.bledVolumeM3(), 0.003 * ML);
    }

    @Test
    void aStemThatGoesInRaisesPressure() {
        // 0.005 ml / 3.581e-13 m3/Pa = 0.1396 bar at 120 bar, half of it half way.
        SimulatedRun run = run(with(0, new ShutOff(1, 0, 0.005 * ML)));
        assertEquals(0.1396 * BAR, sinceLastPush(run, 1.05), 0.002 * BAR);
        assertEquals(0.0698 * BAR, sinceLastPush(run, 0.5), 0.002 * BAR);
        assertEquals(sinceLastPush(run, 1.05), sinceLastPush(run, 55), 1);
    }

    @Test
    void theNextTestIsPumpedWithTheValveOpenAndTheCheckValveTight() {
        Rig rig = with(0, new ShutOff(50, 30 * ML / 60, 0));
        TestPlan first = new TestPlan(1, 0, 60 * BAR, 8, 200, 4, 3, 1e-7, false);
        TestPlan second = new TestPlan(1, 0, 60 * BAR, 8, 200, 4, 3, 1e-7, false);
        SimulatedRun run = run(rig.withTests(List.of(first, second)));
        List<Truth.Test> tests = run.truth().tests();
        assertEquals(tests.get(0).strokes().size(), tests.get(1).strokes().size());
        assertEquals(
                tests.get(0).strokes().get(3).endPa(),
                tests.get(1).strokes().get(3).endPa(),
                0.01 * BAR);
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> new ShutOff(0, 1e-8, 0));
        assertThrows(IllegalArgumentException.class, () -> new ShutOff(0, 0, 1e-9));
        assertThrows(IllegalArgumentException.class, () -> new ShutOff(-1, 0, 0));
        assertThrows(IllegalArgumentException.class, () -> with(-1e-9, ShutOff.none()));
        assertThrows(IllegalArgumentException.class, () -> with(10 * ML, ShutOff.none()));
    }
}
