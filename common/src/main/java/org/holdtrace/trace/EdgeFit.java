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
    /** How far from the least sum of squares, in squared residuals, a candidate may lie and still be the edge. */
    private static final double CONFIDENCE = 2;

    private double[][] sums = new double[8][0];
    private double[] squares = new double[0];
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
        double least = Double.POSITIVE_INFINITY;
        int best = -1;
        for (int i = LEAST_BEFORE - 1; i < n - LEAST_AFTER; i++) {
            double s = (x[reversed ? n - 1 - i : i] - centre) / scale;
            squares[i] = sumOfSquares(i + 1, n, s);
            if (squares[i] < least) {
                least = squares[i];
                best = i;
            }
        }
        if (best < 0) {
            return -1;
        }
        double allowed = least + CONFIDENCE * Math.max(leastVariance, least / Math.max(1, n - UNKNOWNS - 1));
        while (best > LEAST_BEFORE - 1 && squares[best - 1] <= allowed) {
            best--;
        }
        return reversed ? n - 1 - best : best;
    }

    private void accumulate(
            double[] x, double[] y, int n, boolean reversed, double centre, double scale, double meanY) {
        if (sums[0].length < n + 1) {
            sums = new double[8][n + 1];
        }
        for (int i = 0; i < n; i++) {
            int at = reversed ? n - 1 - i : i;
            double u = (x[at] - centre) / scale;
            double v = y[at] - meanY;
            sums[0][i + 1] = sums[0][i] + u;
            sums[1][i + 1] = sums[1][i] + u * u;
            sums[2][i + 1] = sums[2][i] + u * u * u;
            sums[3][i + 1] = sums[3][i] + u * u * u * u;
            sums[4][i + 1] = sums[4][i] + v;
            sums[5][i + 1] = sums[5][i] + u * v;
            sums[6][i + 1] = sums[6][i] + u * u * v;
            sums[7][i + 1] = sums[7][i] + v * v;
        }
    }

    /** Sum of squares where the points from {@code after} on gain a slope and a curvature at {@code s}. */
    private double sumOfSquares(int after, int n, double s) {
        double p0 = n - after;
        double p1 = sums[0][n] - sums[0][after];
        double p2 = sums[1][n] - sums[1][after];
        double p3 = sums[2][n] - sums[2][after];
        double p4 = sums[3][n] - sums[3][after];
        double q0 = sums[4][n] - sums[4][after];
        double q1 = sums[5][n] - sums[5][after];
        double q2 = sums[6][n] - sums[6][after];
        double u1 = p1 - s * p0;
        double u2 = p2 - s * (2 * p1 - s * p0);
        double u3 = p3 - s * (3 * p2 - s * (3 * p1 - s * p0));
        double u4 = p4 - s * (4 * p3 - s * (6 * p2 - s * (4 * p1 - s * p0)));
        set(0, n, sums[0][n], sums[1][n], u1, u2, sums[4][n]);
        set(1, sums[0][n], sums[1][n], sums[2][n], u2 + s * u1, u3 + s * u2, sums[5][n]);
        set(2, sums[1][n], sums[2][n], sums[3][n], u3 + s * (2 * u2 + s * u1), u4 + s * (2 * u3 + s * u2), sums[6][n]);
        set(3, u1, matrix[1][3], matrix[2][3], u2, u3, q1 - s * q0);
        set(4, u2, matrix[1][4], matrix[2][4], u3, u4, q2 - s * (2 * q1 - s * q0));
        return sums[7][n] - explained();
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
