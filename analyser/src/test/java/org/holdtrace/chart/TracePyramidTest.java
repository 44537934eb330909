package org.holdtrace.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;

class TracePyramidTest {
    @Test
    void anyStretchHasTheExtremesThatLookingAtEverySampleFinds() {
        Random random = new Random(4);
        for (int size : new int[] {1, 31, 32, 33, 257, 5000, 20_011}) {
            Trace trace = noise(size, random);
            TracePyramid pyramid = new TracePyramid(trace);
            for (int k = 0; k < 300; k++) {
                int from = random.nextInt(size);
                int to = from + 1 + random.nextInt(size - from);
                TracePyramid.Extremes found = pyramid.extremes(from, to);
                double low = Double.POSITIVE_INFINITY;
                double high = Double.NEGATIVE_INFINITY;
                for (int i = from; i < to; i++) {
                    low = Math.min(low, trace.pressurePa(i));
                    high = Math.max(high, trace.pressurePa(i));
                }
                assertEquals(low, trace.pressurePa(found.low()));
                assertEquals(high, trace.pressurePa(found.high()));
                assertTrue(found.low() >= from && found.low() < to && found.high() >= from && found.high() < to);
            }
        }
    }

    @Test
    void workForAPictureDoesNotGrowWithTheSamples() {
        long small = looks(100_000);
        long large = looks(10_000_000);
        // A hundred times the samples may add a few levels of at most 2 · 8 blocks at either end of each column.
        assertTrue(large < 3 * small, large + " looks against " + small);
        assertTrue(large < 1200 * 400, large + " looks for 1200 columns");
    }

    private static long looks(int samples) {
        TracePyramid pyramid = new TracePyramid(noise(samples, new Random(1)));
        int columns = 1200;
        long looks = 0;
        for (int column = 0; column < columns; column++) {
            int from = (int) ((long) column * samples / columns);
            int to = (int) ((column + 1L) * samples / columns);
            looks += pyramid.extremes(from, to).looks();
        }
        return looks;
    }

    private static Trace noise(int size, Random random) {
        double[] timeS = new double[size];
        double[] pressurePa = new double[size];
        for (int i = 0; i < size; i++) {
            timeS[i] = i / 250.0;
            pressurePa[i] = random.nextGaussian();
        }
        return Trace.of(timeS, pressurePa);
    }
}
