package org.holdtrace.fit;

import static org.holdtrace.fit.Fit.Weights.ABSOLUTE;
import static org.holdtrace.fit.Fit.Weights.RELATIVE;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer.Optimum;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.util.Pair;
import org.junit.jupiter.api.Test;

class LeastSquaresTest {
    private static final double[] TRUTH = {2.0e6, 1.5e7, 60};

    /** A decay of pressure in Pa over 200 samples of 1 s with noise of 1e4 Pa. */
    private static double[] decay(long seed) {
        return decay(new Random(seed));
    }

    private static double[] decay(Random random) {
        double[] y = new double[200];
        for (int i = 0; i < y.length; i++) {
            y[i] = TRUTH[0] + TRUTH[1] * Math.exp(-i / TRUTH[2]) + 1e4 * random.nextGaussian();
        }
        return y;
    }

    private static LeastSquares.Model model(double[] y) {
        return (b, r) -> {
            for (int i = 0; i < r.length; i++) {
                r[i] = (b[0] + b[1] * Math.exp(-i / b[2]) - y[i]) / 1e4;
            }
        };
    }

    /** Apache Commons Math 3.6.1 with analytic derivatives on the same data. */
    @Property(tries = 25)
    void agreesWithTheLibrary(@ForAll long seed) {
        double[] y = decay(seed);
        Fit fit = LeastSquares.of(3).fit(model(y), y.length, new double[] {1e6, 1e7, 30});
        assertEquals(Fit.Status.CONVERGED, fit.status());
        Optimum library = new LevenbergMarquardtOptimizer()
                .optimize(new LeastSquaresBuilder()
                        .start(new double[] {1e6, 1e7, 30})
                        .target(new double[y.length])
                        .maxEvaluations(1000)
                        .maxIterations(1000)
                        .model(point -> {
                            double[] b = point.toArray();
                            double[] r = new double[y.length];
                            model(y).residuals(b, r);
                            double[][] j = new double[y.length][];
                            for (int i = 0; i < r.length; i++) {
                                double e = Math.exp(-i / b[2]);
                                j[i] = new double[] {1e-4, 1e-4 * e, 1e-4 * b[1] * e * i / (b[2] * b[2])};
                            }
                            return new Pair<>(new ArrayRealVector(r, false), new Array2DRowRealMatrix(j, false));
                        })
                        .build());
        for (int j = 0; j < 3; j++) {
            double sd = Math.sqrt(library.getCovariances(1e-14).getEntry(j, j));
            assertEquals(library.getPoint().getEntry(j), fit.parameter(j), 1e-5 * sd);
            assertEquals(sd, fit.standardUncertainty(j, ABSOLUTE), 1e-6 * sd);
        }
    }

    /** The standard deviation of what is found over many data sets is what each fit claims, within four of its own. */
    @Test
    void theClaimedUncertaintyIsThatOfManyRepetitions() {
        int runs = 400;
        double[] claimed = new double[3];
        double[] sum = new double[3];
        double[] square = new double[3];
        double chiSquare = 0;
        Random random = new Random(20_240_501); // one stream: neighbouring seeds of this generator are alike
        for (int s = 0; s < runs; s++) {
            double[] y = decay(random);
            Fit fit = LeastSquares.of(3).fit(model(y), y.length, TRUTH);
            for (int j = 0; j < 3; j++) {
                claimed[j] += fit.standardUncertainty(j, ABSOLUTE) / runs;
                double d = fit.parameter(j) - TRUTH[j];
                sum[j] += d;
                square[j] += d * d;
            }
            chiSquare += fit.chiSquare() / runs;
        }
        for (int j = 0; j < 3; j++) {
            double sd = Math.sqrt((square[j] - sum[j] * sum[j] / runs) / (runs - 1));
            assertEquals(1, sd / claimed[j], 4 / Math.sqrt(2.0 * (runs - 1)), "parameter " + j);
            assertEquals(0, sum[j] / runs, 4 * claimed[j] / Math.sqrt(runs), "bias of parameter " + j);
        }
        assertEquals(197, chiSquare, 4 * Math.sqrt(2.0 * 197 / runs));
    }

    /** By hand: three readings of mean 2 with sd 1 and a prior 5 ± 0.5 weigh 3 and 4; the variance is 1/7. */
    @Test
    void aPriorCountsAsOneMoreObservation() {
        Fit fit = LeastSquares.of(1).withPrior(0, 5, 0.5).fit(threeReadings(), 3, new double[] {0});
        assertEquals((3 * 2 + 4 * 5) / 7.0, fit.parameter(0), 1e-12);
        assertEquals(Math.sqrt(1 / 7.0), fit.standardUncertainty(0, ABSOLUTE), 1e-12);
        assertEquals(3, fit.degreesOfFreedom());
    }

    /** By hand: mean 2, χ² = 1 + 0 + 1, u = 1/√3 with true weights and times √(2/2) with relative ones. */
    @Test
    void weightsAreAbsoluteOrRelativeAsAsked() {
        Fit fit = LeastSquares.of(1).fit(threeReadings(), 3, new double[] {0});
        assertEquals(2, fit.chiSquare(), 1e-12);
        assertEquals(1, fit.residualSd(), 1e-12);
        assertEquals(Math.sqrt(1 / 3.0), fit.standardUncertainty(0, ABSOLUTE), 1e-12);
        Fit half = LeastSquares.of(1)
                .fit(
                        (b, r) -> {
                            threeReadings().residuals(b, r);
                            for (int i = 0; i < 3; i++) {
                                r[i] *= 0.5;
                            }
                        },
                        3,
                        new double[] {0});
        assertEquals(2 * Math.sqrt(1 / 3.0), half.standardUncertainty(0, ABSOLUTE), 1e-12);
        assertEquals(Math.sqrt(1 / 3.0), half.standardUncertainty(0, RELATIVE), 1e-12);
    }

    private static LeastSquares.Model threeReadings() {
        return (b, r) -> {
            r[0] = b[0] - 1;
            r[1] = b[0] - 2;
            r[2] = b[0] - 3;
        };
    }

    @Test
    void aBoundHoldsAndIsReported() {
        double[] y = decay(3);
        Fit fit = LeastSquares.of(3).withBounds(2, 1, 50).withBounds(0, 0, 1e9).fit(model(y), y.length, new double[] {
            -5, 1e7, 500
        });
        assertEquals(Fit.Status.CONVERGED_AT_BOUND, fit.status());
        assertEquals(50, fit.parameter(2));
        assertEquals(0, fit.standardUncertainty(2, ABSOLUTE));
        // With the time constant held, what is left is linear: the fit must equal the one of two parameters
        Fit two = LeastSquares.of(2)
                .fit((b, r) -> model(y).residuals(new double[] {b[0], b[1], 50}, r), y.length, new double[] {1e6, 1e7});
        assertEquals(two.chiSquare(), fit.chiSquare(), 1e-6 * two.chiSquare());
        assertEquals(two.parameter(0), fit.parameter(0), 1e-3 * two.standardUncertainty(0, ABSOLUTE));
        assertEquals(
                two.standardUncertainty(0, ABSOLUTE),
                fit.standardUncertainty(0, ABSOLUTE),
                1e-6 * two.standardUncertainty(0, ABSOLUTE));
    }

    @Test
    void aBoundThatDoesNotBindChangesNothing() {
        double[] y = decay(4);
        Fit free = LeastSquares.of(3).fit(model(y), y.length, new double[] {1e6, 1e7, 30});
        Fit bound = LeastSquares.of(3).withBounds(2, 1e-3, 1e4).fit(model(y), y.length, new double[] {1e6, 1e7, 9e3});
        assertEquals(Fit.Status.CONVERGED, bound.status());
        assertEquals(free.chiSquare(), bound.chiSquare(), 1e-9 * free.chiSquare());
    }

    /** A start at τ = −5 or 1e6 s ends in a straight line; several starts find the minimum and say how many agree. */
    @Test
    void severalStartsFindTheMinimumThatOneMisses() {
        double[] y = decay(5);
        List<double[]> starts =
                List.of(new double[] {1e6, 1e7, -5}, new double[] {1e6, 1e7, 30}, new double[] {1e6, 1e7, 200});
        Fit fit = LeastSquares.of(3).fit(model(y), y.length, starts);
        assertTrue(fit.converged());
        assertEquals(TRUTH[2], fit.parameter(2), 5 * fit.standardUncertainty(2, ABSOLUTE));
        assertEquals(3, fit.starts());
        assertTrue(fit.agreeingStarts() >= 2, fit.toString());
        assertTrue(ChiSquare.upperTail(fit.chiSquare(), fit.degreesOfFreedom()) > 1e-4);
    }

    @Test
    void whatTheDataLeaveOpenIsReportedAndNotInvented() {
        Fit fit = LeastSquares.of(2)
                .fit(
                        (b, r) -> {
                            for (int i = 0; i < r.length; i++) {
                                r[i] = b[0] + b[1] - i;
                            }
                        },
                        5,
                        new double[] {0, 0});
        assertEquals(Fit.Status.UNDETERMINED, fit.status());
        assertFalse(fit.converged());
        assertTrue(Double.isNaN(fit.standardUncertainty(0, ABSOLUTE)));
        assertEquals(2, fit.parameter(0) + fit.parameter(1), 1e-9);
        Fit told = LeastSquares.of(2)
                .withPrior(1, 0.5, 0.1)
                .fit(
                        (b, r) -> {
                            for (int i = 0; i < r.length; i++) {
                                r[i] = b[0] + b[1] - i;
                            }
                        },
                        5,
                        new double[] {0, 0});
        assertTrue(told.converged());
        assertEquals(1.5, told.parameter(0), 1e-9);
        assertEquals(Math.sqrt(0.2 + 0.01), told.standardUncertainty(0, ABSOLUTE), 1e-9);
    }

    @Test
    void stepsToWhereTheModelDoesNotExistAreTakenBack() {
        // ln b: a full step from 10 towards the solution 0.5 overshoots below 0
        Fit fit = LeastSquares.of(1).fit((b, r) -> r[0] = Math.log(b[0]) - Math.log(0.5), 1, new double[] {10});
        assertTrue(fit.converged());
        assertEquals(0.5, fit.parameter(0), 1e-9);
        Fit nowhere = LeastSquares.of(1).fit((b, r) -> r[0] = Math.log(b[0]), 1, new double[] {-1});
        assertEquals(Fit.Status.NOT_FINITE, nowhere.status());
        assertFalse(nowhere.converged());
    }

    @Test
    void runningOutOfEvaluationsIsReported() {
        double[] y = decay(6);
        Fit fit = LeastSquares.of(3).withMaxEvaluations(2).fit(model(y), y.length, new double[] {1e6, 1e6, 3});
        assertEquals(Fit.Status.NOT_CONVERGED, fit.status());
    }

    @Test
    void nonsenseIsRefused() {
        LeastSquares solver = LeastSquares.of(2);
        LeastSquares.Model model = (b, r) -> r[0] = b[0];
        assertThrows(IllegalArgumentException.class, () -> solver.fit(model, 1, new double[2]));
        assertThrows(IllegalArgumentException.class, () -> solver.fit(model, 2, new double[3]));
        assertThrows(IllegalArgumentException.class, () -> solver.fit(model, 2, new double[] {0, Double.NaN}));
        assertThrows(IllegalArgumentException.class, () -> solver.fit(model, 2, List.of()));
        assertThrows(IllegalArgumentException.class, () -> solver.withBounds(0, 1, 1));
        assertThrows(IllegalArgumentException.class, () -> solver.withPrior(0, 1, 0));
        assertThrows(IllegalArgumentException.class, () -> solver.withTolerance(Double.NaN));
        assertThrows(IllegalArgumentException.class, () -> solver.withMaxEvaluations(0));
        assertThrows(IllegalArgumentException.class, () -> LeastSquares.of(0));
    }
}
