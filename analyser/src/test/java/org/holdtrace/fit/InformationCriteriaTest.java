package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class InformationCriteriaTest {
    /**
     * IC-01 to IC-04: Hald's cement data, n = 13: residual sums of squares from course notes after Draper and Smith 1998 (the larger
     * models recomputed). K. P. Burnham and D. R. Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002,
     * section 3.2 (from memory) print AICc 32.41 and weights 0.567, 0.119, 0.116, 0.107, 0.081 after rounding the
     * variance, hence tolerances of 0.02 and 0.003 against the book and closer ones against the recomputed values.
     */
    @Test
    void haldsCementModelsGetTheWeightsOfTheBook() {
        double[] rss = {57.90448, 47.97273, 48.11061, 74.76211, 50.83612, 73.81455, 47.86364};
        int[] k = {4, 5, 5, 4, 5, 5, 6};
        double[] recomputed = {32.4200, 35.5453, 35.5826, 35.7417, 36.2990, 41.1473, 42.9443};
        double[] book = {0.567, 0.119, 0.116, 0.107, 0.081, 0.007, 0.003};
        double[] aicc = new double[rss.length];
        for (int i = 0; i < rss.length; i++) {
            aicc[i] = InformationCriteria.aicc(13, rss[i], k[i]);
            assertEquals(recomputed[i], aicc[i], 1e-4, "AICc of model " + i);
        }
        assertEquals(32.41, aicc[0], 0.02);
        assertArrayEquals(book, InformationCriteria.weights(aicc), 0.003);
        assertEquals(29.6798, InformationCriteria.bic(13, rss[0], 4), 1e-4);
        assertEquals(29.7986, InformationCriteria.bic(13, rss[1], 5), 1e-4);
        assertEquals(29.8359, InformationCriteria.bic(13, rss[2], 5), 1e-4);
        assertEquals(30.5523, InformationCriteria.bic(13, rss[4], 5), 1e-4);
    }

    /** IC-05: NIST's Lanczos3 is made of three exponentials; the criteria were computed with 40 digits from NIST's data. */
    @Test
    void threeExponentialsAreFoundInLanczos3() {
        NistDataSet set = NistDataSet.fromResources("Lanczos3");
        double[] rss = {1.6934190905e-2, 4.3465532784e-6, 1.6117193594e-8};
        double[] aicc = {-166.9554, -359.2470, -485.9144};
        double[] bic = {-164.6212, -356.6901, -484.6680};
        double[][] starts = {{2.5, 4}, {1, 2, 1.5, 5}, set.starts.get(1)};
        for (int terms = 1; terms <= 3; terms++) {
            NistDataSet.Curve curve = (x, b) -> {
                double sum = 0;
                for (int t = 0; t < b.length; t += 2) {
                    sum += b[t] * Math.exp(-b[t + 1] * x);
                }
                return sum;
            };
            double chiSquare = chiSquare(set, curve, starts[terms - 1]);
            assertEquals(rss[terms - 1], chiSquare, 1e-6 * rss[terms - 1]);
            assertEquals(aicc[terms - 1], InformationCriteria.aicc(24, chiSquare, 2 * terms + 1), 1e-4);
            assertEquals(bic[terms - 1], InformationCriteria.bic(24, chiSquare, 2 * terms + 1), 1e-4);
        }
    }

    /** IC-06: the same for MGH17, an offset and two exponentials. */
    @Test
    void twoExponentialsAreFoundInMgh17() {
        NistDataSet set = NistDataSet.fromLibrary("MGH17");
        double one = chiSquare(set, (x, b) -> b[0] + b[1] * Math.exp(-x * b[2]), new double[] {0.4, 0.6, 0.01});
        double two = chiSquare(
                set, (x, b) -> b[0] + b[1] * Math.exp(-x * b[3]) + b[2] * Math.exp(-x * b[4]), set.starts.get(1));
        assertEquals(5.0572045415e-2, one, 1e-6 * one);
        assertEquals(-204.4399, InformationCriteria.aicc(33, one, 4), 1e-4);
        assertEquals(-199.8825, InformationCriteria.bic(33, one, 4), 1e-4);
        assertEquals(-424.0351, InformationCriteria.aicc(33, two, 6), 1e-4);
        assertEquals(-418.2869, InformationCriteria.bic(33, two, 6), 1e-4);
    }

    private static double chiSquare(NistDataSet set, NistDataSet.Curve curve, double[] start) {
        GaussNewton search = new GaussNewton(set.problem(curve), start.clone());
        search.minimise(5000, 0, 1);
        return 2 * search.cost();
    }

    @Test
    void weightsSurviveCriteriaOfAnySize() {
        assertArrayEquals(
                new double[] {1, 0, 0}, InformationCriteria.weights(-1e6, 1e6, Double.POSITIVE_INFINITY), 1e-300);
        assertArrayEquals(new double[] {0.5, 0.5}, InformationCriteria.weights(1e9, 1e9), 1e-15);
        assertThrows(IllegalArgumentException.class, () -> InformationCriteria.weights(Double.POSITIVE_INFINITY));
        assertThrows(IllegalArgumentException.class, () -> InformationCriteria.weights(1, Double.NaN));
        assertThrows(IllegalArgumentException.class, InformationCriteria::weights);
    }

    @Test
    void tooFewDataForAModelCannotWin() {
        assertEquals(Double.POSITIVE_INFINITY, InformationCriteria.aicc(5, 1e-12, 4));
        assertThrows(IllegalArgumentException.class, () -> InformationCriteria.aicc(5, 0, 2));
        assertThrows(IllegalArgumentException.class, () -> InformationCriteria.aicc(5, Double.NaN, 2));
        // AIC from RSS by hand: n ln(RSS/n) + 2K with n = 10, RSS = 10 e
        assertEquals(10 + 6, InformationCriteria.aic(10, 10 * Math.E, 3), 1e-12);
    }
}
