package org.holdtrace.chart;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;

class MinMaxTest {
    private static Trace ramp(int samples) {
        double[] t = new double[samples];
        double[] p = new double[samples];
        for (int i = 0; i < samples; i++) {
            t[i] = i * 0.004;
            p[i] = i;
        }
        return Trace.of(t, p);
    }

    @Property
    void aSpikeOfOneSampleIsNeverLostAndTimeNeverRunsBack(
            @ForAll @IntRange(min = 2, max = 5000) int samples,
            @ForAll @IntRange(min = 1, max = 300) int columns,
            @ForAll @IntRange(min = 0, max = 4999) int where) {
        double[] t = new double[samples];
        double[] p = new double[samples];
        for (int i = 0; i < samples; i++) {
            t[i] = i * 0.004;
            p[i] = Math.sin(i);
        }
        p[where % samples] = 100;
        MinMax thinned = MinMax.of(Trace.of(t, p), 0, samples, columns);
        boolean spike = false;
        for (int i = 0; i < thinned.size(); i++) {
            spike |= thinned.pressurePa(i) == 100;
            assertTrue(i == 0 || thinned.timeS(i) >= thinned.timeS(i - 1));
        }
        assertTrue(spike);
        assertTrue(thinned.size() <= 2 * columns);
    }

    @Test
    void aShortTraceIsKeptAsItIs() {
        MinMax thinned = MinMax.of(ramp(10), 2, 9, 100);
        assertEquals(7, thinned.size());
        assertEquals(2, thinned.pressurePa(0));
        assertEquals(8, thinned.pressurePa(6));
    }

    @Test
    void samplesOfOneAndTheSameTimeAreThinnedToo() {
        MinMax thinned = MinMax.of(Trace.of(new double[1000], new double[1000]), 0, 1000, 10);
        assertTrue(thinned.size() <= 20);
    }
}
