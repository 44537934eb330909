package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** Worked examples of JCGM 100:2008 (GUM) and others; where each number comes from stands beside it. */
class UncertaintyTest {
    private static final double INFINITE = Double.POSITIVE_INFINITY;

    /** cᵢ·u(xᵢ), by sensitivities over a thousandth of each u. */
    private static double[] contributions(Measurand f, double[] inputs, double[] u) {
        double[] c = Uncertainty.gradient(
                f, inputs, Arrays.stream(u).map(v -> 1e-3 * v).toArray());
        for (int i = 0; i < c.length; i++) {
            c[i] *= u[i];
        }
        return c;
    }

    private static double combined(double... contributions) {
        return Math.sqrt(Arrays.stream(contributions).map(c -> c * c).sum());
    }

    private static double freedom(double[] contributions, double... degreesOfFreedom) {
        return Uncertainty.effectiveDegreesOfFreedom(
                Arrays.stream(contributions).map(c -> c * c).toArray(), degreesOfFreedom);
    }

    /** GU-01: GUM H.1, end gauge, results as printed there and repeated in three independent test suites. */
    @Test
    void theEndGaugeOfTheGumComesOutAsPrinted() {
        // l_S, d, alpha_S, theta, delta-alpha, delta-theta; lengths in nm, temperatures in degC. The last two are
        // rectangular, ±1e-6 1/K and ±0.05 K; the table prints 0.58e-6 and 0.029.
        Measurand length = x -> x[0] + x[1] - x[0] * (x[4] * x[3] + x[2] * x[5]);
        double[] inputs = {50_000_623, 215, 11.5e-6, -0.1, 0, 0};
        double[] u = {25, 9.7, 1.2e-6, 0.41, 1e-6 / Math.sqrt(3), 0.05 / Math.sqrt(3)};
        assertEquals(50_000_838, length.value(inputs), 0.5);
        double[] c = contributions(length, inputs, u);
        double[] printed = {25, 9.7, 0, 0, 2.9, 16.6};
        for (int i = 0; i < printed.length; i++) {
            assertEquals(printed[i], Math.abs(c[i]), 0.05, "contribution " + i);
        }
        assertEquals(32, combined(c), 0.5);
        double nu = freedom(c, 18, 25.6, INFINITE, INFINITE, 50, 2);
        assertEquals(16.7, nu, 0.1); // 16.76 without the rounding of the parts to 0.1 nm
        assertEquals(2.92, StudentT.coverageFactor(0.99, Math.floor(nu)), 0.005);
        // 2.92 times the unrounded 31.7 nm is 92.5 nm; the GUM goes on with 32 nm
        assertEquals(93, StudentT.coverageFactor(0.99, Math.floor(nu)) * combined(c), 0.6);
    }

    /** GU-02: GUM H.1.3.2: u(d) from three parts. Result from a public test suite, inputs from memory. */
    @Test
    void theDifferenceOfTheEndGaugesHasTheUncertaintyOfTheGum() {
        double[] parts = {5.8, 3.9, 6.7};
        assertEquals(9.7, combined(parts), 0.05);
        // The GUM rounds u(d) to 9.7 nm before it takes the fourth power; without that it would print 25.4
        double rounding = Math.pow(9.7 / combined(parts), 4);
        assertEquals(25.6, freedom(parts, 24, 5, 8) * rounding, 0.05);
    }

    /** GU-04, GU-05: GUM H.2: results from two public test suites, data from memory; tolerance 0.001 as those suites have. */
    @Test
    void resistanceReactanceAndImpedanceComeOutAsInTheGum() {
        double[] mean = {4.9990, 19.6610e-3, 1.04446};
        double[] u = {0.0032, 0.0095e-3, 0.00075};
        double[][] correlation = {{1, -0.36, 0.86}, {-0.36, 1, -0.65}, {0.86, -0.65, 1}};
        Measurand[] f = {x -> x[0] / x[1] * Math.cos(x[2]), x -> x[0] / x[1] * Math.sin(x[2]), x -> x[0] / x[1]};
        double[] printed = {127.732, 219.847, 254.260};
        double[] printedU = {0.071, 0.295, 0.236};
        for (int a = 0; a < 3; a++) {
            assertEquals(printed[a], f[a].value(mean), 0.001);
            double[] c = contributions(f[a], mean, u);
            double variance = 0;
            for (int i = 0; i < 3; i++) {
                for (int j = 0; j < 3; j++) {
                    variance += c[i] * c[j] * correlation[i][j];
                }
            }
            // Means, uncertainties and correlations are the GUM's rounded ones (H.2, table 2): a percent.
            assertEquals(printedU[a], Math.sqrt(variance), 0.02 * printedU[a]);
        }
    }

    /** GU-06: a public uncertainty calculator's test suite (Suncal): 0.57 with 9 degrees of freedom and 0.25 with infinity. */
    @Test
    void effectiveDegreesOfFreedomAgreeWithAPublicCalculator() {
        assertEquals(12.8, freedom(new double[] {0.57, 0.25}, 9, INFINITE), 0.05);
    }

    /** GU-07: GUM G.4.1, example (from memory, recomputed): relative 0.25 %, 0.57 %, 0.82 % of 10, 5 and 15 readings. */
    @Test
    void theProductOfThreeInputsHasTheExpandedUncertaintyOfTheGum() {
        double[] parts = {0.25, 0.57, 0.82};
        assertEquals(1.03, combined(parts), 0.005);
        double nu = freedom(parts, 9, 4, 14);
        assertEquals(19.0, nu, 0.05);
        // 18.999 by formula; the printed 19.0 is what the example goes on with
        assertEquals(2.2, StudentT.coverageFactor(0.95, Math.rint(nu)) * combined(parts), 0.05);
    }

    /** GU-14: NIST TN 1900, example E13, as a public calculator's test suite has it: thermal expansion of copper. */
    @Test
    void thermalExpansionOfCopperAgreesWithNist() {
        Measurand alpha = x -> (x[1] - x[0]) / (x[0] * (x[3] - x[2]));
        double[] inputs = {1.4999, 1.5021, 288.15, 373.10};
        assertEquals(1.7266e-5, alpha.value(inputs), 0.5e-9);
        assertEquals(1.76e-6, combined(contributions(alpha, inputs, new double[] {1e-4, 2e-4, 0.02, 0.05})), 0.01e-6);
    }

    /** GU-16: product rule by hand: 5 %, 8 % and 2 % give √(25 + 64 + 4) % = 9.64365 %; leak 4.6154e-3 mL/min. */
    @Test
    void relativeUncertaintiesOfAProductAddInSquares() {
        Measurand q = x -> x[0] * x[1] / x[2];
        double[] inputs = {150, 0.4, 13_000};
        assertEquals(4.6154e-3, q.value(inputs), 0.5e-7);
        assertEquals(4.4509e-4, combined(contributions(q, inputs, new double[] {7.5, 0.008, 1040})), 1e-8);
    }

    @Test
    void exactContributionsLeaveNothingToJudge() {
        assertEquals(INFINITE, freedom(new double[] {1, 2}, INFINITE, INFINITE));
        assertThrows(IllegalArgumentException.class, () -> freedom(new double[] {1}, 0));
        assertThrows(IllegalArgumentException.class, () -> freedom(new double[] {1}, Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> freedom(new double[] {1, 1}, 3));
    }
}
