package org.holdtrace.fit;

import java.util.Arrays;

/** What a least-squares fit found. Immutable. */
public final class Fit {
    /** How a fit ended. */
    public enum Status {
        /** At a minimum inside the bounds. */
        CONVERGED,
        /** At the lowest point the bounds allow; a parameter stands at its bound and its uncertainty is one-sided. */
        CONVERGED_AT_BOUND,
        /** Converged, but the data leave at least one combination of parameters open: there is no covariance. */
        UNDETERMINED,
        /** The allowed evaluations were used up. */
        NOT_CONVERGED,
        /** The residuals at the start are not finite numbers. */
        NOT_FINITE
    }

    /** What the residuals were divided by. */
    public enum Weights {
        /** Their true standard deviations: the covariance stands as it is. */
        ABSOLUTE,
        /** Something proportional to them, such as 1: the covariance is scaled by χ²/ν. */
        RELATIVE
    }

    private final Status status;
    private final double[] parameters;
    private final double[] covariance;
    private final double chiSquare;
    private final int degreesOfFreedom;
    private final int evaluations;
    private final double gradientCosine;
    private final int starts;
    private final int agreeingStarts;

    Fit(
            Status status,
            double[] parameters,
            double[] covariance,
            double chiSquare,
            int degreesOfFreedom,
            int evaluations,
            double gradientCosine,
            int starts,
            int agreeingStarts) {
        this.status = status;
        this.parameters = parameters;
        this.covariance = covariance;
        this.chiSquare = chiSquare;
        this.degreesOfFreedom = degreesOfFreedom;
        this.evaluations = evaluations;
        this.gradientCosine = gradientCosine;
        this.starts = starts;
        this.agreeingStarts = agreeingStarts;
    }

    Fit withStarts(int tried, int agreeing) {
        return new Fit(
                status,
                parameters,
                covariance,
                chiSquare,
                degreesOfFreedom,
                evaluations,
                gradientCosine,
                tried,
                agreeing);
    }

    /** How it ended. */
    public Status status() {
        return status;
    }

    /** Whether it came to rest at a minimum with a covariance, inside the bounds or at one. */
    public boolean converged() {
        return status == Status.CONVERGED || status == Status.CONVERGED_AT_BOUND;
    }

    /** Number of parameters. */
    public int size() {
        return parameters.length;
    }

    /** Parameter {@code j}. */
    public double parameter(int j) {
        return parameters[j];
    }

    /** All parameters, a copy. */
    public double[] parameters() {
        return parameters.clone();
    }

    /** χ² at the minimum, the priors' share included. */
    public double chiSquare() {
        return chiSquare;
    }

    /** Residuals plus priors minus parameters; 0 for a fit through every point. */
    public int degreesOfFreedom() {
        return degreesOfFreedom;
    }

    /** √(χ²/ν), the residual standard deviation; NaN without degrees of freedom. */
    public double residualSd() {
        return degreesOfFreedom > 0 ? Math.sqrt(chiSquare / degreesOfFreedom) : Double.NaN;
    }

    /** Covariance of parameters {@code i} and {@code j}; NaN where it is not to be had. */
    public double covariance(int i, int j, Weights weights) {
        double scale = weights == Weights.RELATIVE ? chiSquare / degreesOfFreedom : 1;
        return covariance[i * parameters.length + j] * (degreesOfFreedom == 0 && scale != 1 ? Double.NaN : scale);
    }

    /** The covariance matrix, row by row, a copy. */
    public double[] covariance(Weights weights) {
        double[] all = new double[covariance.length];
        for (int i = 0; i < parameters.length; i++) {
            for (int j = 0; j < parameters.length; j++) {
                all[i * parameters.length + j] = covariance(i, j, weights);
            }
        }
        return all;
    }

    /** Standard uncertainty of parameter {@code j}; NaN where it is not to be had. */
    public double standardUncertainty(int j, Weights weights) {
        return Math.sqrt(covariance(j, j, weights));
    }

    /** Evaluations of the residuals, those for differences not counted. */
    public int evaluations() {
        return evaluations;
    }

    /**
     * Largest cosine of the angle between the residuals and a free column of the Jacobian: 0 at an exact minimum. Means
     * nothing where the model goes through every point, since the residuals are then rounding.
     */
    public double gradientCosine() {
        return gradientCosine;
    }

    /** How many starts were tried. */
    public int starts() {
        return starts;
    }

    /** How many of them converged to this χ². */
    public int agreeingStarts() {
        return agreeingStarts;
    }

    @Override
    public String toString() {
        return "Fit[" + status + ", parameters " + Arrays.toString(parameters) + ", chi-square " + chiSquare + ", "
                + degreesOfFreedom + " degrees of freedom, " + evaluations + " evaluations]";
    }
}
