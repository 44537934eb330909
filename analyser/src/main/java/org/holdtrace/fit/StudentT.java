package org.holdtrace.fit;

/**
 * Student's t distribution for real degrees of freedom from 0.01 upwards, infinity included.
 *
 * <p>Own code for the same reason as {@link Normal}: one quantile from Apache Commons Math costs about 60 ms of class
 * loading.
 */
public final class StudentT {
    /** Newton needs some ten; more are only rounding at very many degrees of freedom. */
    private static final int MOST_STEPS = 40;

    /** From here on the continued fraction needs a thousand terms, and the expansion is exact to rounding. */
    private static final double MANY = 1e5;

    private StudentT() {}

    /** Probability density at {@code t}. */
    public static double density(double t, double degreesOfFreedom) {
        double nu = checked(degreesOfFreedom);
        if (nu == Double.POSITIVE_INFINITY) {
            return Normal.density(t);
        }
        double scale = SpecialFunctions.gammaRatioHalf(0.5 * nu) / Math.sqrt(Math.PI * nu);
        return scale * Math.exp(-0.5 * (nu + 1) * Math.log1p(t * t / nu));
    }

    /** Probability of a value of at most {@code t}. */
    public static double cumulative(double t, double degreesOfFreedom) {
        double nu = checked(degreesOfFreedom);
        if (Double.isNaN(t)) {
            return Double.NaN;
        }
        double tail = upperTail(Math.abs(t), nu);
        return t < 0 ? tail : 1 - tail;
    }

    /**
     * The value that is exceeded with probability 1 − {@code p}.
     *
     * @param p probability strictly between 0 and 1
     * @param degreesOfFreedom 0.01 or more, may be infinite
     */
    public static double quantile(double p, double degreesOfFreedom) {
        double nu = checked(degreesOfFreedom);
        Arguments.probability(p, "p");
        if (nu == Double.POSITIVE_INFINITY) {
            return Normal.quantile(p);
        }
        if (p == 0.5) {
            return 0;
        }
        double tail = Math.min(p, 1 - p);
        double t = tail > 0.25 ? nearCentre(tail, nu) : inTail(tail, nu);
        return p < 0.5 ? -t : t;
    }

    /**
     * Half-width of the symmetric interval that holds the fraction {@code coverage}, in standard uncertainties: the
     * factor k of the GUM (JCGM 100:2008, G.3 and Table G.2).
     */
    public static double coverageFactor(double coverage, double degreesOfFreedom) {
        Arguments.probability(coverage, "coverage");
        return -quantile(0.5 * (1 - coverage), degreesOfFreedom);
    }

    private static double checked(double nu) {
        if (!(nu >= 0.01)) {
            throw new IllegalArgumentException("degrees of freedom must be at least 0.01, were " + nu);
        }
        return nu;
    }

    /** P(T > t) for t at least 0, by the incomplete beta function from the side where its fraction converges. */
    private static double upperTail(double t, double nu) {
        if (nu == Double.POSITIVE_INFINITY) {
            return Normal.cumulative(-t);
        }
        if (t == 0) {
            return 0.5;
        }
        if (t == Double.POSITIVE_INFINITY) {
            return 0;
        }
        double square = t * t;
        if (nu > MANY) {
            return Normal.cumulative(-normalised(square, nu));
        }
        double a = 0.5 * nu;
        double x = nu / (nu + square);
        double oneMinusX = square / (nu + square);
        // x^a (1-x)^½ / B(a, ½), with x^a taken through log1p so that a large nu keeps its digits
        double power = Math.exp(-a * Math.log1p(square / nu))
                * Math.sqrt(oneMinusX)
                * SpecialFunctions.gammaRatioHalf(a)
                / Math.sqrt(Math.PI);
        if (x < (a + 1) / (a + 2.5)) {
            return 0.5 * power * SpecialFunctions.betaFraction(x, a, 0.5) / a;
        }
        return 0.5 - power * SpecialFunctions.betaFraction(oneMinusX, 0.5, a);
    }

    /**
     * The standard normal value that is exceeded as often as t. First correction of the expansion of G. W. Hill,
     * "Algorithm 395: Student's t-distribution", Comm. ACM 13 (1970) 617-619; the next is of order 1/nu⁴.
     */
    private static double normalised(double square, double nu) {
        double a = nu - 0.5;
        double y = a * Math.log1p(square / nu);
        return Math.sqrt(y) * (1 + (y + 3) / (48 * a * a));
    }

    /** Newton from 0: the tail is convex there, so it comes to the root from one side. */
    private static double nearCentre(double tail, double nu) {
        double t = 0;
        for (int i = 0; i < MOST_STEPS; i++) {
            double step = (upperTail(t, nu) - tail) / density(t, nu);
            t += step;
            if (Math.abs(step) <= 1e-14 * t) {
                break;
            }
        }
        return t;
    }

    /** Newton in logarithms of both, where the tail of a power law is straight. */
    private static double inTail(double tail, double nu) {
        double t = -Normal.quantile(tail);
        for (int i = 0; i < MOST_STEPS; i++) {
            double found = upperTail(t, nu);
            double step = found * Math.log(found / tail) / (t * density(t, nu));
            t *= Math.exp(Math.min(step, 50));
            if (Math.abs(step) <= 1e-14) {
                break;
            }
        }
        return t;
    }
}
