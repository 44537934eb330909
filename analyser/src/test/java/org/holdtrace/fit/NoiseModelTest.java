package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.apache.commons.math3.distribution.MultivariateNormalDistribution;
import org.junit.jupiter.api.Test;

/** Simulated noise that is known, and dense linear algebra of Apache Commons Math 3.6.1 on short series. */
class NoiseModelTest {
    private static double[] simulate(NoiseModel noise, double[] timeS, Random random) {
        double[] out = new double[timeS.length];
        double colour = Math.sqrt(noise.colouredVariance()) * random.nextGaussian();
        double walk = 0;
        for (int i = 0; i < out.length; i++) {
            if (i > 0) {
                double step = timeS[i] - timeS[i - 1];
                double phi = Math.exp(-step / noise.correlationTimeS());
                colour = phi * colour + Math.sqrt(noise.colouredVariance() * (1 - phi * phi)) * random.nextGaussian();
                walk += Math.sqrt(noise.walkVariancePerS() * step) * random.nextGaussian();
            }
            out[i] = colour + walk + Math.sqrt(noise.whiteVariance()) * random.nextGaussian();
        }
        return out;
    }

    private static double[] even(int n, double stepS) {
        double[] t = new double[n];
        for (int i = 0; i < n; i++) {
            t[i] = i * stepS;
        }
        return t;
    }

    private static double[] uneven(int n, Random random) {
        double[] t = new double[n];
        for (int i = 1; i < n; i++) {
            t[i] = t[i - 1] + (i % 5 == 0 ? 0 : 0.1 * random.nextDouble()) + (i % 7 == 0 ? 1 : 0);
        }
        return t;
    }

    private static double[][] dense(NoiseModel noise, double[] t) {
        int n = t.length;
        double start = noise.walkVariancePerS() > 0 ? Whitener.startOfWalk(noise, t[n - 1] - t[0]) : 0;
        double[][] c = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                c[i][j] = noise.colouredVariance() * Math.exp(-Math.abs(t[i] - t[j]) / noise.correlationTimeS())
                        + (i == j ? noise.whiteVariance() : 0)
                        + start
                        + noise.walkVariancePerS() * (Math.min(t[i], t[j]) - t[0]);
            }
        }
        return c;
    }

    /** Standardised innovations of the Kalman filter are L⁻¹ v, L the Cholesky factor of the dense covariance. */
    @Property(tries = 60)
    void whiteningIsTheCholeskyFactorOfTheDenseCovariance(
            @ForAll @IntRange(min = 2, max = 40) int n,
            @ForAll @DoubleRange(min = 0.1, max = 3) double white,
            @ForAll @DoubleRange(min = 0, max = 3) double coloured,
            @ForAll @DoubleRange(min = 0.05, max = 5) double tau,
            @ForAll @DoubleRange(min = 0, max = 1) double walk,
            @ForAll long seed) {
        Random random = new Random(seed);
        NoiseModel noise = new NoiseModel(white, coloured, tau, walk);
        double[] t = uneven(n, random);
        double[] v = simulate(noise, t, random);
        double[] flat = new double[n * n];
        double[][] dense = dense(noise, t);
        for (int i = 0; i < n * n; i++) {
            flat[i] = dense[i / n][i % n];
        }
        assertTrue(Cholesky.factor(flat, n));
        double[] expected = v.clone();
        Cholesky.solveLower(flat, n, expected);
        double[] found = new double[n];
        noise.whitener(t).whiten(v, 0, found, 0);
        for (int i = 0; i < n; i++) {
            assertEquals(expected[i], found[i], 1e-5, "value " + i);
        }
        if (walk == 0) {
            double density = new MultivariateNormalDistribution(null, new double[n], dense).density(v);
            assertEquals(Math.log(density), noise.whitener(t).logLikelihood(v), 1e-7 * n);
        }
    }

    /** Forty simulated series: the mean of what is found lies within four of its standard deviations of the truth. */
    @Test
    void maximumLikelihoodFindsKnownNoiseInUnevenSteps() {
        Random random = new Random(11);
        NoiseModel truth = new NoiseModel(1, 0.6, 0.8, 0);
        double[] white = new double[40];
        double[] coloured = new double[40];
        double[] tau = new double[40];
        for (int s = 0; s < 40; s++) {
            double[] t = uneven(3000, random);
            NoiseModel found = NoiseModel.maximumLikelihood(
                    t, simulate(truth, t, random), new NoiseModel(0.5, 0.5, 0.1, 0), false);
            white[s] = found.whiteVariance();
            coloured[s] = found.colouredVariance();
            tau[s] = Math.log(found.correlationTimeS());
        }
        assertMean(1, white, 0.05);
        assertMean(0.6, coloured, 0.1);
        assertMean(Math.log(0.8), tau, 0.3);
    }

    /** The fast estimate on even steps: mean within 15 % in variances, a third in correlation time. */
    @Test
    void blockMeansFindKnownNoiseInEvenSteps() {
        Random random = new Random(12);
        NoiseModel truth = new NoiseModel(1, 0.5, 2, 0);
        double[] t = even(20_000, 0.02);
        double[] white = new double[20];
        double[] coloured = new double[20];
        double[] tau = new double[20];
        for (int s = 0; s < 20; s++) {
            NoiseModel found = NoiseModel.fromBlockMeans(simulate(truth, t, random), 0.02, false);
            white[s] = found.whiteVariance();
            coloured[s] = found.colouredVariance();
            tau[s] = Math.log(found.correlationTimeS());
        }
        assertMean(1, white, 0.03);
        assertMean(0.5, coloured, 0.15);
        assertMean(Math.log(2), tau, 0.4);
    }

    @Test
    void aRandomWalkIsFoundByBothWays() {
        Random random = new Random(13);
        NoiseModel truth = new NoiseModel(1, 0, 1, 0.05);
        double[] t = even(8000, 0.05);
        double[] v = simulate(truth, t, random);
        NoiseModel fast = NoiseModel.fromBlockMeans(v, 0.05, true);
        NoiseModel slow = NoiseModel.maximumLikelihood(t, v, fast, true);
        assertEquals(1, slow.whiteVariance(), 0.07);
        // What the walk does over 10 s, whatever share of it is called colour
        for (NoiseModel found : new NoiseModel[] {fast, slow}) {
            double tenSeconds = found.neighbourVariance(200, 0.05);
            assertEquals(truth.neighbourVariance(200, 0.05), tenSeconds, 0.5 * tenSeconds);
        }
        assertTrue(
                slow.whitener(t).logLikelihood(v) >= truth.whitener(t).logLikelihood(v) - 1e-3,
                "the most likely noise is at least as likely as the true one");
    }

    @Test
    void whiteNoiseIsFoundToBeWhite() {
        Random random = new Random(14);
        double[] t = even(20_000, 0.004);
        double[] v = simulate(NoiseModel.white(4), t, random);
        NoiseModel found = NoiseModel.fromBlockMeans(v, 0.004, false);
        // Colour as short as a step is white; what counts is what a mean over a second is worth
        assertEquals(4.0 / 250, found.meanVariance(250, 0.004), 0.15 * 4.0 / 250);
        assertEquals(250, found.effectiveSampleSize(250, 0.004), 50);
    }

    /** A slope fitted to coloured noise by whitened columns has the uncertainty that many repetitions show. */
    @Test
    void whitenedLeastSquaresClaimsTheUncertaintyOfManyRepetitions() {
        Random random = new Random(15);
        NoiseModel noise = new NoiseModel(0.2, 1, 5, 0);
        int n = 600;
        double[] t = even(n, 0.1);
        Whitener whitener = noise.whitener(t);
        double[] one = new double[n];
        double[] time = new double[n];
        Arrays.fill(one, 1);
        whitener.whiten(one, 0, one, 0);
        whitener.whiten(t, 0, time, 0);
        int runs = 400;
        double square = 0;
        double claimed = 0;
        for (int s = 0; s < runs; s++) {
            double[] v = simulate(noise, t, random);
            whitener.whiten(v, 0, v, 0);
            Fit fit = LeastSquares.of(2)
                    .fit(
                            (b, r) -> {
                                for (int i = 0; i < n; i++) {
                                    r[i] = b[0] * one[i] + b[1] * time[i] - v[i];
                                }
                            },
                            n,
                            new double[2]);
            square += fit.parameter(1) * fit.parameter(1) / runs;
            claimed = fit.standardUncertainty(1, Fit.Weights.ABSOLUTE);
        }
        assertEquals(1, Math.sqrt(square) / claimed, 4 / Math.sqrt(2.0 * runs));
    }

    /** The neighbour variance against its definition, term by term over the dense covariance. */
    @Property(tries = 100)
    void neighbourVarianceIsThatOfTheDenseCovariance(
            @ForAll @IntRange(min = 1, max = 20) int block,
            @ForAll @DoubleRange(min = 0.01, max = 100) double tau,
            @ForAll @DoubleRange(min = 0, max = 1) double walk) {
        NoiseModel noise = new NoiseModel(0.3, 0.7, tau, walk);
        double[] t = even(2 * block, 0.1);
        double sum = 0;
        double mean = 0;
        for (int i = 0; i < 2 * block; i++) {
            for (int j = 0; j < 2 * block; j++) {
                double c = noise.covariance(t[i] - t[j]);
                int sign = (i < block) == (j < block) ? 1 : -1;
                sum += sign * (c + walk * Math.min(t[i], t[j]));
                mean += i < block && j < block ? c : 0;
            }
        }
        assertEquals(sum / (2.0 * block * block), noise.neighbourVariance(block, 0.1), 1e-7);
        assertEquals(mean / (block * block), noise.meanVariance(block, 0.1), 1e-7);
    }

    @Test
    void nonsenseIsRefused() {
        double[] t = even(40, 1);
        assertThrows(IllegalArgumentException.class, () -> new NoiseModel(Double.NaN, 0, 1, 0));
        assertThrows(IllegalArgumentException.class, () -> new NoiseModel(1, 1, 0, 0));
        assertThrows(IllegalArgumentException.class, () -> NoiseModel.fromBlockMeans(new double[31], 1, false));
        assertThrows(IllegalArgumentException.class, () -> NoiseModel.fromBlockMeans(t, 0, false));
        t[5] = Double.NaN;
        assertThrows(IllegalArgumentException.class, () -> NoiseModel.fromBlockMeans(t, 1, false));
        assertThrows(IllegalArgumentException.class, () -> NoiseModel.white(1).whitener(t));
        assertThrows(IllegalArgumentException.class, () -> NoiseModel.white(0).whitener(even(3, 1)));
        assertEquals(0, NoiseModel.fromBlockMeans(new double[40], 1, false).whiteVariance());
    }

    /** H. H. Rosenbrock's valley, Computer Journal 3 (1960) 175: minimum 0 at (1, 1). */
    @Test
    void theSimplexFindsTheBottomOfRosenbrocksValley() {
        double[] found = NelderMead.minimise(
                b -> 100 * Math.pow(b[1] - b[0] * b[0], 2) + Math.pow(1 - b[0], 2),
                new double[] {-1.2, 1},
                0.5,
                1e-14,
                1000);
        assertEquals(1, found[0], 1e-5);
        assertEquals(1, found[1], 1e-5);
    }

    private static void assertMean(double expected, double[] found, double within) {
        double mean = 0;
        for (double f : found) {
            mean += f / found.length;
        }
        double square = 0;
        for (double f : found) {
            square += (f - mean) * (f - mean) / (found.length - 1);
        }
        double tolerance = Math.max(4 * Math.sqrt(square / found.length), 1e-12);
        assertEquals(expected, mean, Math.min(within, tolerance + 0.03 * Math.abs(expected)), "mean of many");
    }
}
