package org.holdtrace.fit;

import org.holdtrace.quantity.Require;

/**
 * Turns a series with the noise of a {@link NoiseModel} into independent values of variance 1, by a Kalman filter whose
 * gains depend on the times alone. Being linear, it may be applied to residuals and to the columns of a Jacobian alike;
 * least squares on what comes out is generalised least squares on what went in, in time linear in its length.
 *
 * <p>The level of a random walk is unknown at the start; the first value then tells nothing. Immutable.
 */
public final class Whitener {
    private final double[] decay;
    private final double[] gainColour;
    private final double[] gainWalk;
    private final double[] inverseSd;
    private final double logDeterminant;
    private final boolean walks;

    Whitener(NoiseModel noise, double[] timeS) {
        int n = timeS.length;
        decay = new double[n];
        gainColour = new double[n];
        gainWalk = new double[n];
        inverseSd = new double[n];
        walks = noise.walkVariancePerS() > 0;
        double white = noise.whiteVariance();
        double coloured = noise.colouredVariance();
        double span = n == 0 ? 0 : timeS[n - 1] - timeS[0];
        double pColour = coloured;
        double pWalk = walks ? startOfWalk(noise, span) : 0;
        double pBoth = 0;
        double lastStep = Double.NaN;
        double phi = 1;
        double log = 0;
        for (int i = 0; i < n; i++) {
            if (i > 0) {
                double step = timeS[i] - timeS[i - 1];
                if (!(step >= 0)) {
                    throw new IllegalArgumentException("times must not decrease, found " + timeS[i] + " s after "
                            + timeS[i - 1] + " s at value " + i);
                }
                // Even steps differ in their last digits only; an exponential a value would be most of the cost.
                if (!(Math.abs(step - lastStep) <= 1e-9 * lastStep)) {
                    phi = Math.exp(-step / noise.correlationTimeS());
                    lastStep = step;
                }
                pColour = phi * phi * pColour + coloured * (1 - phi * phi);
                pBoth *= phi;
                pWalk += noise.walkVariancePerS() * step;
            }
            decay[i] = phi;
            double variance = white + pColour + 2 * pBoth + pWalk;
            Require.positive(variance, "variance of the noise", "");
            double kColour = (pColour + pBoth) / variance;
            double kWalk = (pWalk + pBoth) / variance;
            gainColour[i] = kColour;
            gainWalk[i] = kWalk;
            inverseSd[i] = 1 / Math.sqrt(variance);
            // Joseph's form: what is left of each variance stays positive in spite of the start's great one.
            double cc = (1 - kColour) * (1 - kColour) * pColour
                    - 2 * (1 - kColour) * kColour * pBoth
                    + kColour * kColour * (pWalk + white);
            double ww = (1 - kWalk) * (1 - kWalk) * pWalk
                    - 2 * (1 - kWalk) * kWalk * pBoth
                    + kWalk * kWalk * (pColour + white);
            double cw = (1 - kColour) * (1 - kWalk) * pBoth
                    + kColour * kWalk * (pBoth + white)
                    - (1 - kColour) * kWalk * pColour
                    - kColour * (1 - kWalk) * pWalk;
            pColour = cc;
            pWalk = ww;
            pBoth = cw;
            if (i > 0 || !walks) {
                log += Math.log(variance);
            }
        }
        logDeterminant = log;
    }

    /** Variance of the unknown level a walk starts from: so large that it does not matter. */
    static double startOfWalk(NoiseModel noise, double spanS) {
        return 1e6 * (noise.whiteVariance() + noise.colouredVariance() + noise.walkVariancePerS() * spanS);
    }

    /** Number of values it is made for. */
    public int size() {
        return decay.length;
    }

    /**
     * Whitens {@code size()} values.
     *
     * @param in the series
     * @param from index of its first value
     * @param out where the whitened series goes; may be {@code in} itself
     * @param to index of its first value there
     */
    public void whiten(double[] in, int from, double[] out, int to) {
        double colour = 0;
        double walk = 0;
        for (int i = 0; i < decay.length; i++) {
            if (i > 0) {
                colour *= decay[i];
            }
            double innovation = in[from + i] - colour - walk;
            colour += gainColour[i] * innovation;
            walk += gainWalk[i] * innovation;
            out[to + i] = innovation * inverseSd[i];
        }
    }

    /** Logarithm of the probability density of {@code values} under this noise; with a walk, given the first value. */
    public double logLikelihood(double[] values) {
        Arguments.sameLength(decay.length, values.length, "values");
        double colour = 0;
        double walk = 0;
        double square = 0;
        int counted = 0;
        for (int i = 0; i < decay.length; i++) {
            if (i > 0) {
                colour *= decay[i];
            }
            double innovation = values[i] - colour - walk;
            colour += gainColour[i] * innovation;
            walk += gainWalk[i] * innovation;
            if (i > 0 || !walks) {
                double z = innovation * inverseSd[i];
                square += z * z;
                counted++;
            }
        }
        return -0.5 * (logDeterminant + square + counted * Math.log(2 * Math.PI));
    }
}
