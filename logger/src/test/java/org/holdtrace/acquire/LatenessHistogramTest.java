package org.holdtrace.acquire;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class LatenessHistogramTest {
    @Test
    void quantilesAreThoseOfTheSortedListToSixPercent() {
        SplittableRandom random = new SplittableRandom(7);
        long[] late = new long[20_000];
        LatenessHistogram histogram = new LatenessHistogram();
        for (int i = 0; i < late.length; i++) {
            late[i] = (long) Math.exp(20 * random.nextDouble());
            histogram.record(late[i]);
        }
        Arrays.sort(late);
        for (double share : new double[] {0.001, 0.01, 0.5, 0.9, 0.99, 0.999, 1}) {
            long exact = late[(int) Math.ceil(share * late.length) - 1];
            long found = histogram.quantileNs(share);
            assertTrue(found >= exact && found <= exact * 1.0626, share + ": " + found + " for " + exact);
        }
        assertEquals(late[late.length - 1], histogram.maxNs());
    }

    @Test
    void smallValuesAreExactAndAbsurdOnesAreKeptApart() {
        LatenessHistogram histogram = new LatenessHistogram();
        histogram.record(-5);
        histogram.record(3);
        assertEquals(0, histogram.quantileNs(0.5));
        assertEquals(3, histogram.quantileNs(1));
        histogram.record(Long.MAX_VALUE);
        assertEquals(Long.MAX_VALUE, histogram.maxNs());
        assertEquals(3, histogram.samples());
        histogram.miss(4);
        assertEquals(4, histogram.missed());
        histogram.clear();
        assertEquals(0, histogram.quantileNs(0.99));
        assertEquals(0, histogram.samples() + histogram.missed() + histogram.maxNs());
        assertThrows(IllegalArgumentException.class, () -> histogram.quantileNs(Double.NaN));
    }
}
