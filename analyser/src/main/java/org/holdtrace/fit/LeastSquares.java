package org.holdtrace.fit;

import java.util.Arrays;
import java.util.Collection;
import org.holdtrace.quantity.Require;

/**
 * Weighted nonlinear least squares with bounds and Gaussian prior knowledge, by Levenberg–Marquardt with a scaled trust
 * region (J. J. Moré, "The Levenberg–Marquardt algorithm: implementation and theory", Lecture Notes in Mathematics 630,
 * 1978) on a Householder QR of the Jacobian: forming normal equations would square its condition number, and sums of
 * exponentials have a bad one.
 *
 * <p>Minimises χ² = Σ rᵢ² + Σ ((bⱼ − meanⱼ)/sdⱼ)² over the parameters b. The residuals rᵢ come from the {@link Model},
 * already divided by their standard deviation where that is known. Immutable; every {@code with…} gives a new one.
 *
 * <p>Own code and not the library's, because that allocates an n × p matrix in every evaluation and is slower than
 * SciPy; the tests hold it to NIST's certified values and to the library.
 */
public final class LeastSquares {
    private final double[] lower;
    private final double[] upper;
    private final double[] priorMean;
    private final double[] priorSd;
    private final double tolerance;
    private final int maxEvaluations;

    private LeastSquares(
            double[] lower,
            double[] upper,
            double[] priorMean,
            double[] priorSd,
            double tolerance,
            int maxEvaluations) {
        this.lower = lower;
        this.upper = upper;
        this.priorMean = priorMean;
        this.priorSd = priorSd;
        this.tolerance = tolerance;
        this.maxEvaluations = maxEvaluations;
    }

    /** What is fitted. Called with arrays that belong to the solver: read or fill them, do not keep them. */
    @FunctionalInterface
    public interface Model {
        /**
         * Fills in the residuals, (model − observation)/standard deviation. A value that is not finite tells that the
         * model does not exist there; the solver then takes a shorter step.
         */
        void residuals(double[] parameters, double[] residuals);

        /**
         * Fills in the derivatives, ∂rᵢ/∂bⱼ at index {@code j * residuals.length + i}, for parameters whose residuals
         * have just been asked for.
         *
         * @return whether it did; where false, the solver takes central differences, two evaluations a parameter
         */
        default boolean jacobian(double[] parameters, double[] residuals, double[] jacobian) {
            return false;
        }
    }

    /** A solver for {@code parameters} parameters without bounds or priors, run to rounding. */
    public static LeastSquares of(int parameters) {
        if (parameters < 1) {
            throw new IllegalArgumentException("a fit needs at least one parameter, was given " + parameters);
        }
        double[] low = new double[parameters];
        double[] high = new double[parameters];
        double[] none = new double[parameters];
        Arrays.fill(low, Double.NEGATIVE_INFINITY);
        Arrays.fill(high, Double.POSITIVE_INFINITY);
        Arrays.fill(none, Double.POSITIVE_INFINITY);
        return new LeastSquares(low, high, new double[parameters], none, 1e-14, 2000);
    }

    /** The same with parameter {@code index} kept between the bounds, which may be infinite. */
    public LeastSquares withBounds(int index, double atLeast, double atMost) {
        if (!(atLeast < atMost)) {
            throw new IllegalArgumentException(
                    "lower bound " + atLeast + " of parameter " + index + " must be below its upper bound " + atMost);
        }
        double[] low = lower.clone();
        double[] high = upper.clone();
        low[index] = atLeast;
        high[index] = atMost;
        return new LeastSquares(low, high, priorMean, priorSd, tolerance, maxEvaluations);
    }

    /**
     * The same with prior knowledge of parameter {@code index}: one more observation of it. It has a meaning only
     * beside residuals that are divided by their true standard deviation.
     */
    public LeastSquares withPrior(int index, double mean, double standardDeviation) {
        double[] means = priorMean.clone();
        double[] sds = priorSd.clone();
        means[index] = Require.finite(mean, "prior mean", "");
        sds[index] = Require.positive(standardDeviation, "prior standard deviation", "");
        return new LeastSquares(lower, upper, means, sds, tolerance, maxEvaluations);
    }

    /** The same, ending once a step changes χ² and promises to change it by less than this fraction. Default 1e-14. */
    public LeastSquares withTolerance(double relativeChange) {
        if (!(relativeChange >= 0x1p-52 && relativeChange < 1)) {
            throw new IllegalArgumentException("tolerance must lie between 2.2e-16 and 1, was " + relativeChange);
        }
        return new LeastSquares(lower, upper, priorMean, priorSd, relativeChange, maxEvaluations);
    }

    /** The same, giving up after so many evaluations of the residuals, differences not counted. Default 2000. */
    public LeastSquares withMaxEvaluations(int evaluations) {
        if (evaluations < 1) {
            throw new IllegalArgumentException("the most evaluations must be at least 1, was " + evaluations);
        }
        return new LeastSquares(lower, upper, priorMean, priorSd, tolerance, evaluations);
    }

    /**
     * Fits from one start. The start is moved into the bounds if it lies outside.
     *
     * @param model the residuals
     * @param residuals how many residuals the model fills in
     * @param start first guess of the parameters
     * @return the fit; its {@link Fit#status() status} tells whether it may be used
     */
    public Fit fit(Model model, int residuals, double[] start) {
        Arguments.sameLength(lower.length, start.length, "start");
        int priors = 0;
        for (double sd : priorSd) {
            priors += sd < Double.POSITIVE_INFINITY ? 1 : 0;
        }
        if (residuals + priors < lower.length) {
            throw new IllegalArgumentException("a fit of " + lower.length + " parameters needs as many residuals and"
                    + " priors, found " + residuals + " and " + priors);
        }
        double[] at = new double[start.length];
        for (int j = 0; j < at.length; j++) {
            at[j] = clamp(j, Require.finite(start[j], "start of parameter " + j, ""));
        }
        return new LevenbergMarquardt(this, model, residuals, priors, at).run();
    }

    /**
     * Fits from several starts and returns the fit of the lowest χ² among those that converged (among all where none
     * did). A single start can converge in good order at a wrong place; {@link Fit#agreeingStarts()} tells how many
     * came to the same minimum.
     */
    public Fit fit(Model model, int residuals, Collection<double[]> starts) {
        Fit best = null;
        double[] chiSquares = new double[starts.size()];
        int count = 0;
        for (double[] start : starts) {
            Fit fit = fit(model, residuals, start);
            chiSquares[count++] = fit.converged() ? fit.chiSquare() : Double.NaN;
            if (best == null
                    || (fit.converged() && !best.converged())
                    || (fit.converged() == best.converged() && fit.chiSquare() < best.chiSquare())) {
                best = fit;
            }
        }
        if (best == null) {
            throw new IllegalArgumentException("no starts given");
        }
        int agreeing = 0;
        for (double chi : chiSquares) {
            // Same to a millionth, or, for a fit that goes through every point, the same nothing.
            agreeing += chi - best.chiSquare() <= 1e-6 * best.chiSquare() + Double.MIN_NORMAL ? 1 : 0;
        }
        return best.withStarts(count, agreeing);
    }

    int parameters() {
        return lower.length;
    }

    double lower(int j) {
        return lower[j];
    }

    double upper(int j) {
        return upper[j];
    }

    double priorMean(int j) {
        return priorMean[j];
    }

    /** Infinite where there is no prior. */
    double priorSd(int j) {
        return priorSd[j];
    }

    double tolerance() {
        return tolerance;
    }

    int maxEvaluations() {
        return maxEvaluations;
    }

    double clamp(int j, double value) {
        return Math.max(lower[j], Math.min(upper[j], value));
    }
}
