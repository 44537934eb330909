package org.holdtrace.estimate;

/**
 * A set of rows with their covariance, whitened: all that the fits need to know of the data is the Gram matrix
 * XᵀΣ⁻¹X of the columns, since every model of this package is a linear combination of them.
 */
final class Evidence {
    /** Standard deviation given to a step of unknown size, in multiples of the largest pressure. */
    private static final double UNKNOWN = 20;

    final Reduction data;
    final int[] row;
    final double[] gram;
    private final double[][] covariance;
    private final double[][] whitened;
    private final double[][] lower;
    final double logDeterminant;

    private Evidence(Reduction data, int[] row, double[][] covariance) {
        this.data = data;
        this.row = row;
        this.covariance = covariance;
        int n = row.length;
        lower = new double[n][];
        double log = 0;
        for (int i = 0; i < n; i++) {
            double[] li = new double[i + 1];
            lower[i] = li;
            double[] ci = covariance[i];
            for (int j = 0; j <= i; j++) {
                double[] lj = lower[j];
                double sum = ci[j];
                for (int k = 0; k < j; k++) {
                    sum -= li[k] * lj[k];
                }
                if (j < i) {
                    li[j] = sum / lj[j];
                } else {
                    li[i] = Math.sqrt(Math.max(sum, 1e-14 * ci[i]));
                    log += 2 * Math.log(li[i]);
                }
            }
        }
        logDeterminant = log;
        whitened = new double[Columns.COUNT][];
        for (int c = 0; c < Columns.COUNT; c++) {
            whitened[c] = forward(pick(data.column[c], row));
        }
        gram = new double[Columns.COUNT * Columns.COUNT];
        for (int a = 0; a < Columns.COUNT; a++) {
            for (int b = a; b < Columns.COUNT; b++) {
                double sum = 0;
                double[] x = whitened[a];
                double[] y = whitened[b];
                for (int i = 0; i < n; i++) {
                    sum += x[i] * y[i];
                }
                gram[a * Columns.COUNT + b] = sum;
                gram[b * Columns.COUNT + a] = sum;
            }
        }
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
        double[][] shape = errors.shapes(data, row);
        double[] local = errors.local();
        double[] modelBar = errors.airBar();
        double big = UNKNOWN * Math.max(data.peakBar, 1);
        double stroke = noise.scatter() * errors.strokeBar();
        for (int i = 0; i < n; i++) {
            int a = row[i];
            s[i] = new double[i + 1];
            for (int j = 0; j <= i; j++) {
                int b = row[j];
                double known = Math.min(
                        data.strokesBefore[a] - data.unknownBefore[a], data.strokesBefore[b] - data.unknownBefore[b]);
                double unknown = Math.min(data.unknownBefore[a], data.unknownBefore[b]);
                double v = big * big * (1 + unknown) + stroke * stroke * known;
                v += noise.walkBar() * noise.walkBar() * Math.min(data.timeS[a], data.timeS[b]);
                double k = local[a] * local[b];
                if (i == j) {
                    double white = noise.whiteBar() * noise.whiteBar() / data.samples[a];
                    double quantum = noise.quantumBar() * noise.quantumBar() / 12;
                    v += k * (white + quantum + noise.colourVariance(data.lengthS[a])) + modelBar[a] * modelBar[a];
                } else if (noise.colourBar() > 0) {
                    v += k
                            * noise.colourCovariance(
                                    data.lengthS[a], data.lengthS[b], Math.abs(data.timeS[a] - data.timeS[b]));
                }
                for (double[] e : shape) {
                    v += e[i] * e[j];
                }
                s[i][j] = v;
            }
        }
        return new Evidence(data, row, s);
    }

    private static double[] pick(double[] column, int[] row) {
        double[] out = new double[row.length];
        for (int i = 0; i < row.length; i++) {
            out[i] = column[row[i]];
        }
        return out;
    }

    /** L⁻¹ v. */
    private double[] forward(double[] v) {
        double[] out = v.clone();
        for (int i = 0; i < out.length; i++) {
            double[] li = lower[i];
            double sum = out[i];
            for (int k = 0; k < i; k++) {
                sum -= li[k] * out[k];
            }
            out[i] = sum / li[i];
        }
        return out;
    }

    /** L⁻ᵀ v. */
    private double[] backward(double[] v) {
        double[] out = v.clone();
        for (int i = out.length - 1; i >= 0; i--) {
            double sum = out[i] / lower[i][i];
            out[i] = sum;
            double[] li = lower[i];
            for (int k = 0; k < i; k++) {
                out[k] -= li[k] * sum;
            }
        }
        return out;
    }

    /** Σ⁻¹ X γ' for a combination γ' of columns: how each raw row enters what is fitted along γ'. */
    double[] sensitivity(double[] combination) {
        double[] sum = new double[row.length];
        for (int c = 0; c < Columns.COUNT; c++) {
            if (combination[c] != 0) {
                double[] w = whitened[c];
                for (int i = 0; i < sum.length; i++) {
                    sum[i] += combination[c] * w[i];
                }
            }
        }
        return backward(sum);
    }

    /** Covariance of raw rows {@code i} and {@code j} (positions within {@link #row}). */
    double covariance(int i, int j) {
        return i >= j ? covariance[i][j] : covariance[j][i];
    }

    /** Residuals of the rows in bar, the unknown constant and unknown strokes taken off by generalised least squares. */
    double[] whitenedResidual(double[] coefficients) {
        double[] sum = new double[row.length];
        for (int c = 0; c < Columns.COUNT; c++) {
            if (coefficients[c] != 0) {
                for (int i = 0; i < sum.length; i++) {
                    sum[i] += coefficients[c] * whitened[c][i];
                }
            }
        }
        return sum;
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
