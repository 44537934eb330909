package org.holdtrace.fit;

/** The incomplete gamma and beta functions behind chi-square and Student's t. */
@SuppressWarnings("FloatingPointLiteralPrecision") // coefficients stand as they were published
final class SpecialFunctions {
    private static final double EPSILON = 1e-16;
    private static final double TINY = 1e-300;
    private static final int MOST_TERMS = 100_000;

    /** Lanczos approximation with g = 7 and nine terms (P. Godfrey 2001, from memory); good to 1e-15 relative. */
    private static final double[] LANCZOS = {
        0.99999999999980993,
        676.5203681218851,
        -1259.1392167224028,
        771.32342877765313,
        -176.61502916214059,
        12.507343278686905,
        -0.13857109526572012,
        9.9843695780195716e-6,
        1.5056327351493116e-7
    };

    private SpecialFunctions() {}

    /** ln Γ(x) for x above 0. */
    static double logGamma(double x) {
        if (x < 0.5) {
            return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
        }
        if (x > 100) {
            // Stirling; the next term is below 1e-17 of the result here.
            double s = 1 / (x * x);
            return (x - 0.5) * Math.log(x)
                    - x
                    + 0.5 * Math.log(2 * Math.PI)
                    + (1.0 / 12 - s * (1.0 / 360 - s * (1.0 / 1260 - s / 1680))) / x;
        }
        double sum = LANCZOS[0];
        for (int i = 1; i < LANCZOS.length; i++) {
            sum += LANCZOS[i] / (x - 1 + i);
        }
        double t = x + 6.5;
        return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum);
    }

    /**
     * Γ(a + ½)/Γ(a) without the cancellation of two large logarithms.
     *
     * <p>Asymptotic series of the ratio of two gamma functions (NIST Digital Library of Mathematical Functions
     * 5.11.13, coefficients recomputed from it).
     */
    static double gammaRatioHalf(double a) {
        if (a < 100) {
            return Math.exp(logGamma(a + 0.5) - logGamma(a));
        }
        double i = 1 / a;
        return Math.sqrt(a)
                * (1 + i * (-1.0 / 8 + i * (1.0 / 128 + i * (5.0 / 1024 + i * (-21.0 / 32768 - i * 399.0 / 262144)))));
    }

    /** Q(a, x) = Γ(a, x)/Γ(a), the upper regularised incomplete gamma function; a above 0, x at least 0. */
    static double gammaUpper(double a, double x) {
        if (x <= 0) {
            return 1;
        }
        if (x == Double.POSITIVE_INFINITY) {
            return 0;
        }
        double prefactor = Math.exp(a * Math.log(x) - x - logGamma(a));
        if (x < a + 1) {
            double term = 1 / a;
            double sum = term;
            for (int n = 1; n < MOST_TERMS && term > sum * EPSILON; n++) {
                term *= x / (a + n);
                sum += term;
            }
            return 1 - prefactor * sum;
        }
        double b = x + 1 - a;
        double c = 1 / TINY;
        double d = 1 / b;
        double h = d;
        for (int n = 1; n < MOST_TERMS; n++) {
            double an = -n * (n - a);
            b += 2;
            d = 1 / away(an * d + b);
            c = away(b + an / c);
            double delta = c * d;
            h *= delta;
            if (Math.abs(delta - 1) < 4 * EPSILON) {
                break;
            }
        }
        return prefactor * h;
    }

    /**
     * The continued fraction of the regularised incomplete beta function (DLMF 8.17.22) by Lentz's method, without its
     * prefactor; converges fast for x below (a + 1)/(a + b + 2).
     */
    static double betaFraction(double x, double a, double b) {
        double c = 1;
        double d = 1 / away(1 - (a + b) * x / (a + 1));
        double h = d;
        for (int m = 1; m < MOST_TERMS; m++) {
            double even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
            d = 1 / away(1 + even * d);
            c = away(1 + even / c);
            h *= d * c;
            double odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
            d = 1 / away(1 + odd * d);
            c = away(1 + odd / c);
            double delta = d * c;
            h *= delta;
            if (Math.abs(delta - 1) < 4 * EPSILON) {
                break;
            }
        }
        return h;
    }

    private static double away(double v) {
        return Math.abs(v) < TINY ? TINY : v;
    }
}
