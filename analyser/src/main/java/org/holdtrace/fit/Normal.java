package org.holdtrace.fit;

/**
 * The standard normal distribution.
 *
 * <p>Own code, since the library's costs tens of milliseconds of class loading in a process that should take no more
 * than a few hundred; the tests hold it to Apache Commons Math and to 50-digit values.
 */
@SuppressWarnings("FloatingPointLiteralPrecision") // coefficients stand as they were published
public final class Normal {
    private static final double SQRT_HALF = Math.sqrt(0.5);
    private static final double LOG_SQRT_TWO_PI = 0.5 * Math.log(2 * Math.PI);
    private static final double SQRT_PI_INVERSE = 1 / Math.sqrt(Math.PI);

    // W. J. Cody, "Rational Chebyshev approximations for the error function", Math. Comp. 23 (1969) 631-637:
    // erf on [0, 0.46875], erfc on (0.46875, 4] and above 4, about 18 significant digits.
    private static final double[] ERF_NUMERATOR = {
        1.85777706184603153e-1,
        3.16112374387056560e0,
        1.13864154151050156e2,
        3.77485237685302021e2,
        3.20937758913846947e3
    };
    private static final double[] ERF_DENOMINATOR = {
        1, 2.36012909523441209e1, 2.44024637934444173e2, 1.28261652607737228e3, 2.84423683343917062e3
    };
    private static final double[] MIDDLE_NUMERATOR = {
        2.15311535474403846e-8,
        5.64188496988670089e-1,
        8.88314979438837594e0,
        6.61191906371416295e1,
        2.98635138197400131e2,
        8.81952221241769090e2,
        1.71204761263407058e3,
        2.05107837782607147e3,
        1.23033935479799725e3
    };
    private static final double[] MIDDLE_DENOMINATOR = {
        1,
        1.57449261107098347e1,
        1.17693950891312499e2,
        5.37181101862009858e2,
        1.62138957456669019e3,
        3.29079923573345963e3,
        4.36261909014324716e3,
        3.43936767414372164e3,
        1.23033935480374942e3
    };
    private static final double[] FAR_NUMERATOR = {
        1.63153871373020978e-2,
        3.05326634961232344e-1,
        3.60344899949804439e-1,
        1.25781726111229246e-1,
        1.60837851487422766e-2,
        6.58749161529837803e-4
    };
    private static final double[] FAR_DENOMINATOR = {
        1,
        2.56852019228982242e0,
        1.87295284992346725e0,
        5.27905102951428412e-1,
        6.05183413124413191e-2,
        2.33520497626869185e-3
    };

    // M. J. Wichura, "Algorithm AS 241: The percentage points of the normal distribution", Appl. Statist. 37 (1988)
    // 477-484, routine PPND16, about 16 significant digits. Highest power first.
    private static final double[] CENTRE_NUMERATOR = {
        2.5090809287301226727e3,
        3.3430575583588128105e4,
        6.7265770927008700853e4,
        4.5921953931549871457e4,
        1.3731693765509461125e4,
        1.9715909503065514427e3,
        1.3314166789178437745e2,
        3.3871328727963666080e0
    };
    private static final double[] CENTRE_DENOMINATOR = {
        5.2264952788528545610e3,
        2.8729085735721942674e4,
        3.9307895800092710610e4,
        2.1213794301586595867e4,
        5.3941960214247511077e3,
        6.8718700749205790830e2,
        4.2313330701600911252e1,
        1
    };
    private static final double[] NEAR_TAIL_NUMERATOR = {
        7.74545014278341407640e-4,
        2.27238449892691845833e-2,
        2.41780725177450611770e-1,
        1.27045825245236838258e0,
        3.64784832476320460504e0,
        5.76949722146069140550e0,
        4.63033784615654529590e0,
        1.42343711074968357734e0
    };
    private static final double[] NEAR_TAIL_DENOMINATOR = {
        1.05075007164441684324e-9,
        5.47593808499534494600e-4,
        1.51986665636164571966e-2,
        1.48103976427480074590e-1,
        6.89767334985100004550e-1,
        1.67638483018380384940e0,
        2.05319162663775882187e0,
        1
    };
    private static final double[] FAR_TAIL_NUMERATOR = {
        2.01033439929228813265e-7,
        2.71155556874348757815e-5,
        1.24266094738807843860e-3,
        2.65321895265761230930e-2,
        2.96560571828504891230e-1,
        1.78482653991729133580e0,
        5.46378491116411436990e0,
        6.65790464350110377720e0
    };
    private static final double[] FAR_TAIL_DENOMINATOR = {
        2.04426310338993978564e-15,
        1.42151175831644588870e-7,
        1.84631831751005468180e-5,
        7.86869131145613259100e-4,
        1.48753612908506148525e-2,
        1.36929880922735805310e-1,
        5.99832206555887937690e-1,
        1
    };

    private Normal() {}

    /** Probability density at {@code z}. */
    public static double density(double z) {
        return Math.exp(-0.5 * z * z - LOG_SQRT_TWO_PI);
    }

    /**
     * Probability of a value of at most {@code z}, to some 15 significant digits; in the lower tail the relative
     * error grows with the exponent, as z² · 1e-16.
     */
    public static double cumulative(double z) {
        return 0.5 * erfc(-z * SQRT_HALF);
    }

    /**
     * The value that is exceeded with probability 1 − {@code p}.
     *
     * @param p probability, 0 to 1; the ends give −∞ and ∞
     * @throws IllegalArgumentException where {@code p} is no probability
     */
    public static double quantile(double p) {
        if (!(p >= 0 && p <= 1)) {
            throw new IllegalArgumentException("p must lie between 0 and 1, was " + p);
        }
        double q = p - 0.5;
        if (Math.abs(q) <= 0.425) {
            double r = 0.180625 - q * q;
            return q * polynomial(CENTRE_NUMERATOR, r) / polynomial(CENTRE_DENOMINATOR, r);
        }
        double tail = q < 0 ? p : 1 - p;
        if (tail == 0) {
            return q < 0 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY;
        }
        double r = Math.sqrt(-Math.log(tail));
        double z = r <= 5
                ? polynomial(NEAR_TAIL_NUMERATOR, r - 1.6) / polynomial(NEAR_TAIL_DENOMINATOR, r - 1.6)
                : polynomial(FAR_TAIL_NUMERATOR, r - 5) / polynomial(FAR_TAIL_DENOMINATOR, r - 5);
        return q < 0 ? -z : z;
    }

    /** The complementary error function, 1 − erf(x). */
    static double erfc(double x) {
        double y = Math.abs(x);
        if (Double.isNaN(x)) {
            return Double.NaN;
        }
        if (y <= 0.46875) {
            double s = y * y;
            return 1 - x * polynomial(ERF_NUMERATOR, s) / polynomial(ERF_DENOMINATOR, s);
        }
        double upper;
        if (y <= 4) {
            upper = expMinusSquare(y) * polynomial(MIDDLE_NUMERATOR, y) / polynomial(MIDDLE_DENOMINATOR, y);
        } else if (y < 27) {
            double s = 1 / (y * y);
            double ratio = s * polynomial(FAR_NUMERATOR, s) / polynomial(FAR_DENOMINATOR, s);
            upper = expMinusSquare(y) / y * (SQRT_PI_INVERSE - ratio);
        } else {
            upper = 0;
        }
        return x < 0 ? 2 - upper : upper;
    }

    /** exp(−y²) with y split so that the square is exact: y² alone would lose digits of the exponent far out. */
    private static double expMinusSquare(double y) {
        double coarse = Math.rint(y * 16) / 16;
        return Math.exp(-coarse * coarse) * Math.exp(-(y - coarse) * (y + coarse));
    }

    /** Horner's rule, coefficient of the highest power first. */
    private static double polynomial(double[] c, double x) {
        double sum = c[0];
        for (int i = 1; i < c.length; i++) {
            sum = sum * x + c[i];
        }
        return sum;
    }
}
