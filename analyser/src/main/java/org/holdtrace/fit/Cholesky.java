package org.holdtrace.fit;

/**
 * Cholesky factorisation A = L Lᵀ of small, dense, symmetric, positive definite matrices, in place and without
 * allocation. Matrices are flat arrays, row by row: element (i, j) at {@code i * n + j}; only the lower triangle is
 * read and written, unless said otherwise.
 */
public final class Cholesky {
    private Cholesky() {}

    /**
     * Replaces the lower triangle of {@code a} by L.
     *
     * @return whether the matrix was positive definite beyond rounding; where false, {@code a} is spoilt
     */
    public static boolean factor(double[] a, int n) {
        for (int i = 0; i < n; i++) {
            int row = i * n;
            for (int j = 0; j < i; j++) {
                int other = j * n;
                double sum = a[row + j];
                for (int k = 0; k < j; k++) {
                    sum -= a[row + k] * a[other + k];
                }
                a[row + j] = sum / a[other + j];
            }
            double diagonal = a[row + i];
            double pivot = diagonal;
            for (int k = 0; k < i; k++) {
                pivot -= a[row + k] * a[row + k];
            }
            // What is left of the diagonal after n products is rounding once it is below about n units of its last
            // digit; NaN fails this too.
            if (!(pivot > n * 0x1p-53 * diagonal) || pivot == Double.POSITIVE_INFINITY) {
                return false;
            }
            a[row + i] = Math.sqrt(pivot);
        }
        return true;
    }

    /** Solves A x = b in place of {@code b}, given the factor. */
    public static void solve(double[] factor, int n, double[] b) {
        solveLower(factor, n, b);
        solveUpper(factor, n, b);
    }

    /** Solves L x = b in place of {@code b}: whitens a vector whose covariance is A. */
    public static void solveLower(double[] factor, int n, double[] b) {
        for (int i = 0; i < n; i++) {
            int row = i * n;
            double sum = b[i];
            for (int k = 0; k < i; k++) {
                sum -= factor[row + k] * b[k];
            }
            b[i] = sum / factor[row + i];
        }
    }

    /** Solves Lᵀ x = b in place of {@code b}: with b standard normal, a draw whose covariance is A⁻¹. */
    public static void solveUpper(double[] factor, int n, double[] b) {
        for (int i = n - 1; i >= 0; i--) {
            double x = b[i] / factor[i * n + i];
            b[i] = x;
            int row = i * n;
            for (int k = 0; k < i; k++) {
                b[k] -= factor[row + k] * x;
            }
        }
    }

    /** x = L z in place of {@code z}: with z standard normal, a draw whose covariance is A. */
    public static void multiplyLower(double[] factor, int n, double[] z) {
        for (int i = n - 1; i >= 0; i--) {
            int row = i * n;
            double sum = 0;
            for (int k = 0; k <= i; k++) {
                sum += factor[row + k] * z[k];
            }
            z[i] = sum;
        }
    }

    /** Replaces the factor by the inverse A⁻¹, both triangles. */
    public static void invert(double[] factor, int n) {
        for (int i = 0; i < n; i++) {
            int row = i * n;
            factor[row + i] = 1 / factor[row + i];
            for (int j = 0; j < i; j++) {
                double sum = 0;
                for (int k = j; k < i; k++) {
                    sum -= factor[row + k] * factor[k * n + j];
                }
                factor[row + j] = sum * factor[row + i];
            }
        }
        // A⁻¹ = L⁻ᵀ L⁻¹; element (i, j), j ≤ i, needs rows from i on only, so it may overwrite as it goes down
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = 0;
                for (int k = i; k < n; k++) {
                    sum += factor[k * n + i] * factor[k * n + j];
                }
                factor[i * n + j] = sum;
                factor[j * n + i] = sum;
            }
        }
    }

    /** ln det A, given the factor. */
    public static double logDeterminant(double[] factor, int n) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += Math.log(factor[i * n + i]);
        }
        return 2 * sum;
    }
}
