package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.distribution.NormalDistribution;
import org.holdtrace.fit.Sample;
import org.junit.jupiter.api.Test;

class ConclusionTest {
    @Test
    void aLawThatPassesNothingExcludesNoLeakWhichTheNoiseHides() {
        double[] draws = new double[4000];
        Conclusion.notBelowNoise(draws, 0.024);
        double deviation = 0.024 / (1.96 + 1.645);
        // The 97.5 % point of the size of a normal about zero, by another library.
        double expected = deviation * new NormalDistribution().inverseCumulativeProbability(0.9875);
        assertEquals(expected, Sample.quantile(draws, 0.975), 1e-3 * expected);
    }

    @Test
    void drawsThatSayMoreThanTheNoiseStayAsTheyAre() {
        double[] draws = {1, 2, 3, 4, 5};
        Conclusion.notBelowNoise(draws, 0.024);
        assertArrayEquals(new double[] {1, 2, 3, 4, 5}, draws);
    }
}
