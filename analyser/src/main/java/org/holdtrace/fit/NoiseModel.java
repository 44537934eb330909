package org.holdtrace.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdtrace.quantity.Require;

/**
 * Noise of a series: white, plus a part that lasts (Ornstein–Uhlenbeck, in even steps a first-order autoregression),
 * plus a random walk. Values of a series with such noise are not independent, and a fit that takes them for independent
 * claims far too small an uncertainty. Variances are in the square of the series' unit.
 *
 * @param whiteVariance variance of what is independent from value to value
 * @param colouredVariance variance of the lasting part
 * @param correlationTimeS time in which the correlation of the lasting part falls to 1/e, s
 * @param walkVariancePerS variance the walk gains in a second
 */
public record NoiseModel(
        double whiteVariance, double colouredVariance, double correlationTimeS, double walkVariancePerS) {
    /** What is below this fraction of the largest part is nothing. */
    private static final double NOTHING = 1e-9;

    private static final int FEWEST_VALUES = 32;
    /** Fewest differences of block means that a variance is taken from. */
    private static final int FEWEST_DIFFERENCES = 7;

    public NoiseModel {
        Require.notNegative(whiteVariance, "white variance", "");
        Require.notNegative(colouredVariance, "coloured variance", "");
        Require.positive(correlationTimeS, "correlation time", "s");
        Require.notNegative(walkVariancePerS, "walk variance", "");
    }

    /** White noise only. */
    public static NoiseModel white(double variance) {
        return new NoiseModel(variance, 0, 1, 0);
    }

    /** Covariance of two values {@code lagS} apart, the walk left out. */
    public double covariance(double lagS) {
        double coloured = colouredVariance * Math.exp(-Math.abs(lagS) / correlationTimeS);
        return lagS == 0 ? coloured + whiteVariance : coloured;
    }

    /**
     * Variance of the mean of {@code samples} values in even steps, the walk left out.
     *
     * @param samples at least 1
     * @param stepS time between them, s, above 0
     */
    public double meanVariance(int samples, double stepS) {
        double phi = Math.exp(-Require.positive(stepS, "step", "s") / correlationTimeS);
        return (whiteVariance + colouredVariance * Autocorrelation.sumOfCorrelations(samples, phi)) / samples;
    }

    /** How many independent values tell as much of a mean as {@code samples} of this noise, the walk left out. */
    public double effectiveSampleSize(int samples, double stepS) {
        return (whiteVariance + colouredVariance) / meanVariance(samples, stepS);
    }

    /**
     * Half of the mean squared difference of neighbouring block means (the two-sample or Allan variance): unlike the
     * variance of the means it does not care for a slow drift or an offset.
     */
    double neighbourVariance(int block, double stepS) {
        double phi = Math.exp(-stepS / correlationTimeS);
        double rest = -Math.expm1(-stepS / correlationTimeS);
        double between;
        if (block * rest < 1e-4) {
            between = 1 - block * rest;
        } else {
            double ends = -Math.expm1(-block * stepS / correlationTimeS);
            between = phi * ends * ends / (block * rest * block * rest);
        }
        double coloured = colouredVariance * (Autocorrelation.sumOfCorrelations(block, phi) / block - between);
        double walk = walkVariancePerS * stepS * (2.0 * block * block + 1) / (6.0 * block);
        return whiteVariance / block + Math.max(0, coloured) + walk;
    }

    /**
     * Estimates from a series in even steps, in time linear in its length: the neighbour variances of blocks of 1, 2, 4,
     * … values are fitted, each weighted by how well it is known (relative standard deviation √(2/differences)).
     *
     * @param values at least 32, in even steps, drift small against the noise over a block
     * @param stepS time between values, s
     * @param withWalk whether a random walk is allowed for
     */
    public static NoiseModel fromBlockMeans(double[] values, double stepS, boolean withWalk) {
        Require.positive(stepS, "step", "s");
        requireEnough(values.length);
        List<double[]> found = neighbourVariances(values);
        int rows = found.size();
        double largest = 0;
        for (double[] row : found) {
            largest = Math.max(largest, row[1]);
        }
        if (!(largest > 0)) {
            return white(Math.max(0, largest));
        }
        double floor = Math.log(NOTHING * largest);
        double top = Math.log(1e4 * largest);
        int parameters = withWalk ? 4 : 3;
        double shortest = 0.3 * stepS;
        double longest = values.length * stepS;
        LeastSquares solver = LeastSquares.of(parameters)
                .withTolerance(1e-8)
                .withMaxEvaluations(200)
                .withBounds(0, floor, top)
                .withBounds(1, floor, top)
                .withBounds(2, Math.log(shortest), Math.log(longest));
        if (withWalk) {
            // A walk as large as all the rest within one step is the most that can be told from white noise.
            solver = solver.withBounds(3, floor - Math.log(longest), top - Math.log(stepS));
        }
        // With few block lengths and four parameters the data leave something open; a wide belief in each closes it.
        double scale = Math.log(largest);
        for (int j = 0; j < parameters; j++) {
            double middle = j == 2 ? Math.log(Math.sqrt(shortest * longest)) : scale - (j == 3 ? Math.log(longest) : 0);
            solver = solver.withPrior(j, middle, 12);
        }
        LeastSquares.Model model = (b, r) -> {
            NoiseModel trial = ofLogarithms(b);
            for (int i = 0; i < rows; i++) {
                double[] row = found.get(i);
                r[i] = Math.log(trial.neighbourVariance((int) row[0], stepS) / row[1]) * Math.sqrt(row[2] / 2);
            }
        };
        double white = Math.log(found.get(0)[1]);
        List<double[]> starts = new ArrayList<>();
        for (double tau = stepS; tau < longest / 4; tau *= 5) {
            double[] start = {white, scale - 1, Math.log(tau), scale - Math.log(longest)};
            starts.add(Arrays.copyOf(start, parameters));
        }
        return ofLogarithms(solver.fit(model, rows, starts).parameters()).withoutNothing();
    }

    /**
     * Estimates by maximum likelihood, for any steps; some hundred passes over the series.
     *
     * @param timeS times in s, never decreasing
     * @param values at least 32, their mean taken off, or a fit's residuals
     * @param start where to begin, for example from {@link #fromBlockMeans}
     * @param withWalk whether a random walk is allowed for
     */
    public static NoiseModel maximumLikelihood(double[] timeS, double[] values, NoiseModel start, boolean withWalk) {
        Arguments.sameLength(timeS.length, values.length, "values");
        requireEnough(values.length);
        double span = timeS[timeS.length - 1] - timeS[0];
        double shortest = 0.3 * Require.positive(span, "length of the series", "s") / (timeS.length - 1);
        double square = 0;
        for (double v : values) {
            square += Require.finite(v, "value", "") * v / values.length;
        }
        if (square == 0) {
            return white(0);
        }
        double floor = Math.log(NOTHING * square);
        double[] from = {
            Math.max(floor + 5, Math.log(start.whiteVariance)),
            Math.max(floor + 5, Math.log(start.colouredVariance)),
            Math.log(Math.max(shortest, Math.min(span, start.correlationTimeS))),
            Math.max(floor + 5, Math.log(start.walkVariancePerS * span)) - Math.log(span)
        };
        double[] best = NelderMead.minimise(
                b -> {
                    boolean outside = b[2] < Math.log(shortest)
                            || b[2] > Math.log(span)
                            || b[0] < floor - 3
                            || b[1] < floor - 3
                            || (withWalk && b[3] + Math.log(span) < floor - 3);
                    return outside
                            ? Double.POSITIVE_INFINITY
                            : -ofLogarithms(b).whitener(timeS).logLikelihood(values);
                },
                Arrays.copyOf(from, withWalk ? 4 : 3),
                0.7,
                1e-4,
                400);
        return ofLogarithms(best).withoutNothing();
    }

    /** What turns a series at these times with this noise into independent values of variance 1. */
    public Whitener whitener(double[] timeS) {
        return new Whitener(this, timeS);
    }

    private static NoiseModel ofLogarithms(double[] b) {
        return new NoiseModel(Math.exp(b[0]), Math.exp(b[1]), Math.exp(b[2]), b.length > 3 ? Math.exp(b[3]) : 0);
    }

    /** Parts that are nothing beside the others set to 0. */
    private NoiseModel withoutNothing() {
        double limit = 100 * NOTHING * (whiteVariance + colouredVariance + walkVariancePerS * correlationTimeS);
        return new NoiseModel(
                whiteVariance > limit ? whiteVariance : 0,
                colouredVariance > limit ? colouredVariance : 0,
                correlationTimeS,
                walkVariancePerS * correlationTimeS > limit ? walkVariancePerS : 0);
    }

    /** Rows of: block length, neighbour variance, number of differences. */
    private static List<double[]> neighbourVariances(double[] values) {
        List<double[]> rows = new ArrayList<>();
        double[] means = values.clone();
        int count = means.length;
        for (int block = 1; count - 1 >= FEWEST_DIFFERENCES; block *= 2) {
            double sum = 0;
            for (int i = 1; i < count; i++) {
                double d = means[i] - means[i - 1];
                sum += d * d;
            }
            double variance = Require.finite(sum / (2.0 * (count - 1)), "variance of the series", "");
            if (variance > 0) {
                rows.add(new double[] {block, variance, count - 1});
            }
            count /= 2;
            for (int i = 0; i < count; i++) {
                means[i] = 0.5 * (means[2 * i] + means[2 * i + 1]);
            }
        }
        return rows;
    }

    private static void requireEnough(int n) {
        if (n < FEWEST_VALUES) {
            throw new IllegalArgumentException(
                    "the colour of noise needs at least " + FEWEST_VALUES + " values, found " + n);
        }
    }
}
