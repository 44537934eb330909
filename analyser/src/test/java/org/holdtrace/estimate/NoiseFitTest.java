package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.distribution.MultivariateNormalDistribution;
import org.junit.jupiter.api.Test;

/** Residuals whose colour is known because it was put in, drawn sample by sample and averaged into rows. */
class NoiseFitTest {
    private static final int ROWS = 110;
    private static final int SAMPLES = 50;
    private static final double RATE_HZ = 50;
    private static final Noise BASE = new Noise(0.02, 0, 1, 1e-4, 0, 0.01, 0);

    private static Noise found(DoubleUnaryOperator nextSample) {
        double[] t = new double[ROWS];
        double[] length = new double[ROWS];
        int[] samples = new int[ROWS];
        double[] mean = new double[ROWS];
        for (int i = 0; i < ROWS; i++) {
            for (int k = 0; k < SAMPLES; k++) {
                mean[i] += nextSample.applyAsDouble((i * SAMPLES + k) / RATE_HZ) / SAMPLES;
            }
            t[i] = (i + 0.5) * SAMPLES / RATE_HZ;
            length[i] = (SAMPLES - 1) / RATE_HZ;
            samples[i] = SAMPLES;
        }
        return NoiseFit.estimate(t, length, samples, mean, BASE, 5);
    }

    /** An Ornstein–Uhlenbeck process of standard deviation {@code bar} and correlation time {@code tauS}, by its recursion. */
    private static DoubleUnaryOperator coloured(SplittableRandom random, double bar, double tauS) {
        double phi = Math.exp(-1 / (RATE_HZ * tauS));
        double[] state = {bar * random.nextGaussian()};
        return t -> {
            state[0] = phi * state[0] + bar * Math.sqrt(1 - phi * phi) * random.nextGaussian();
            return state[0] + 0.02 * random.nextGaussian();
        };
    }

    @Test
    void whiteNoiseNeedsHardlyAnythingBesides() {
        SplittableRandom random = new SplittableRandom(1);
        Noise noise = found(t -> 0.02 * random.nextGaussian());
        // The mean of 50 samples scatters by 0.02/√50 = 0.0028 bar.
        assertTrue(noise.colourBar() < 0.0028, noise.toString());
        assertTrue(noise.walkBar() < 0.001, noise.toString());
    }

    @Test
    void aLastingPartIsFoundWithItsSizeAndTime() {
        for (double tau : new double[] {1.6, 6.4}) {
            Noise noise = found(coloured(new SplittableRandom(2), 0.05, tau));
            // From 110 rows neither is known to better than a third.
            assertEquals(0.05, noise.colourBar(), 0.03, noise.toString());
            assertTrue(noise.colourS() >= tau / 4 && noise.colourS() <= 4 * tau, noise.toString());
        }
    }

    @Test
    void aWalkIsFoundAsAWalkOrAsAVerySlowPart() {
        SplittableRandom random = new SplittableRandom(3);
        double[] level = {0};
        Noise noise = found(t -> {
            level[0] += 0.03 / Math.sqrt(RATE_HZ) * random.nextGaussian();
            return level[0] + 0.02 * random.nextGaussian();
        });
        assertTrue(noise.walkBar() > 0.01 || noise.colourS() >= 25, noise.toString());
    }

    @Test
    void fewRowsTellNothingAndTheNoiseStaysAsItWas() {
        double[] few = new double[11];
        int[] samples = new int[11];
        Arrays.fill(samples, 10);
        assertSame(BASE, NoiseFit.estimate(few, few, samples, few, BASE, 5));
    }

    @Test
    void whatWasFoundElsewhereIsKept() {
        SplittableRandom random = new SplittableRandom(4);
        Noise noise = found(t -> 0.5 * random.nextGaussian());
        assertEquals(BASE.whiteBar(), noise.whiteBar());
        assertEquals(BASE.scatter(), noise.scatter());
        assertTrue(noise.walkBar() >= BASE.walkBar());
        // More than the samples' own noise explains has to go somewhere.
        assertTrue(noise.colourBar() > 0 || noise.walkBar() > BASE.walkBar(), noise.toString());
    }

    @Test
    void theMeanOverAStretchOfColouredNoiseHasTheVarianceOfTheTextbook() {
        // Integral of exp(−|t|/τ) twice over a stretch: 2τ²(e^{−u} − 1 + u)/T², u = T/τ (any text on stochastic
        // processes;
        // memory). By hand for u = 2: 2(e^{−2} + 1)/4 = 0.567668.
        Noise noise = new Noise(0, 0.3, 5, 0, 0, 0, 0);
        assertEquals(0.09 * 0.567668, noise.colourVariance(10), 1e-6);
        assertEquals(0.09, noise.colourVariance(1e-9), 1e-9);
        // A point has its whole share; two stretches that touch: their share in the variance of the whole.
        assertEquals(1, noise.colourShare(0), 1e-9);
        double whole = noise.colourVariance(10);
        double halves = 0.5 * noise.colourVariance(5) + 0.5 * 0.09 * noise.colourShare(5) * noise.colourShare(5);
        assertEquals(whole, halves, 1e-9);
    }

    /** The filter against the density of the same normal distribution by the dense algebra of Apache Commons Math 3.6.1. */
    @Test
    void theLikelihoodIsThatOfTheDenseCovariance() {
        SplittableRandom random = new SplittableRandom(5);
        for (int trial = 0; trial < 30; trial++) {
            int n = 2 + random.nextInt(25);
            Noise noise = new Noise(
                    0.05 + random.nextDouble(),
                    trial % 3 == 0 ? 0 : random.nextDouble(),
                    0.2 + 3 * random.nextDouble(),
                    random.nextDouble(),
                    0.1,
                    0.01,
                    0);
            double[] t = new double[n];
            double[] length = new double[n];
            int[] samples = new int[n];
            double[] r = new double[n];
            for (int i = 0; i < n; i++) {
                length[i] = random.nextDouble();
                t[i] = (i == 0 ? 0 : t[i - 1]) + 0.01 + 2 * random.nextDouble();
                samples[i] = 1 + random.nextInt(5);
                r[i] = random.nextGaussian();
            }
            NoiseFit.Memory memory = NoiseFit.Memory.of(t, length, noise.colourS());
            double colour2 = noise.colourBar() * noise.colourBar();
            double anywhere = 1e6 * (colour2 + noise.whiteBar() * noise.whiteBar() + 1);
            double[][] c = new double[n][n];
            for (int i = 0; i < n; i++) {
                for (int j = 0; j < n; j++) {
                    double kept = Math.exp(-Math.abs(t[i] - t[j]) / noise.colourS());
                    c[i][j] = anywhere
                            + noise.walkBar() * noise.walkBar() * (Math.min(t[i], t[j]) - t[0])
                            + colour2 * memory.seen()[i] * memory.seen()[j] * kept;
                }
                c[i][i] += noise.whiteBar() * noise.whiteBar() / samples[i] + 0.1 * 0.1 / 12;
            }
            double density = new MultivariateNormalDistribution(null, new double[n], c).density(r);
            double first = -0.5 * (Math.log(2 * Math.PI * c[0][0]) + r[0] * r[0] / c[0][0]);
            double rest = Math.log(density) - first + 0.5 * (n - 1) * Math.log(2 * Math.PI);
            assertEquals(rest, NoiseFit.likelihood(t, memory, samples, r, noise, 1), 1e-3, "trial " + trial);
        }
    }
}
