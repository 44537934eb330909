package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** What the solver does besides finding NIST's certified minima. */
class GaussNewtonTest {
    /** Residuals with their Jacobian, row by row. */
    private interface Residuals {
        double[] at(double[] x);

        double[][] jacobian(double[] x);
    }

    private static class Summed implements GaussNewton.Problem {
        private final Residuals of;
        private int linearised;

        Summed(Residuals of) {
            this.of = of;
        }

        @Override
        public double cost(double[] at) {
            double sum = 0;
            for (double r : of.at(at)) {
                sum += 0.5 * r * r;
            }
            return sum;
        }

        @Override
        public void linearise(double[] at, double[] gradient, double[] curvature) {
            linearised++;
            double[] r = of.at(at);
            double[][] j = of.jacobian(at);
            for (int a = 0; a < at.length; a++) {
                gradient[a] = 0;
                for (int i = 0; i < r.length; i++) {
                    gradient[a] += j[i][a] * r[i];
                }
                for (int b = 0; b <= a; b++) {
                    curvature[a * at.length + b] = 0;
                    for (int i = 0; i < r.length; i++) {
                        curvature[a * at.length + b] += j[i][a] * j[i][b];
                    }
                }
            }
        }
    }

    /** Three readings 1, 2 and 3 with a standard deviation of 1, and 5 ± 0.5 known beforehand. */
    private static final Residuals READINGS = new Residuals() {
        @Override
        public double[] at(double[] x) {
            return new double[] {x[0] - 1, x[0] - 2, x[0] - 3, (x[0] - 5) / 0.5};
        }

        @Override
        public double[][] jacobian(double[] x) {
            return new double[][] {{1}, {1}, {1}, {2}};
        }
    };

    /** H. H. Rosenbrock's valley, Computer Journal 3 (1960) 175, as two residuals: minimum 0 at (1, 1). */
    private static final Residuals ROSENBROCK = new Residuals() {
        @Override
        public double[] at(double[] x) {
            return new double[] {10 * (x[1] - x[0] * x[0]), 1 - x[0]};
        }

        @Override
        public double[][] jacobian(double[] x) {
            return new double[][] {{-20 * x[0], 10}, {-1, 0}};
        }
    };

    /** ln x − ln ½, which does not exist below 0. */
    private static final Residuals LOGARITHM = new Residuals() {
        @Override
        public double[] at(double[] x) {
            return new double[] {Math.log(x[0]) - Math.log(0.5)};
        }

        @Override
        public double[][] jacobian(double[] x) {
            return new double[][] {{1 / x[0]}};
        }
    };

    /** By hand: three readings of mean 2 with sd 1 and a prior 5 ± 0.5 weigh 3 and 4; the variance is 1/7. */
    @Test
    void aLinearProblemIsSolvedInOneStepWhereverItBegins() {
        for (double start : new double[] {0, -1e6, 1e3}) {
            double[] x = {start};
            Summed problem = new Summed(READINGS);
            GaussNewton search = new GaussNewton(problem, x);
            search.minimise(20, 1e-6, Double.POSITIVE_INFINITY);
            assertEquals((3 * 2 + 4 * 5) / 7.0, x[0], 1e-9);
            assertEquals(Math.sqrt(7), search.factor()[0], 1e-12);
            assertTrue(search.converged());
            assertTrue(problem.linearised <= 3);
        }
    }

    @Test
    void theBottomOfRosenbrocksValleyIsFound() {
        for (double radius : new double[] {0.1, 1, 100, Double.POSITIVE_INFINITY}) {
            double[] x = {-1.2, 1};
            GaussNewton search = new GaussNewton(new Summed(ROSENBROCK), x);
            search.minimise(500, 0, radius);
            assertArrayEquals(new double[] {1, 1}, x, 1e-9);
            assertEquals(0, search.cost(), 1e-18);
        }
    }

    @Test
    void stepsToWhereThereIsNoValueAreTakenBack() {
        // A full step from 10 towards 0.5 overshoots below 0.
        double[] x = {10};
        GaussNewton search = new GaussNewton(new Summed(LOGARITHM), x);
        search.minimise(100, 0, Double.POSITIVE_INFINITY);
        assertEquals(0.5, x[0], 1e-9);
        assertTrue(search.converged());
    }

    @Test
    void noStepIsLongerThanTheProblemAllows() {
        double[] last = {-1e3};
        GaussNewton.Problem cautious = new Summed(READINGS) {
            @Override
            public void linearise(double[] at, double[] gradient, double[] curvature) {
                assertTrue(Math.abs(at[0] - last[0]) <= 100 + 1e-9);
                last[0] = at[0];
                super.linearise(at, gradient, curvature);
            }

            @Override
            public double longestStep(int variable) {
                return 100;
            }
        };
        double[] x = {-1e3};
        new GaussNewton(cautious, x).minimise(50, 0, Double.POSITIVE_INFINITY);
        assertEquals(26 / 7.0, x[0], 1e-9);
    }

    @Test
    void runningOutOfStepsIsReported() {
        GaussNewton search = new GaussNewton(new Summed(ROSENBROCK), new double[] {-1.2, 1});
        search.minimise(2, 0, 0.1);
        assertFalse(search.converged());
    }

    @Test
    void whatTheDataLeaveOpenIsAnErrorAndNotInvented() {
        Residuals sumOnly = new Residuals() {
            @Override
            public double[] at(double[] x) {
                return new double[] {x[0] + x[1] - 1, x[0] + x[1] - 2};
            }

            @Override
            public double[][] jacobian(double[] x) {
                return new double[][] {{1, 1}, {1, 1}};
            }
        };
        GaussNewton search = new GaussNewton(new Summed(sumOnly), new double[] {0, 0});
        assertThrows(IllegalStateException.class, () -> search.minimise(20, 0, 1));
        GaussNewton nowhere = new GaussNewton(new Summed(LOGARITHM), new double[] {Double.NaN});
        assertThrows(IllegalStateException.class, () -> nowhere.minimise(20, 0, 1));
    }
}
