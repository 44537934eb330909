package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class WeightedMeanTest {
    /** GU-17: R. T. Birge, Phys. Rev. 40 (1932) 207 (formula from memory; numbers recomputed by hand). */
    @Test
    void theBirgeRatioTellsThatEstimatesScatterMoreThanStated() {
        WeightedMean mean =
                WeightedMean.of(new double[] {10.1, 10.3, 9.8, 10.6}, new double[] {0.10, 0.10, 0.15, 0.20});
        assertEquals(10.171134, mean.mean(), 5e-7);
        assertEquals(0.060921, mean.standardUncertainty(), 5e-7);
        assertEquals(12.886598, mean.chiSquare(), 5e-7);
        assertEquals(2.072567, mean.birgeRatio(), 5e-7);
        assertEquals(0.126262, mean.widenedStandardUncertainty(), 5e-7);
        assertEquals(3, mean.degreesOfFreedom());
        // Chi-square tables: 11.345 is exceeded with probability 0.01, 16.266 with 0.001 (common tables)
        assertTrue(mean.probability() < 0.01 && mean.probability() > 0.001);
    }

    /**
     * GU-18: Peelle's puzzle (R. W. Peelle 1987, from memory): 1.5 and 1.0, each with 10 % of its own and 20 % in common, have
     * the mean 0.88 ± 0.22, outside both.
     */
    @Test
    void aMeanOutsideItsEstimatesIsFlagged() {
        double own = 0.1;
        double common = 0.2;
        double[] covariance = {
            1.5 * 1.5 * (own * own + common * common),
            1.5 * common * common,
            1.5 * common * common,
            own * own + common * common
        };
        WeightedMean mean = WeightedMean.ofCorrelated(new double[] {1.5, 1.0}, covariance);
        assertEquals(0.88, mean.mean(), 0.005);
        assertEquals(0.22, mean.standardUncertainty(), 0.005);
        assertTrue(mean.hasNegativeWeight());
    }

    /** By hand: what two estimates share does not shrink by averaging, √(u²/2 + s²). */
    @Test
    void aSharedErrorIsNotAveragedAway() {
        double[] covariance = {0.04 + 0.09, 0.09, 0.09, 0.04 + 0.09};
        WeightedMean mean = WeightedMean.ofCorrelated(new double[] {3, 3.2}, covariance);
        assertEquals(3.1, mean.mean(), 1e-12);
        assertEquals(Math.sqrt(0.02 + 0.09), mean.standardUncertainty(), 1e-12);
        assertEquals(0.2 * 0.2 / 0.08, mean.chiSquare(), 1e-12);
        assertFalse(mean.hasNegativeWeight());
        assertEquals(0.5, mean.weight(0), 1e-12);
    }

    @Test
    void aSingleEstimateIsItsOwnMean() {
        WeightedMean mean = WeightedMean.of(new double[] {7}, new double[] {2});
        assertEquals(7, mean.mean());
        assertEquals(2, mean.standardUncertainty(), 1e-12);
        assertEquals(1, mean.probability());
        assertEquals(2, mean.widenedStandardUncertainty(), 1e-12);
    }

    @Test
    void nonsenseIsRefused() {
        double[] x = {1, 2};
        assertThrows(IllegalArgumentException.class, () -> WeightedMean.of(x, new double[] {1, 0}));
        assertThrows(IllegalArgumentException.class, () -> WeightedMean.of(x, new double[] {1, Double.NaN}));
        assertThrows(IllegalArgumentException.class, () -> WeightedMean.of(new double[0], new double[0]));
        assertThrows(IllegalArgumentException.class, () -> WeightedMean.ofCorrelated(x, new double[] {1, 1, 1, 1}));
        assertThrows(
                IllegalArgumentException.class,
                () -> WeightedMean.of(new double[] {1, Double.NaN}, new double[] {1, 1}));
    }
}
