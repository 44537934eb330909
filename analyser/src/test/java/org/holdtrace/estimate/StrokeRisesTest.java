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
        HoldTest test = new HoldTest(
                1,
                List.of(new PhaseSpan(Phase.PUMP_UP, 1, riseBar.length + 1.2)),
                strokes,
                new HoldTest.RestLevel(ZERO_BAR * 1e5, 100, true),
                OptionalDouble.empty());
        return StrokeRises.of(Trace.of(timeS, pa), test);
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

    @Test
    void withoutStrokesThereIsNothingToMeasure() {
        StrokeRises none = of(-1);
        assertEquals(0, none.count());
        assertEquals(0, none.notFull(Double.POSITIVE_INFINITY, 10).length);
    }
}
