package org.holdtrace.fit;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.quantity.Require;

/**
 * Propagation of distributions by Monte Carlo (JCGM 101:2008, GUM Supplement 1), and what the sorted outcomes tell. The
 * same seed gives the same outcomes on every machine. Immutable.
 */
public final class MonteCarlo {
    private final double[] sorted;
    private final double mean;
    private final double standardDeviation;

    private MonteCarlo(double[] outcomes) {
        if (outcomes.length < 2) {
            throw new IllegalArgumentException("a Monte Carlo needs at least two trials, found " + outcomes.length);
        }
        double sum = 0;
        for (int i = 0; i < outcomes.length; i++) {
            sum += Require.finite(outcomes[i], "the outcome of trial " + i, "");
        }
        double centre = sum / outcomes.length;
        double square = 0;
        double rest = 0;
        for (double y : outcomes) {
            square += (y - centre) * (y - centre);
            rest += y - centre;
        }
        mean = centre + rest / outcomes.length;
        standardDeviation = Math.sqrt(square / (outcomes.length - 1));
        Arrays.sort(outcomes);
        sorted = outcomes;
    }

    /**
     * Draws independent inputs {@code trials} times.
     *
     * @param f the measurement function; an outcome that is not finite is an error
     * @param inputs the distribution of each input
     * @param trials at least 2; JCGM 101, 7.2 recommends 10⁴/(1 − coverage), 200 000 for 95 %
     * @param seed decides all draws
     */
    public static MonteCarlo run(Measurand f, List<InputDistribution> inputs, int trials, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] x = new double[inputs.size()];
        double[] outcomes = new double[Math.max(0, trials)];
        for (int t = 0; t < trials; t++) {
            for (int i = 0; i < x.length; i++) {
                x[i] = inputs.get(i).quantile(uniform(random));
            }
            outcomes[t] = f.value(x);
        }
        return new MonteCarlo(outcomes);
    }

    /**
     * Draws inputs that are jointly normal {@code trials} times (JCGM 101:2008, 6.4.8).
     *
     * @param covariance of the inputs, row by row; must be positive definite
     */
    public static MonteCarlo runNormal(Measurand f, double[] means, double[] covariance, int trials, long seed) {
        int n = means.length;
        Arguments.sameLength(n * n, covariance.length, "covariance matrix");
        double[] factor = covariance.clone();
        if (!Cholesky.factor(factor, n)) {
            throw new IllegalArgumentException("the covariance matrix of the inputs is not positive definite");
        }
        SplittableRandom random = new SplittableRandom(seed);
        double[] x = new double[n];
        double[] outcomes = new double[Math.max(0, trials)];
        for (int t = 0; t < trials; t++) {
            for (int i = 0; i < n; i++) {
                x[i] = Normal.quantile(uniform(random));
            }
            Cholesky.multiplyLower(factor, n, x);
            for (int i = 0; i < n; i++) {
                x[i] += means[i];
            }
            outcomes[t] = f.value(x);
        }
        return new MonteCarlo(outcomes);
    }

    /** From outcomes drawn elsewhere; they are copied. */
    public static MonteCarlo ofOutcomes(double[] outcomes) {
        return new MonteCarlo(outcomes.clone());
    }

    /** Number of trials. */
    public int trials() {
        return sorted.length;
    }

    /** Mean of the outcomes: the estimate. */
    public double mean() {
        return mean;
    }

    /** Standard deviation of the outcomes: the standard uncertainty. */
    public double standardUncertainty() {
        return standardDeviation;
    }

    /** Fraction of outcomes above {@code limit}. */
    public double probabilityOver(double limit) {
        int low = 0;
        int high = sorted.length;
        while (low < high) {
            int mid = (low + high) >>> 1;
            if (sorted[mid] <= limit) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return (double) (sorted.length - low) / sorted.length;
    }

    /** The interval with as many outcomes below it as above (JCGM 101:2008, 7.7.2). */
    public Interval symmetricInterval(double coverage) {
        int q = inside(coverage);
        int r = Math.max(1, (sorted.length - q + 1) / 2);
        return new Interval(sorted[r - 1], sorted[Math.min(sorted.length, r + q) - 1]);
    }

    /** The shortest interval that holds the fraction {@code coverage} of outcomes (JCGM 101:2008, 7.7.4). */
    public Interval shortestInterval(double coverage) {
        int q = inside(coverage);
        int best = 0;
        for (int r = 1; r + q < sorted.length; r++) {
            if (sorted[r + q] - sorted[r] < sorted[best + q] - sorted[best]) {
                best = r;
            }
        }
        return new Interval(sorted[best], sorted[best + q]);
    }

    /** The fraction of all steps between sorted outcomes that the interval spans, as a count. */
    private int inside(double coverage) {
        Arguments.probability(coverage, "coverage");
        return Math.min(sorted.length - 1, (int) Math.floor(coverage * sorted.length + 0.5));
    }

    /** Strictly between 0 and 1. */
    private static double uniform(SplittableRandom random) {
        return ((random.nextLong() >>> 11) + 0.5) * 0x1p-53;
    }
}
