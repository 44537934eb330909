package org.holdtrace.fit;

import static org.holdtrace.fit.InputDistribution.normal;
import static org.holdtrace.fit.InputDistribution.rectangular;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/**
 * Worked examples of JCGM 101:2008 (GUM Supplement 1). Tolerances of sampled values are some four standard deviations
 * at 400 000 trials, or the printed digit where that is coarser.
 */
class MonteCarloTest {
    private static final int TRIALS = 400_000;
    private static final long SEED = 20_240_501;
    private static final Measurand SUM = x -> DoubleStream.of(x).sum();

    /** GU-09: 9.2.2, Table 2, as a public calculator's test suite has it: four standard normal inputs. */
    @Test
    void theSumOfFourNormalInputs() {
        InputDistribution n = normal(0, 1);
        MonteCarlo y = MonteCarlo.run(SUM, List.of(n, n, n, n), TRIALS, SEED);
        assertEquals(2.00, y.standardUncertainty(), 0.01);
        assertInterval(-3.92, 3.92, y.symmetricInterval(0.95), 0.035);
        assertInterval(-3.92, 3.92, y.shortestInterval(0.95), 0.12);
    }

    /** GU-10: 9.2.3, Table 3: ±3.88 by Monte Carlo there; exact 3.87941 (from the distribution of a sum of four). */
    @Test
    void theSumOfFourRectangularInputs() {
        InputDistribution r = rectangular(-Math.sqrt(3), Math.sqrt(3));
        MonteCarlo y = MonteCarlo.run(SUM, List.of(r, r, r, r), TRIALS, SEED);
        assertEquals(2.00, y.standardUncertainty(), 0.01);
        assertInterval(-3.87941, 3.87941, y.symmetricInterval(0.95), 0.03);
    }

    /** GU-11: 9.2.4, Table 4 (from memory, recomputed): one of the four is ten times as wide; GUM gives ±19.9. */
    @Test
    void theSumOfFourRectangularInputsOneOfThemTenTimesAsWide() {
        InputDistribution r = rectangular(-Math.sqrt(3), Math.sqrt(3));
        InputDistribution wide = rectangular(-10 * Math.sqrt(3), 10 * Math.sqrt(3));
        MonteCarlo y = MonteCarlo.run(SUM, List.of(r, r, r, wide), TRIALS, SEED);
        assertEquals(10.149, y.standardUncertainty(), 0.03);
        assertInterval(-17.01, 17.01, y.symmetricInterval(0.95), 0.06);
        Uncertainty gum = Uncertainty.propagate(SUM, new double[4], new double[] {1, 1, 1, 10});
        assertEquals(19.89, gum.expanded(0.95, Double.POSITIVE_INFINITY), 0.005);
    }

    /**
     * GU-12: 9.3, mass calibration (from memory; the GUM lines recomputed exactly, the Monte Carlo line with 4 million trials):
     * to first order 0.0539 mg, to second order 0.0750 mg, by Monte Carlo 0.0754 mg.
     */
    @Test
    void theMassCalibrationWhoseFirstOrderMisleads() {
        Measurand mass = x -> (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100_000;
        double[] means = {100_000, 1.234, 1.20, 8000, 8000};
        double[] u = {0.050, 0.020, 0.1 / Math.sqrt(3), 1000 / Math.sqrt(3), 50 / Math.sqrt(3)};
        Uncertainty first = Uncertainty.propagate(mass, means, u);
        assertEquals(1.2340, first.value(), 5e-5);
        assertEquals(0.0539, first.standardUncertainty(), 5e-5);
        double half = Normal.quantile(0.975);
        assertInterval(
                1.1285,
                1.3395,
                new Interval(
                        first.value() - half * first.standardUncertainty(),
                        first.value() + half * first.standardUncertainty()),
                1e-4);
        assertEquals(0.0750, Uncertainty.secondOrder(mass, means, u), 5e-5);
        MonteCarlo y = MonteCarlo.run(
                mass,
                List.of(
                        normal(100_000, 0.050),
                        normal(1.234, 0.020),
                        rectangular(1.10, 1.30),
                        rectangular(7000, 9000),
                        rectangular(7950, 8050)),
                TRIALS,
                SEED);
        assertEquals(1.2341, y.mean(), 6e-4);
        assertEquals(0.0754, y.standardUncertainty(), 5e-4);
        assertInterval(1.0834, 1.3825, y.shortestInterval(0.95), 0.005);
    }

    /**
     * GU-13: y = ln x, x rectangular on [0.1, 1.1]: NPL report DEM-ES-011, Table 9.2, as a public test suite has it; mean, sd
     * and interval also in closed form: the shortest interval of a rising density ends at ln 1.1.
     */
    @Test
    void theShortestIntervalOfASkewDistributionLiesAtItsPeak() {
        Measurand log = x -> Math.log(x[0]);
        MonteCarlo y = MonteCarlo.run(log, List.of(rectangular(0.1, 1.1)), TRIALS, SEED);
        assertEquals(-0.664900, y.mean(), 0.004);
        assertEquals(0.606227, y.standardUncertainty(), 0.004);
        assertInterval(Math.log(0.15), Math.log(1.1), y.shortestInterval(0.95), 0.012);
        Uncertainty gum = Uncertainty.propagate(log, new double[] {0.6}, new double[] {1 / Math.sqrt(12)});
        assertEquals(-0.511, gum.value(), 5e-4);
        assertEquals(0.481, gum.standardUncertainty(), 5e-4);
    }

    /** Closed form: the variance of a sum is the sum of the covariance matrix; Student's t has variance ν/(ν − 2). */
    @Test
    void correlatedAndStudentInputsHaveTheirVariance() {
        double[] covariance = {4, 1.5, 1.5, 1};
        MonteCarlo y = MonteCarlo.runNormal(SUM, new double[] {1, 2}, covariance, TRIALS, SEED);
        assertEquals(3, y.mean(), 0.02);
        assertEquals(Math.sqrt(8), y.standardUncertainty(), 0.015);
        MonteCarlo t = MonteCarlo.run(x -> x[0], List.of(InputDistribution.studentT(5, 2, 10)), 50_000, SEED);
        assertEquals(5, t.mean(), 0.045);
        assertEquals(2 * Math.sqrt(10.0 / 8), t.standardUncertainty(), 0.05);
    }

    @Test
    void theSameSeedGivesTheSameOutcomes() {
        MonteCarlo a = MonteCarlo.run(SUM, List.of(normal(0, 1), rectangular(0, 1)), 1000, 7);
        MonteCarlo b = MonteCarlo.run(SUM, List.of(normal(0, 1), rectangular(0, 1)), 1000, 7);
        assertEquals(a.mean(), b.mean());
        assertEquals(a.symmetricInterval(0.9), b.symmetricInterval(0.9));
    }

    /** By hand: of the values 1 to 100 the 95 % intervals span 95 steps, and 30 values exceed 70. */
    @Test
    void intervalsOfAHundredKnownOutcomesAreCountedByHand() {
        double[] outcomes = new double[100];
        Arrays.setAll(outcomes, i -> 100 - i);
        MonteCarlo y = MonteCarlo.ofOutcomes(outcomes);
        assertEquals(new Interval(3, 98), y.symmetricInterval(0.95));
        assertEquals(new Interval(1, 96), y.shortestInterval(0.95));
        assertEquals(0.30, y.probabilityOver(70), 1e-12);
        assertEquals(1, y.probabilityOver(0.5), 1e-12);
        assertEquals(0, y.probabilityOver(100), 1e-12);
        assertEquals(50.5, y.mean(), 1e-12);
    }

    @Test
    void anOutcomeThatIsNoNumberIsAnError() {
        Measurand root = x -> Math.sqrt(x[0]);
        assertThrows(IllegalArgumentException.class, () -> MonteCarlo.run(root, List.of(normal(0, 1)), 100, 1));
        assertThrows(IllegalArgumentException.class, () -> MonteCarlo.ofOutcomes(new double[] {1}));
        assertThrows(
                IllegalArgumentException.class,
                () -> MonteCarlo.runNormal(SUM, new double[2], new double[] {1, 2, 2, 1}, 10, 1));
    }

    private static void assertInterval(double lower, double upper, Interval found, double tolerance) {
        assertEquals(lower, found.lower(), tolerance);
        assertEquals(upper, found.upper(), tolerance);
    }
}
