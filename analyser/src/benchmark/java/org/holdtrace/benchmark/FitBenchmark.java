package org.holdtrace.benchmark;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresBuilder;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresOptimizer;
import org.apache.commons.math3.fitting.leastsquares.LeastSquaresProblem;
import org.apache.commons.math3.fitting.leastsquares.LevenbergMarquardtOptimizer;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.util.Pair;
import org.holdtrace.fit.Fit;
import org.holdtrace.fit.LeastSquares;
import org.holdtrace.fit.NoiseModel;
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
    private double[] noise;
    private LeastSquares solver;
    private LeastSquares.Model analytic;
    private LeastSquaresProblem problem;

    /** The points and the same problem for both. */
    @Setup
    public void prepare() {
        Random random = new Random(1);
        for (int i = 0; i < POINTS; i++) {
            time[i] = 0.1 * i;
            value[i] = 20 + 100 * Math.exp(-time[i] / 60) + 0.2 * random.nextGaussian();
        }
        noise = new double[75_000];
        double colour = 0;
        for (int i = 0; i < noise.length; i++) {
            colour = 0.99 * colour + 0.1 * random.nextGaussian();
            noise[i] = random.nextGaussian() + colour;
        }
        solver = LeastSquares.of(3).withTolerance(1e-10);
        analytic = new LeastSquares.Model() {
            @Override
            public void residuals(double[] b, double[] r) {
                residualsOf(b, r);
            }

            @Override
            public boolean jacobian(double[] b, double[] r, double[] j) {
                int n = r.length;
                for (int i = 0; i < n; i++) {
                    double e = Math.exp(-time[i] / b[2]);
                    j[i] = 1;
                    j[n + i] = e;
                    j[2 * n + i] = b[1] * e * time[i] / (b[2] * b[2]);
                }
                return true;
            }
        };
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

    private void residualsOf(double[] b, double[] r) {
        for (int i = 0; i < r.length; i++) {
            r[i] = b[0] + b[1] * Math.exp(-time[i] / b[2]) - value[i];
        }
    }

    /** The project's solver with analytic derivatives. */
    @Benchmark
    public Fit ownWithDerivatives() {
        return solver.fit(analytic, POINTS, START);
    }

    /** The project's solver with derivatives by differences. */
    @Benchmark
    public Fit ownWithDifferences() {
        return solver.fit(this::residualsOf, POINTS, START);
    }

    /** Apache Commons Math with analytic derivatives. */
    @Benchmark
    public LeastSquaresOptimizer.Optimum commonsMath() {
        return new LevenbergMarquardtOptimizer()
                .withCostRelativeTolerance(1e-10)
                .withParameterRelativeTolerance(1e-10)
                .optimize(problem);
    }

    /** The colour of the noise of five minutes at 250 samples a second. */
    @Benchmark
    public NoiseModel noiseColour() {
        return NoiseModel.fromBlockMeans(noise, 0.004, false);
    }
}
