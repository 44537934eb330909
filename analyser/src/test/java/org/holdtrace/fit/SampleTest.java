package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/**
 * Worked examples of JCGM 101:2008 (GUM Supplement 1). Tolerances of sampled values are some four standard deviations
 * at 400 000 trials, or the printed digit where that is coarser.
 */
class SampleTest {
    private static final int TRIALS = 400_000;
    private static final Measurand SUM = x -> DoubleStream.of(x).sum();
    private final SplittableRandom random = new SplittableRandom(20_240_501);

    /** An input quantity. */
    private interface Input {
        double draw();
    }

    private Input normal(double mean, double deviation) {
        return () -> mean + deviation * random.nextGaussian();
    }

    private Input rectangular(double from, double to) {
        return () -> from + (to - from) * random.nextDouble();
    }

    private static double[] sample(Measurand measurand, Input... inputs) {
        double[] x = new double[inputs.length];
        double[] y = new double[TRIALS];
        for (int k = 0; k < TRIALS; k++) {
            for (int i = 0; i < x.length; i++) {
                x[i] = inputs[i].draw();
            }
            y[k] = measurand.value(x);
        }
        return y;
    }

    private static void assertInterval(double lower, double upper, double[] sample, double tolerance) {
        double[] s = Sample.summary(sample);
        assertEquals(lower, s[1], tolerance);
        assertEquals(upper, s[3], tolerance);
    }

    /** GU-09: 9.2.2, Table 2, as a public calculator's test suite has it: four standard normal inputs. */
    @Test
    void theSumOfFourNormalInputs() {
        double[] y = sample(SUM, normal(0, 1), normal(0, 1), normal(0, 1), normal(0, 1));
        assertEquals(2.00, Sample.deviation(y), 0.01);
        assertInterval(-3.92, 3.92, y, 0.035);
    }

    /** GU-10: 9.2.3, Table 3: ±3.88 by Monte Carlo there; exact 3.87941 (from the distribution of a sum of four). */
    @Test
    void theSumOfFourRectangularInputs() {
        Input r = rectangular(-Math.sqrt(3), Math.sqrt(3));
        double[] y = sample(SUM, r, r, r, r);
        assertEquals(2.00, Sample.deviation(y), 0.01);
        assertInterval(-3.87941, 3.87941, y, 0.03);
    }

    /** GU-11: 9.2.4, Table 4 (from memory, recomputed): one of the four is ten times as wide. */
    @Test
    void theSumOfFourRectangularInputsOneOfThemTenTimesAsWide() {
        Input r = rectangular(-Math.sqrt(3), Math.sqrt(3));
        double[] y = sample(SUM, r, r, r, rectangular(-10 * Math.sqrt(3), 10 * Math.sqrt(3)));
        assertEquals(10.149, Sample.deviation(y), 0.03);
        assertInterval(-17.01, 17.01, y, 0.06);
    }

    /** GU-12: 9.3, mass calibration (from memory; recomputed with 4 million trials): by Monte Carlo 0.0754 mg. */
    @Test
    void theMassCalibrationWhoseFirstOrderMisleads() {
        Measurand mass = x -> (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100_000;
        double[] y = sample(
                mass,
                normal(100_000, 0.050),
                normal(1.234, 0.020),
                rectangular(1.10, 1.30),
                rectangular(7000, 9000),
                rectangular(7950, 8050));
        assertEquals(1.2341, Sample.mean(y), 6e-4);
        assertEquals(0.0754, Sample.deviation(y), 5e-4);
    }

    /** GU-13: ln x, x rectangular on [0.1, 1.1]: NPL report DEM-ES-011, Table 9.2; quantiles in closed form. */
    @Test
    void theLogarithmOfARectangularInput() {
        double[] y = sample(x -> Math.log(x[0]), rectangular(0.1, 1.1));
        assertEquals(-0.664900, Sample.mean(y), 0.004);
        assertEquals(0.606227, Sample.deviation(y), 0.004);
        assertInterval(Math.log(0.125), Math.log(1.075), y, 0.012);
    }

    /** GU-03: GUM H.1.7 (from memory; 33.9 recomputed): what is not linear in the end gauge raises 32 nm to 34 nm. */
    @Test
    void theEndGaugeIsMoreUncertainThanToFirstOrder() {
        double third = 1 / Math.sqrt(3);
        double[] y = sample(
                x -> x[0] + x[1] - x[0] * (x[4] * x[3] + x[2] * x[5]),
                normal(50_000_623, 25),
                normal(215, 9.7),
                normal(11.5e-6, 1.2e-6),
                normal(-0.1, 0.41),
                normal(0, 1e-6 * third),
                normal(0, 0.05 * third));
        assertEquals(33.9, Sample.deviation(y), 0.2);
    }

    /** GU-15: JCGM 106:2012 (formula from memory): Φ((T − y)/u) is the probability of conforming to an upper limit T. */
    @Test
    void theProbabilityOfConformingIsTheNormalOneBelowTheLimit() {
        double[] sorted = new double[TRIALS];
        Arrays.setAll(sorted, i -> 0.90 + 0.05 * Normal.quantile((i + 0.5) / TRIALS));
        assertEquals(1 - 0.977250, Sample.probabilityOver(sorted, 1.00), 5e-6);
        assertEquals(1 - 0.158655, Sample.probabilityOver(sorted, 0.85), 5e-6);
    }

    /** By hand: of the values 1 to 101 the middle is 51, a quarter lies below 26, and 31 of them exceed 70. */
    @Test
    void figuresOfAHundredAndOneKnownOutcomesAreCountedByHand() {
        double[] outcomes = new double[101];
        Arrays.setAll(outcomes, i -> 101 - i);
        assertArrayEquals(new double[] {51, 3.5, 51, 98.5}, Sample.summary(outcomes), 1e-12);
        assertEquals(101, outcomes[0]);
        Arrays.sort(outcomes);
        assertEquals(26, Sample.quantile(outcomes, 0.25));
        assertEquals(101, Sample.quantile(outcomes, 1));
        assertEquals(31 / 101.0, Sample.probabilityOver(outcomes, 70.5), 1e-12);
        assertEquals(0, Sample.probabilityOver(outcomes, 200));
        assertEquals(1, Sample.probabilityOver(outcomes, 0));
        // Variance of 1 … n, divided by n: (n² − 1)/12.
        assertEquals(Math.sqrt((101 * 101 - 1) / 12.0), Sample.deviation(outcomes), 1e-12);
    }
}
