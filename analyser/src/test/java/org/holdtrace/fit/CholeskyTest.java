package org.holdtrace.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.api.Test;

/** Random positive definite matrices against Apache Commons Math 3.6.1. */
class CholeskyTest {
    @Property(tries = 200)
    void agreesWithTheLibrary(@ForAll @IntRange(min = 1, max = 15) int n, @ForAll long seed) {
        Random random = new Random(seed);
        RealMatrix root = new Array2DRowRealMatrix(n, n);
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                root.setEntry(i, j, random.nextGaussian());
            }
        }
        RealMatrix a = root.multiply(root.transpose()).add(MatrixUtils.createRealIdentityMatrix(n));
        double[] flat = new double[n * n];
        double[] b = new double[n];
        for (int i = 0; i < n; i++) {
            b[i] = random.nextGaussian();
            for (int j = 0; j < n; j++) {
                flat[i * n + j] = j <= i ? a.getEntry(i, j) : Double.NaN; // the upper triangle must not be read
            }
        }
        assertTrue(Cholesky.factor(flat, n));
        CholeskyDecomposition library = new CholeskyDecomposition(a);
        assertEquals(
                Math.log(library.getDeterminant()), Cholesky.logDeterminant(flat, n), 1e-10 * n, "log determinant");

        double[] x = b.clone();
        Cholesky.solve(flat, n, x);
        double[] drawn = b.clone();
        Cholesky.multiplyLower(flat, n, drawn);
        double[] expectedX = library.getSolver().solve(new ArrayRealVector(b)).toArray();
        double[] expectedDraw = library.getL().operate(b);
        double[] back = drawn.clone();
        Cholesky.solveLower(flat, n, back);
        double[] upper = library.getLT().operate(b);
        Cholesky.solveUpper(flat, n, upper);
        for (int i = 0; i < n; i++) {
            assertEquals(expectedX[i], x[i], 1e-10, "solution");
            assertEquals(expectedDraw[i], drawn[i], 1e-10, "L z");
            assertEquals(b[i], back[i], 1e-10, "whitened");
            assertEquals(b[i], upper[i], 1e-10, "solved with the transposed factor");
        }
        RealMatrix inverse = library.getSolver().getInverse();
        Cholesky.invert(flat, n);
        for (int i = 0; i < n * n; i++) {
            assertEquals(inverse.getEntry(i / n, i % n), flat[i], 1e-10, "inverse");
        }
    }

    @Test
    void aMatrixThatIsNotPositiveDefiniteIsRefused() {
        assertFalse(Cholesky.factor(new double[] {1, 0, 2, 1}, 2), "indefinite");
        assertFalse(Cholesky.factor(new double[] {1, 0, 1, 1}, 2), "singular");
        assertFalse(Cholesky.factor(new double[] {0}, 1), "zero");
        assertFalse(Cholesky.factor(new double[] {Double.NaN}, 1), "not a number");
        assertFalse(Cholesky.factor(new double[] {1, 0, Double.NaN, 1}, 2), "not a number off the diagonal");
        assertFalse(Cholesky.factor(new double[] {1, 0, 0.1 + 0.2, 0.09}, 2), "singular but for rounding");
    }
}
