package org.holdtrace.trace;

/**
 * Where a smooth course ends and a push begins: least squares of a parabola that, from one point on, gains a slope and
 * a curvature more. The point with the least sum of squares is the edge. Sums of powers kept from point to point make
 * each candidate cost the same, however long the window.
 *
 * <p>The end of a push is the same question with time reversed.
 */
final class EdgeFit {
    private static final int UNKNOWNS = 5;
    private static final int LEAST_BEFORE = 4;
    private static final int LEAST_AFTER = 2;
    private static final int POWERS = 7;
    /** The sum of squares changes slowly from candidate to candidate: look at every fourth, then around the best. */
    private static final int STRIDE = 4;

    /** How far from the least sum of squares, in squared residuals, a candidate may lie and still be the edge. */
    private static final double CONFIDENCE = 2;

    private double gain;
    private boolean rises;
    private double[][] powers = new double[POWERS][0];
    private double[][] products = new double[4][0];
    private double[] squares = new double[0];
    private final double[] tail = new double[POWERS];
    private final double[] tailY = new double[4];
    // The Cholesky factor of the normal equations, the parabola's rows first, and the right side divided by it.
    private double pivot0;
    private double factor10;
    private double pivot1;
    private double factor20;
    private double factor21;
    private double pivot2;
    private double pivot3;
    private double factor43;
    private double pivot4;
    private double border0;
    private double border1;
    private double border2;
    private double solved0;
    private double solved1;
    private double solved2;
    private double solved3;
    private double solved4;
    private double plainExplained;

    /**
     * Index of the last point before the edge, in the direction of {@code step}; the earliest that the data do not
     * rule out. -1 where there are too few points.
     *
     * @param x times, increasing, of any unit
     * @param y values
     * @param n how many
     * @param reversed looks for the edge from the far end
     * @param leastVariance variance of a value, at least
     */
    int edge(double[] x, double[] y, int n, boolean reversed, double leastVariance) {
        if (n < LEAST_BEFORE + LEAST_AFTER + 2) {
            return -1;
        }
        double centre = 0.5 * (x[0] + x[n - 1]);
        double scale = 0.5 * (x[n - 1] - x[0]) * (reversed ? -1 : 1);
        double meanY = 0;
        for (int i = 0; i < n; i++) {
            meanY += y[i] / n;
        }
        accumulate(x, y, n, reversed, centre, scale, meanY);
        plain(n);
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        int order = 1;
        // A push that sets in at once adds a slope, one that sets in gently a curvature: what fits better was it.
        for (int k = 1; k <= 2; k++) {
            int near = -1;
            double nearLeast = Double.POSITIVE_INFINITY;
            for (int i = LEAST_BEFORE - 1; i < n - LEAST_AFTER; i += STRIDE) {
                double square = sumOfSquares(i + 1, n, place(x, n, reversed, i, centre, scale), k);
                if (square < nearLeast) {
                    nearLeast = square;
                    near = i;
                }
            }
            int last = Math.min(n - LEAST_AFTER - 1, near + STRIDE - 1);
            for (int i = Math.max(LEAST_BEFORE - 1, near - STRIDE + 1); i <= last; i++) {
                double square = sumOfSquares(i + 1, n, place(x, n, reversed, i, centre, scale), k);
                if (square < least) {
                    least = square;
                    best = i;
                    order = k;
                }
            }
        }
        if (best < 0) {
            return -1;
        }
        double plain = squares[n] - plainExplained;
        sumOfSquares(best + 1, n, place(x, n, reversed, best, centre, scale), order);
        double added = addedAtFarEnd(
                place(x, n, reversed, n - 1, centre, scale) - place(x, n, reversed, best, centre, scale), order);
        gain = (plain - least) / Math.max(leastVariance, least / Math.max(1, n - UNKNOWNS - 1));
        rises = added > 0;
        double allowed = least + CONFIDENCE * Math.max(leastVariance, least / Math.max(1, n - UNKNOWNS - 1));
        while (best > LEAST_BEFORE - 1
                && sumOfSquares(best, n, place(x, n, reversed, best - 1, centre, scale), order) <= allowed) {
            best--;
        }
        return reversed ? n - 1 - best : best;
    }

    /** By how many variances of a value the edge found last lessened the sum of squares. */
    double gain() {
        return gain;
    }

    /** Whether what the edge found last adds lifts the values above the course continued. */
    boolean rises() {
        return rises;
    }

    /** What the added powers amount to at the last point, by the solution just found. */
    private double addedAtFarEnd(double distance, int order) {
        double second = over(solved4, pivot4);
        double first = over(solved3 - factor43 * second, pivot3);
        return first * Math.pow(distance, order) + second * Math.pow(distance, order + 1);
    }

    private static double place(double[] x, int n, boolean reversed, int i, double centre, double scale) {
        return (x[reversed ? n - 1 - i : i] - centre) / scale;
    }

    private void accumulate(
            double[] x, double[] y, int n, boolean reversed, double centre, double scale, double meanY) {
        if (powers[0].length < n + 1) {
            powers = new double[POWERS][n + 1];
            products = new double[4][n + 1];
            squares = new double[n + 1];
        }
        for (int i = 0; i < n; i++) {
            int at = reversed ? n - 1 - i : i;
            double u = (x[at] - centre) / scale;
            double v = y[at] - meanY;
            double power = 1;
            for (int k = 0; k < POWERS; k++) {
                powers[k][i + 1] = powers[k][i] + power;
                if (k < products.length) {
                    products[k][i + 1] = products[k][i] + power * v;
                }
                power *= u;
            }
            squares[i + 1] = squares[i] + v * v;
        }
    }

    /** Sum of squares where the points from {@code after} on gain the powers {@code order} and one more from {@code s}. */
    private double sumOfSquares(int after, int n, double s, int order) {
        int a = order;
        int b = order + 1;
        shiftedTail(powers, tail, 2 * b, after, n, s);
        shiftedTail(products, tailY, b, after, n, s);
        double third = border(tail[a], times(a, s), timesSquare(a, s), tailY[a]);
        double a0 = border0;
        double a1 = border1;
        double a2 = border2;
        pivot3 = root(tail[2 * a] - a0 * a0 - a1 * a1 - a2 * a2);
        solved3 = over(third, pivot3);
        double fourth = border(tail[b], times(b, s), timesSquare(b, s), tailY[b]);
        factor43 = over(tail[a + b] - border0 * a0 - border1 * a1 - border2 * a2, pivot3);
        pivot4 = root(tail[2 * b] - border0 * border0 - border1 * border1 - border2 * border2 - factor43 * factor43);
        solved4 = over(fourth - factor43 * solved3, pivot4);
        return squares[n] - (plainExplained + solved3 * solved3 + solved4 * solved4);
    }

    /** Moments of the tail about s by repeated synthetic shift: each round turns one more power of x into one of x − s. */
    private static void shiftedTail(double[][] sums, double[] tail, int highest, int after, int n, double s) {
        for (int k = 0; k <= highest; k++) {
            tail[k] = sums[k][n] - sums[k][after];
        }
        for (int from = 1; from <= highest; from++) {
            for (int k = highest; k >= from; k--) {
                tail[k] -= s * tail[k - 1];
            }
        }
    }

    /** Sum over the tail of x (x − s)^k. */
    private double times(int k, double s) {
        return tail[k + 1] + s * tail[k];
    }

    /** Sum over the tail of x² (x − s)^k. */
    private double timesSquare(int k, double s) {
        return tail[k + 2] + s * (2 * tail[k + 1] + s * tail[k]);
    }

    /** Factors the normal equations of the parabola alone, which are the same for every candidate, and solves them. */
    private void plain(int n) {
        pivot0 = root(powers[0][n]);
        factor10 = over(powers[1][n], pivot0);
        pivot1 = root(powers[2][n] - factor10 * factor10);
        factor20 = over(powers[2][n], pivot0);
        factor21 = over(powers[3][n] - factor20 * factor10, pivot1);
        pivot2 = root(powers[4][n] - factor20 * factor20 - factor21 * factor21);
        solved0 = over(products[0][n], pivot0);
        solved1 = over(products[1][n] - factor10 * solved0, pivot1);
        solved2 = over(products[2][n] - factor20 * solved0 - factor21 * solved1, pivot2);
        plainExplained = solved0 * solved0 + solved1 * solved1 + solved2 * solved2;
    }

    /** One more row of the Cholesky factor, written out: loops this short cost more to compile than they ever run. */
    private double border(double a, double b, double c, double rightSide) {
        border0 = over(a, pivot0);
        border1 = over(b - border0 * factor10, pivot1);
        border2 = over(c - border0 * factor20 - border1 * factor21, pivot2);
        return rightSide - border0 * solved0 - border1 * solved1 - border2 * solved2;
    }

    /** A direction the points do not determine explains nothing. */
    private static double root(double diagonal) {
        return diagonal > 1e-11 ? Math.sqrt(diagonal) : 0;
    }

    private static double over(double value, double pivot) {
        return pivot > 0 ? value / pivot : 0;
    }
}
