package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.Scale;
import org.apache.commons.math3.distribution.ChiSquaredDistribution;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.apache.commons.math3.distribution.TDistribution;
import org.apache.commons.math3.special.Gamma;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Distributions against 50-digit values (mpmath, given beside each) and against Apache Commons Math 3.6.1. */
class DistributionsTest {
    /** mpmath, 50 digits: erfc(-z/sqrt(2))/2. Far out, the rounding of the exponent z²/2 is what is left. */
    @ParameterizedTest
    @CsvSource({
        "-20,  2.7536241186062337e-89",
        "-8,   6.22096057427178412e-16",
        "-5,   2.86651571879193912e-7",
        "-2.5, 0.00620966532577613517",
        "-1,   0.158655253931457051",
        "-0.3, 0.382088577811047367",
        "0.5,  0.691462461274013104",
        "1.5,  0.933192798731141934",
        "3,    0.998650101968369905"
    })
    void normalProbabilityAgreesWithFiftyDigits(double z, double expected) {
        assertEquals(expected, Normal.cumulative(z), 2e-16 * (5 + z * z) * expected);
    }

    /** mpmath, 50 digits: the same function inverted by bisection. */
    @ParameterizedTest
    @CsvSource({
        "1e-300, -37.0470962993611992",
        "1e-20,  -9.26234008979840757",
        "1e-12,  -7.03448382530113193",
        "1e-6,   -4.75342430882289895",
        "0.001,  -3.09023230616781354",
        "0.025,  -1.95996398454005424",
        "0.05,   -1.64485362695147271",
        "0.0749, -1.44023826752796362",
        "0.0751, -1.43882539275253998",
        "0.3,    -0.524400512708040784",
        "0.45,   -0.125661346855074034"
    })
    void normalQuantileAgreesWithFiftyDigits(double p, double expected) {
        assertEquals(expected, Normal.quantile(p), 2e-15 * Math.abs(expected));
    }

    @Test
    void normalEndsAreInfiniteAndNonsenseIsRefused() {
        assertEquals(Double.NEGATIVE_INFINITY, Normal.quantile(0));
        assertEquals(Double.POSITIVE_INFINITY, Normal.quantile(1));
        assertEquals(0, Normal.quantile(0.5));
        assertThrows(IllegalArgumentException.class, () -> Normal.quantile(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> Normal.quantile(-1e-9));
        assertTrue(Double.isNaN(Normal.cumulative(Double.NaN)));
    }

    @Property
    void normalAgreesWithTheLibrary(@ForAll @Scale(12) @DoubleRange(min = -8, max = 8) double z) {
        NormalDistribution library = new NormalDistribution(null, 0, 1);
        double p = library.cumulativeProbability(z);
        assertEquals(p, Normal.cumulative(z), 1e-12 * p);
        assertEquals(library.density(z), Normal.density(z), 1e-13);
        if (p < 0.999) {
            assertEquals(z, Normal.quantile(Normal.cumulative(z)), 1e-12);
        }
    }

    /** mpmath, 50 digits: half the regularised incomplete beta function of ν/(ν + t²); ν, t, P(T > t). */
    @ParameterizedTest
    @CsvSource({
        "0.5, 0.001, 0.49973032383424382",
        "0.5, 6, 0.13065468873499942",
        "1, 2, 0.14758361765043327",
        "3, 0.5, 0.3257239824240755",
        "3, 6, 0.0046363574461423337",
        "30, 2, 0.027312522481491552",
        "30, 6, 6.9713843836023714e-7",
        "1000, 0.001, 0.49960115750922637",
        "1000, 6, 1.3776845866887346e-9",
        "99999, 2, 0.022751481742251236",
        "99999, 6, 9.8996476162176596e-10",
        "100001, 0.5, 0.30853808882170807",
        "100001, 6, 9.89964693980674e-10",
        "1e7, 0.001, 0.4996010577960625",
        "1e7, 6, 9.8662136668389176e-10"
    })
    void studentTAgreesWithFiftyDigits(double nu, double t, double expected) {
        assertEquals(expected, StudentT.cumulative(-t, nu), 2e-12 * expected);
        assertEquals(-t, StudentT.quantile(expected, nu), 2e-12 * t + 1e-14 / t);
    }

    @Property
    void studentTAgreesWithTheLibrary(
            @ForAll @Scale(12) @DoubleRange(min = -30, max = 30) double t,
            @ForAll @Scale(12) @DoubleRange(min = 0.5, max = 300) double nu) {
        TDistribution library = new TDistribution(null, nu);
        // Below a hundredth the library loses t² beside ν; the density's mean is its value at t/√3 there
        double p = Math.abs(t) < 0.01
                ? 0.5 + t * StudentT.density(t / Math.sqrt(3), nu)
                : library.cumulativeProbability(t);
        assertEquals(p, StudentT.cumulative(t, nu), 1e-12);
        assertEquals(library.density(t), StudentT.density(t, nu), 1e-12);
    }

    @Property
    void studentTQuantileUndoesTheDistribution(
            @ForAll @Scale(12) @DoubleRange(min = 1e-9, max = 0.5) double p,
            @ForAll @Scale(12) @DoubleRange(min = 0.3, max = 1e7) double nu) {
        double t = StudentT.quantile(p, nu);
        // a continued fraction of hundreds of terms leaves this much rounding
        assertEquals(p, StudentT.cumulative(t, nu), 2e-11 * p);
        assertEquals(-t, StudentT.quantile(1 - p, nu), 1e-6 * Math.abs(t) + 1e-12);
    }

    /** Closed forms: one degree of freedom is the Cauchy distribution; two, t = (2p − 1)/√(2p(1 − p)). */
    @Property
    void studentTOfOneAndTwoDegreesOfFreedomIsKnownInClosedForm(
            @ForAll @Scale(12) @DoubleRange(min = 1e-6, max = 0.999) double p) {
        double cauchy = -1 / Math.tan(Math.PI * p);
        assertEquals(cauchy, StudentT.quantile(p, 1), 1e-11 * Math.abs(cauchy) + 1e-12);
        double two = (2 * p - 1) / Math.sqrt(2 * p * (1 - p));
        assertEquals(two, StudentT.quantile(p, 2), 1e-11 * Math.abs(two) + 1e-12);
    }

    /**
     * GU-08: coverage factors of JCGM 100:2008, Table G.2. Rows 16 and infinity were read in the table for 95, 95.45 and 99 %;
     * the other entries are recomputed from Student's t and rounded as the table is. Half a unit of the last digit.
     */
    @ParameterizedTest
    @CsvSource({
        "1,        1.84, 6.31, 12.71, 13.97, 63.66, 235.8",
        "2,        1.32, 2.92,  4.30,  4.53,  9.92, 19.21",
        "3,        1.20, 2.35,  3.18,  3.31,  5.84,  9.22",
        "5,        1.11, 2.02,  2.57,  2.65,  4.03,  5.51",
        "10,       1.05, 1.81,  2.23,  2.28,  3.17,  3.96",
        "16,       1.03, 1.75,  2.12,  2.17,  2.92,  3.54",
        "20,       1.03, 1.72,  2.09,  2.13,  2.85,  3.42",
        "50,       1.01, 1.68,  2.01,  2.05,  2.68,  3.16",
        "Infinity, 1.00, 1.64,  1.96,  2.00,  2.58,  3.00"
    })
    void coverageFactorsAreThoseOfTheGum(
            double nu, double k68, double k90, double k95, double k9545, double k99, double k9973) {
        assertEquals(k68, StudentT.coverageFactor(0.6827, nu), 0.0051);
        assertEquals(k90, StudentT.coverageFactor(0.90, nu), 0.0051);
        assertEquals(k95, StudentT.coverageFactor(0.95, nu), 0.0051);
        assertEquals(k9545, StudentT.coverageFactor(0.9545, nu), 0.0051);
        assertEquals(k99, StudentT.coverageFactor(0.99, nu), 0.0051);
        assertEquals(k9973, StudentT.coverageFactor(0.9973, nu), nu == 1 ? 0.051 : 0.0051);
    }

    @Property
    void chiSquareAgreesWithTheLibrary(
            @ForAll @Scale(12) @DoubleRange(min = 0, max = 400) double x,
            @ForAll @Scale(12) @DoubleRange(min = 0.5, max = 200) double nu) {
        double expected = 1 - new ChiSquaredDistribution(null, nu).cumulativeProbability(x);
        assertEquals(expected, ChiSquare.upperTail(x, nu), 2e-12);
    }

    /** Closed form for two degrees of freedom: exp(−x/2). */
    @Property
    void chiSquareOfTwoDegreesOfFreedomIsAnExponential(@ForAll @Scale(12) @DoubleRange(min = 0, max = 1000) double x) {
        assertEquals(Math.exp(-x / 2), ChiSquare.upperTail(x, 2), 1e-13 * (1 + x) * Math.exp(-x / 2) + 1e-16);
    }

    @Property
    void logarithmOfTheGammaFunctionAgreesWithTheLibrary(
            @ForAll @Scale(12) @DoubleRange(min = 0.01, max = 1e6) double x) {
        double expected = Gamma.logGamma(x);
        assertEquals(expected, SpecialFunctions.logGamma(x), 1e-13 * Math.abs(expected) + 1e-14);
    }
}
