package org.holdtrace.fit;

/** QR of a tall matrix kept column by column, in place, and small triangular systems; nothing is allocated. */
final class Householder {
    private Householder() {}

    /**
     * Turns columns 0 to k−1 of {@code a} (element (i, j) at {@code j * rows + i}) into the upper triangle R, and
     * {@code b} into Qᵀb. What stands below the triangle afterwards is of no use.
     *
     * @param r the k × k triangle, row by row
     */
    static void triangularise(double[] a, int rows, int k, double[] b, double[] r) {
        for (int j = 0; j < k; j++) {
            int column = j * rows;
            double norm = Math.sqrt(dot(a, column + j, a, column + j, rows - j));
            double head = a[column + j];
            double diagonal = head > 0 ? -norm : norm;
            r[j * k + j] = diagonal;
            if (norm == 0) {
                for (int c = j + 1; c < k; c++) {
                    r[j * k + c] = a[c * rows + j];
                }
                continue;
            }
            // v = x − diagonal·e₁; H = I − v vᵀ / (norm·(norm + |head|))
            a[column + j] = head - diagonal;
            double beta = norm * (norm + Math.abs(head));
            for (int c = j + 1; c < k; c++) {
                int other = c * rows;
                double factor = -dot(a, column + j, a, other + j, rows - j) / beta;
                add(factor, a, column + j, a, other + j, rows - j);
                r[j * k + c] = a[other + j];
            }
            double factor = -dot(a, column + j, b, j, rows - j) / beta;
            add(factor, a, column + j, b, j, rows - j);
        }
    }

    /** Σ a·b; four sums, since the compiler may not reorder one. */
    static double dot(double[] a, int atA, double[] b, int atB, int n) {
        double s0 = 0;
        double s1 = 0;
        double s2 = 0;
        double s3 = 0;
        int i = 0;
        for (; i < n - 3; i += 4) {
            s0 += a[atA + i] * b[atB + i];
            s1 += a[atA + i + 1] * b[atB + i + 1];
            s2 += a[atA + i + 2] * b[atB + i + 2];
            s3 += a[atA + i + 3] * b[atB + i + 3];
        }
        for (; i < n; i++) {
            s0 += a[atA + i] * b[atB + i];
        }
        return (s0 + s1) + (s2 + s3);
    }

    private static void add(double factor, double[] a, int atA, double[] b, int atB, int n) {
        for (int i = 0; i < n; i++) {
            b[atB + i] += factor * a[atA + i];
        }
    }

    /** Solves R x = b for the upper triangle {@code r}. */
    static void solveUpper(double[] r, int k, double[] b, double[] x) {
        for (int i = k - 1; i >= 0; i--) {
            double sum = b[i];
            for (int j = i + 1; j < k; j++) {
                sum -= r[i * k + j] * x[j];
            }
            x[i] = sum / r[i * k + i];
        }
    }

    /** Solves Rᵀ x = b in place. */
    static void solveTransposed(double[] r, int k, double[] b) {
        for (int i = 0; i < k; i++) {
            double sum = b[i];
            for (int j = 0; j < i; j++) {
                sum -= r[j * k + i] * b[j];
            }
            b[i] = sum / r[i * k + i];
        }
    }

    /**
     * The triangle S and right-hand side z of the least-squares problem [R; √λ I] x = [b; 0], by Givens rotations.
     *
     * @param row scratch of length k
     */
    static void damp(double[] r, double[] b, int k, double lambda, double[] s, double[] z, double[] row) {
        System.arraycopy(r, 0, s, 0, k * k);
        System.arraycopy(b, 0, z, 0, k);
        double root = Math.sqrt(lambda);
        for (int l = 0; l < k; l++) {
            for (int c = l; c < k; c++) {
                row[c] = 0;
            }
            row[l] = root;
            double right = 0;
            for (int i = l; i < k; i++) {
                if (row[i] == 0) {
                    continue;
                }
                double diagonal = s[i * k + i];
                double h = Math.hypot(diagonal, row[i]);
                double cos = diagonal / h;
                double sin = row[i] / h;
                for (int c = i; c < k; c++) {
                    double t = s[i * k + c];
                    s[i * k + c] = cos * t + sin * row[c];
                    row[c] = cos * row[c] - sin * t;
                }
                double t = z[i];
                z[i] = cos * t + sin * right;
                right = cos * right - sin * t;
            }
        }
    }
}
