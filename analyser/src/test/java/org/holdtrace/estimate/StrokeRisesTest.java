package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;

/** Staircases: every second a stroke that takes 0.2 s, from zero, pressure standing still in between. */
class StrokeRisesTest {
    private static final double RATE_HZ = 100;
    private static final double ZERO_BAR = 0.4;

    /** Strokes that raise by {@code riseBar}; {@code spikeAt} is the stroke with a spike of one sample, or −1. */
    private static StrokeRises of(int spikeAt, double... riseBar) {
        return rises(spikeAt, false, riseBar);
    }

    private static StrokeRises rises(int spikeAt, boolean overshoots, double... riseBar) {
        int n = (int) ((riseBar.length + 2) * RATE_HZ);
        double[] timeS = new double[n];
        double[] pa = new double[n];
        List<Stroke> strokes = new ArrayList<>();
        for (int k = 0; k < riseBar.length; k++) {
            strokes.add(new Stroke(1 + k, 1.2 + k));
        }
        for (int i = 0; i < n; i++) {
            timeS[i] = i / RATE_HZ;
            double bar = ZERO_BAR;
            for (int k = 0; k < riseBar.length; k++) {
                bar += riseBar[k] * Math.min(1, Math.max(0, (timeS[i] - 1 - k) / 0.2));
                if (overshoots && timeS[i] > 1.1 + k && timeS[i] < 1.19 + k) {
                    bar += 6;
                }
            }
            pa[i] = 1e5 * bar;
        }
        if (spikeAt >= 0) {
            pa[(int) (RATE_HZ * (1.1 + spikeAt))] += 80e5;
        }
        return StrokeRises.of(Trace.of(timeS, pa), pumpUp(strokes));
    }

    private static HoldTest pumpUp(List<Stroke> strokes) {
        double endS = strokes.isEmpty() ? 1.2 : strokes.get(strokes.size() - 1).endS();
        return new HoldTest(
                1,
                List.of(new PhaseSpan(Phase.PUMP_UP, 1, endS)),
                strokes,
                new HoldTest.RestLevel(ZERO_BAR * 1e5, 100, true),
                OptionalDouble.empty());
    }

    @Test
    void riseLevelAndTopOfEveryStrokeAreMeasuredFromZero() {
        StrokeRises rises = of(-1, 10, 10, 12, 11, 10, 4);
        assertArrayEquals(new double[] {10, 10, 12, 11, 10, 4}, rises.riseBar(), 1e-6);
        assertArrayEquals(new double[] {10, 20, 32, 43, 53, 57}, rises.levelBar(), 1e-6);
        assertArrayEquals(new double[] {10, 20, 32, 43, 53, 57}, rises.topBar(), 0.7);
        // Of the strokes above half the pressure, not the last: 12, 11, 10.
        assertEquals(3, rises.count());
        assertEquals(11, rises.typicalBar(), 1e-6);
    }

    @Test
    void aSpikeIsNotTheTopOfAStroke() {
        assertEquals(20, of(1, 10, 10, 10, 10).topBar()[1], 0.7);
    }

    @Test
    void ofARegularPumpUpFirstAndLastAreNotCounted() {
        assertArrayEquals(
                new boolean[] {true, false, false, false, false, true},
                of(-1, 10, 10, 10, 10, 10, 6).notFull(Double.POSITIVE_INFINITY, 56));
    }

    @Test
    void strokesThatFillADrainedLineAreNotCountedNorTheOneThatFindsItFull() {
        assertArrayEquals(
                new boolean[] {true, true, true, false, false, false, false, true},
                of(-1, 0.2, 0.3, 7, 10, 10, 10, 10, 10).notFull(Double.POSITIVE_INFINITY, 57));
    }

    @Test
    void aHalfStrokeIsNotCounted() {
        boolean[] not = of(-1, 10, 10, 10, 5, 10, 10, 10).notFull(Double.POSITIVE_INFINITY, 65);
        assertArrayEquals(new boolean[] {true, false, false, true, false, false, true}, not);
    }

    @Test
    void strokesNearAReliefAreNotCountedEvenWhereOnlyTheirTopReachesIt() {
        assertArrayEquals(
                new boolean[] {true, false, false, false, false, true, true},
                of(-1, 10, 10, 10, 10, 10, 10, 10).notFull(63, 70));
        StrokeRises overshooting = rises(-1, true, 10, 10, 10, 10, 10, 10, 10);
        assertTrue(overshooting.notFull(63, 70)[5]);
        assertTrue(overshooting.notFull(57, 70)[4]);
        assertFalse(of(-1, 10, 10, 10, 10, 10, 10, 10).notFull(57, 70)[4]);
    }

    @Test
    void strokesThatRaiseNothingAtTheTopWentOverARelief() {
        boolean[] not = of(-1, 10, 10, 10, 10, 10, 0.5, 0.5, 0.5).notFull(Double.POSITIVE_INFINITY, 51.5);
        assertArrayEquals(new boolean[] {true, false, false, false, false, true, true, true}, not);
    }

    @Test
    void fewerThanThreeFullStrokesCalibrateNothing() {
        assertArrayEquals(
                new boolean[] {true, true, true, true}, of(-1, 10, 10, 10, 6).notFull(Double.POSITIVE_INFINITY, 36));
        assertArrayEquals(
                new boolean[] {true, false, false, false, true},
                of(-1, 10, 10, 10, 10, 6).notFull(Double.POSITIVE_INFINITY, 46));
    }

    /**
     * Strokes of 10 bar that take from 0.15 to 0.9 s, with pauses as uneven, into a line that loses its pressure with a
     * time constant of 1 s: dp/dt = rate of pumping − p/1 s, solved in closed form from corner to corner.
     */
    @Test
    void whatLeaksAwayDuringAStrokeIsNoPartOfItsSize() {
        double[] pushS = {0.5, 0.5, 0.15, 0.9, 0.4, 0.2, 0.8, 0.3, 0.9, 0.15, 0.6, 0.5};
        double[] pauseS = {0.4, 0.7, 0.3, 0.9, 0.35, 0.5, 0.4, 0.8, 0.3, 0.6, 0.5, 0.4};
        double full = 10;
        double half = 5;
        List<Double> bar = new ArrayList<>();
        List<Stroke> strokes = new ArrayList<>();
        for (int i = 0; i < RATE_HZ; i++) {
            bar.add(0.0);
        }
        double p = 0;
        for (int k = 0; k < pushS.length; k++) {
            double rate = (k == 7 ? half : full) / pushS[k];
            double startS = bar.size() / RATE_HZ;
            strokes.add(new Stroke(startS, startS + pushS[k]));
            for (int i = 1; i <= Math.round(pushS[k] * RATE_HZ); i++) {
                bar.add(rate + (p - rate) * Math.exp(-i / RATE_HZ));
            }
            p = bar.get(bar.size() - 1);
            for (int i = 1; i <= Math.round(pauseS[k] * RATE_HZ); i++) {
                bar.add(p * Math.exp(-i / RATE_HZ));
            }
            p = bar.get(bar.size() - 1);
        }
        double[] timeS = new double[bar.size()];
        double[] pa = new double[bar.size()];
        for (int i = 0; i < pa.length; i++) {
            timeS[i] = i / RATE_HZ;
            pa[i] = 1e5 * (ZERO_BAR + bar.get(i));
        }
        StrokeRises rises = StrokeRises.of(Trace.of(timeS, pa), pumpUp(strokes));
        for (int k = 0; k + 1 < pushS.length; k++) {
            assertEquals(k == 7 ? half : full, rises.riseBar()[k], 0.04 * full, "stroke " + k);
        }
        assertEquals(full, rises.typicalBar(), 0.02 * full);
        boolean[] not = rises.notFull(Double.POSITIVE_INFINITY, 12);
        for (int k = 1; k + 1 < not.length; k++) {
            assertEquals(k == 7, not[k], "stroke " + k);
        }
    }

    @Test
    void withoutStrokesThereIsNothingToMeasure() {
        StrokeRises none = of(-1);
        assertEquals(0, none.count());
        assertEquals(0, none.notFull(Double.POSITIVE_INFINITY, 10).length);
    }
}
