package org.holdtrace.benchmark;

import java.util.Arrays;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresProblem;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.util.Pair;
import org.holdtrace.fit.GaussNewton;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;

/** y = a + b exp(−t/τ) fitted to 2000 points by the project's solver and by Apache Commons Math, same start. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
public class FitBenchmark {
    private static final int POINTS = 2000;
    private static final double[] START = {1, 50, 20};

    private final double[] time = new double[POINTS];
    private final double[] value = new double[POINTS];
    private LeastSquaresProblem problem;

    /** The points and the same problem for both. */
    @Setup
    public void prepare() {
        Random random = new Random(1);
        for (int i = 0; i < POINTS; i++) {
            time[i] = 0.1 * i;
            value[i] = 20 + 100 * Math.exp(-time[i] / 60) + 0.2 * random.nextGaussian();
        }
        problem = new LeastSquaresBuilder()
                .start(START)
                .target(new double[POINTS])
                .maxEvaluations(1000)
                .maxIterations(1000)
                .model(point -> {
                    double[] b = point.toArray();
                    double[] r = new double[POINTS];
                    double[][] j = new double[POINTS][3];
                    for (int i = 0; i < POINTS; i++) {
                        double e = Math.exp(-time[i] / b[2]);
                        r[i] = b[0] + b[1] * e - value[i];
                        j[i][0] = 1;
                        j[i][1] = e;
                        j[i][2] = b[1] * e * time[i] / (b[2] * b[2]);
                    }
                    return new Pair<>(new ArrayRealVector(r, false), new Array2DRowRealMatrix(j, false));
                })
                .build();
    }

    /** The sums over all points that the project's solver asks for. */
    private final class Sums implements GaussNewton.Problem {
        @Override
        public double cost(double[] b) {
            double sum = 0;
            for (int i = 0; i < POINTS; i++) {
                double r = b[0] + b[1] * Math.exp(-time[i] / b[2]) - value[i];
                sum += 0.5 * r * r;
            }
            return sum;
        }

        @Override
        public void linearise(double[] b, double[] gradient, double[] curvature) {
            Arrays.fill(gradient, 0);
            Arrays.fill(curvature, 0);
            for (int i = 0; i < POINTS; i++) {
                double e = Math.exp(-time[i] / b[2]);
                double r = b[0] + b[1] * e - value[i];
                double t = b[1] * e * time[i] / (b[2] * b[2]);
                gradient[0] += r;
                gradient[1] += e * r;
                gradient[2] += t * r;
                curvature[0] += 1;
                curvature[3] += e;
                curvature[4] += e * e;
                curvature[6] += t;
                curvature[7] += e * t;
                curvature[8] += t * t;
            }
        }
    }

    /** The project's solver with analytic derivatives. */
    @Benchmark
    public double ownWithDerivatives() {
        GaussNewton search = new GaussNewton(new Sums(), START.clone());
        search.minimise(1000, 1e-10, 1);
        return search.cost();
    }

    /** Apache Commons Math with analytic derivatives. */
    @Benchmark
    public LeastSquaresOptimizer.Optimum commonsMath() {
        return new LevenbergMarquardtOptimizer()
                .withCostRelativeTolerance(1e-10)
                .withParameterRelativeTolerance(1e-10)
                .optimize(problem);
    }
}
