package org.holdtrace.estimate;

import java.util.Arrays;
import org.holdtrace.fit.Vectors;

/**
 * A set of rows with their covariance, whitened: all that the fits need to know of the data is the Gram matrix
 * XᵀΣ⁻¹X of the columns, since every model of this package is a linear combination of them.
 *
 * <p>Triangles are stored by rows that begin on the diagonal, and every inner loop runs along a row: so it is that the
 * machine works on several elements at once.
 */
final class Evidence {
    /** Standard deviation given to a step of unknown size, in multiples of the largest pressure. */
    private static final double UNKNOWN = 20;

    /** Beyond so many correlation times nothing is left of a correlation, e⁻⁴⁰. */
    private static final double LAST_CORRELATION = 40;

    final Reduction data;
    final int[] row;
    /** XᵀΣ⁻¹X, {@link Columns#COUNT} a row. */
    final double[] gram;
    /** Σ: element (i, j), j ≥ i, at [i][j − i]. */
    private final double[][] covariance;
    /** U with Σ = UᵀU, stored as Σ is. */
    private final double[][] factor;
    /** U⁻ᵀX, a row of columns for each row of the data. */
    private final double[][] whitened;

    private Evidence(Reduction data, int[] row, double[][] covariance) {
        this.data = data;
        this.row = row;
        this.covariance = covariance;
        this.factor = factor(covariance);
        this.whitened = new double[row.length][Columns.COUNT];
        this.gram = new double[Columns.COUNT * Columns.COUNT];
        whiten(0, Columns.THRESHOLD);
        if (data.hasThresholds) {
            whiten(Columns.THRESHOLD, Columns.COUNT);
        }
    }

    private Evidence(Evidence other, Reduction data) {
        this.data = data;
        this.row = other.row;
        this.covariance = other.covariance;
        this.factor = other.factor;
        this.whitened = new double[row.length][];
        for (int i = 0; i < row.length; i++) {
            whitened[i] = other.whitened[i].clone();
        }
        this.gram = other.gram.clone();
        whiten(Columns.THRESHOLD, Columns.COUNT);
    }

    /**
     * @param data the reduced hold test
     * @param row which of its rows count
     * @param noise the noise
     * @param errors what the model may be wrong by
     */
    static Evidence of(Reduction data, int[] row, Noise noise, ModelError errors) {
        int n = row.length;
        double[][] s = new double[n][];
        double[] local = errors.local();
        double[] modelBar = errors.airBar();
        double big = UNKNOWN * Math.max(data.peakBar, 1);
        double stroke = noise.scatter() * errors.strokeBar();
        double walk = noise.walkBar() * noise.walkBar();
        double quantum = noise.quantumBar() * noise.quantumBar() / 12;
        for (int i = 0; i < n; i++) {
            int a = row[i];
            double[] si = new double[n - i];
            s[i] = si;
            int knownA = data.strokesBefore[a] - data.unknownBefore[a];
            for (int j = i; j < n; j++) {
                int b = row[j];
                int known = Math.min(knownA, data.strokesBefore[b] - data.unknownBefore[b]);
                int unknown = Math.min(data.unknownBefore[a], data.unknownBefore[b]);
                si[j - i] = big * big * (1 + unknown)
                        + stroke * stroke * known
                        + walk * Math.min(data.timeS[a], data.timeS[b])
                        + errors.untilShut(data, a, b);
            }
            double white = noise.whiteBar() * noise.whiteBar() / data.samples[a]
                    + (data.kind[a] == Reduction.Kind.TAIL ? noise.tailBar() * noise.tailBar() : 0);
            si[0] += local[a] * local[a] * (white + quantum + noise.colourVariance(data.lengthS[a]))
                    + modelBar[a] * modelBar[a];
        }
        if (noise.colourBar() > 0) {
            addColour(s, data, row, noise, local);
        }
        for (double[] way : errors.shapes(data, row)) {
            for (int i = 0; i < n; i++) {
                Vectors.addMultiple(s[i], 0, way[i], way, i, n - i);
            }
        }
        return new Evidence(data, row, s);
    }

    /** Adds the covariance of the lasting part of the noise between the means over different rows. */
    private static void addColour(double[][] s, Reduction data, int[] row, Noise noise, double[] local) {
        int n = row.length;
        double[] seen = new double[n];
        for (int i = 0; i < n; i++) {
            seen[i] = noise.colourBar() * local[row[i]] * noise.colourShare(data.lengthS[row[i]]);
        }
        for (int i = 0; i < n; i++) {
            int a = row[i];
            for (int j = i + 1; j < n; j++) {
                int b = row[j];
                double apart = Math.abs(data.timeS[a] - data.timeS[b]);
                double gap = (apart - 0.5 * (data.lengthS[a] + data.lengthS[b])) / noise.colourS();
                if (gap < LAST_CORRELATION) {
                    s[i][j - i] += seen[i] * seen[j] * Math.exp(-Math.max(0, gap));
                }
            }
        }
    }

    /** The same rows of a reduction that differs in its opening pressures only: everything else is kept. */
    Evidence withThresholds(Reduction other) {
        return new Evidence(this, other);
    }

    /** The evidence of some of the rows alone. */
    Evidence ofRows(int[] some) {
        int[] at = positions(some);
        double[][] s = new double[at.length][];
        for (int i = 0; i < at.length; i++) {
            s[i] = new double[at.length - i];
            for (int j = i; j < at.length; j++) {
                s[i][j - i] = covariance(at[i], at[j]);
            }
        }
        return new Evidence(data, some, s);
    }

    /** Where {@code some} rows of the data stand within {@link #row}. */
    int[] positions(int[] some) {
        int[] at = new int[some.length];
        for (int i = 0; i < at.length; i++) {
            at[i] = Arrays.binarySearch(row, some[i]);
        }
        return at;
    }

    /** Cholesky, row by row: each row, once finished, is taken off all below it. */
    private static double[][] factor(double[][] covariance) {
        int n = covariance.length;
        double[][] u = new double[n][];
        for (int i = 0; i < n; i++) {
            u[i] = covariance[i].clone();
        }
        for (int k = 0; k < n; k++) {
            double[] uk = u[k];
            double pivot = Math.sqrt(Math.max(uk[0], 1e-14 * covariance[k][0]));
            uk[0] = pivot;
            for (int j = 1; j < uk.length; j++) {
                uk[j] /= pivot;
            }
            for (int i = k + 1; i < n; i++) {
                Vectors.addMultiple(u[i], 0, -uk[i - k], uk, i - k, n - i);
            }
        }
        return u;
    }

    /** Whitens the columns {@code from} to {@code to} and puts their products with all columns before into the Gram. */
    private void whiten(int from, int to) {
        int n = row.length;
        for (int c = from; c < to; c++) {
            double[] column = data.column[c];
            for (int i = 0; i < n; i++) {
                whitened[i][c] = column[row[i]];
            }
        }
        for (int a = 0; a < to; a++) {
            Arrays.fill(gram, a * Columns.COUNT + from, a * Columns.COUNT + to, 0);
        }
        for (int i = 0; i < n; i++) {
            double[] wi = whitened[i];
            double pivot = factor[i][0];
            for (int c = from; c < to; c++) {
                wi[c] /= pivot;
            }
            for (int r = i + 1; r < n; r++) {
                Vectors.addMultiple(whitened[r], from, -factor[i][r - i], wi, from, to - from);
            }
            for (int a = 0; a < to; a++) {
                int first = Math.max(a, from);
                Vectors.addMultiple(gram, a * Columns.COUNT + first, wi[a], wi, first, to - first);
            }
        }
        for (int a = 0; a < to; a++) {
            for (int b = Math.max(a, from); b < to; b++) {
                gram[b * Columns.COUNT + a] = gram[a * Columns.COUNT + b];
            }
        }
    }

    /** Σ⁻¹ X γ' for a combination γ' of columns: how each raw row enters what is fitted along γ'. */
    double[] sensitivity(double[] combination) {
        int n = row.length;
        double[] out = new double[n];
        for (int i = n - 1; i >= 0; i--) {
            double[] ui = factor[i];
            double sum = 0;
            for (int c = 0; c < Columns.COUNT; c++) {
                sum += combination[c] * whitened[i][c];
            }
            for (int k = i + 1; k < n; k++) {
                sum -= ui[k - i] * out[k];
            }
            out[i] = sum / ui[0];
        }
        return out;
    }

    /** Covariance of raw rows {@code i} and {@code j} (positions within {@link #row}). */
    double covariance(int i, int j) {
        return i <= j ? covariance[i][j - i] : covariance[j][i - j];
    }

    /** The lowest pressure of the hold among the rows, without one of all rows, bar. */
    double lowestHeldBar() {
        double held = Double.POSITIVE_INFINITY;
        double any = Double.POSITIVE_INFINITY;
        for (int r : row) {
            any = data.kind[r] == Reduction.Kind.END ? any : Math.min(any, data.pressureBar[r]);
            held = data.kind[r] == Reduction.Kind.HOLD ? Math.min(held, data.pressureBar[r]) : held;
        }
        return held < Double.POSITIVE_INFINITY ? held : any;
    }

    /** Σ of columns times coefficients, row by row, not whitened, bar. */
    double[] rawResidual(double[] coefficients) {
        double[] sum = new double[row.length];
        for (int c = 0; c < Columns.COUNT; c++) {
            if (coefficients[c] != 0) {
                for (int i = 0; i < sum.length; i++) {
                    sum[i] += coefficients[c] * data.column[c][row[i]];
                }
            }
        }
        return sum;
    }
}
