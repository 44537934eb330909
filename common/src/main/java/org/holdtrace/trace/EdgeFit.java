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
    private final double[][] matrix = new double[UNKNOWNS][UNKNOWNS];
    private final double[] right = new double[UNKNOWNS];
    private final double[] solution = new double[UNKNOWNS];

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
        if (squares.length < n) {
            squares = new double[n];
        }
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
        double plain = squares[n] - plainExplained(n);
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

    private double plainExplained(int n) {
        for (int i = 0; i < 3; i++) {
            set(i, powers[i][n], powers[i + 1][n], powers[i + 2][n], 0, 0, products[i][n]);
        }
        set(3, 0, 0, 0, 0, 0, 0);
        set(4, 0, 0, 0, 0, 0, 0);
        return explained();
    }

    /** What the added powers amount to at the last point, by the solution just found. */
    private double addedAtFarEnd(double distance, int order) {
        double second = matrix[4][4] > 0 ? solution[4] / matrix[4][4] : 0;
        double first = matrix[3][3] > 0 ? (solution[3] - matrix[4][3] * second) / matrix[3][3] : 0;
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
        for (int k = 0; k < POWERS; k++) {
            tail[k] = powers[k][n] - powers[k][after];
        }
        // Moments about s by repeated synthetic shift: each round turns one more power of x into one of x − s.
        for (int from = 1; from < POWERS; from++) {
            for (int k = POWERS - 1; k >= from; k--) {
                tail[k] -= s * tail[k - 1];
            }
        }
        for (int k = 0; k < products.length; k++) {
            tailY[k] = products[k][n] - products[k][after];
        }
        for (int from = 1; from < products.length; from++) {
            for (int k = products.length - 1; k >= from; k--) {
                tailY[k] -= s * tailY[k - 1];
            }
        }
        int a = order;
        int b = order + 1;
        set(0, powers[0][n], powers[1][n], powers[2][n], tail[a], tail[b], products[0][n]);
        set(1, powers[1][n], powers[2][n], powers[3][n], times(a, s), times(b, s), products[1][n]);
        set(2, powers[2][n], powers[3][n], powers[4][n], timesSquare(a, s), timesSquare(b, s), products[2][n]);
        set(3, tail[a], matrix[1][3], matrix[2][3], tail[2 * a], tail[a + b], tailY[a]);
        set(4, tail[b], matrix[1][4], matrix[2][4], tail[a + b], tail[2 * b], tailY[b]);
        return squares[n] - explained();
    }

    /** Sum over the tail of x (x − s)^k. */
    private double times(int k, double s) {
        return tail[k + 1] + s * tail[k];
    }

    /** Sum over the tail of x² (x − s)^k. */
    private double timesSquare(int k, double s) {
        return tail[k + 2] + s * (2 * tail[k + 1] + s * tail[k]);
    }

    private void set(int row, double a, double b, double c, double d, double e, double rightSide) {
        double[] target = matrix[row];
        target[0] = a;
        target[1] = b;
        target[2] = c;
        target[3] = d;
        target[4] = e;
        right[row] = rightSide;
    }

    /** Solves the normal equations by Cholesky and returns what the fit explains of the sum of squares. */
    private double explained() {
        double sum = 0;
        for (int i = 0; i < UNKNOWNS; i++) {
            double diagonal = matrix[i][i];
            for (int j = 0; j < i; j++) {
                double value = matrix[i][j];
                for (int k = 0; k < j; k++) {
                    value -= matrix[i][k] * matrix[j][k];
                }
                value = matrix[j][j] > 0 ? value / matrix[j][j] : 0;
                matrix[i][j] = value;
                diagonal -= value * value;
            }
            // A direction the points do not determine explains nothing.
            matrix[i][i] = diagonal > 1e-11 ? Math.sqrt(diagonal) : 0;
            double value = right[i];
            for (int k = 0; k < i; k++) {
                value -= matrix[i][k] * solution[k];
            }
            solution[i] = matrix[i][i] > 0 ? value / matrix[i][i] : 0;
            sum += solution[i] * solution[i];
        }
        return sum;
    }
}
