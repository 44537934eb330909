package org.holdtrace.estimate;

import java.util.Arrays;
import org.holdtrace.fit.GaussNewton;
import org.holdtrace.fit.Vectors;

/**
 * Half of chi-square with the priors' share, ½ γᵀ G γ + ½ |x|², of one leak law with one pair of thermal time constants: G
 * the Gram matrix of the whitened columns, γ(x) the coefficients of the balance. A function of those variables that the
 * evidence can feel; the others stay at what was thought of them.
 */
final class HalfChiSquare implements GaussNewton.Problem {
    /** No variable moves by more than this many of its standard deviations in one step. */
    private static final double LONGEST_STEP = 3;

    /** A column whose whitened square is below this cannot be felt. */
    private static final double FELT = 1e-4;

    /** All variables, those of {@link Knowledge} and then the leak parameters, where the function was linearised last. */
    final double[] x;
    /** Variables that take part. */
    final int[] active;
    /** Coefficients of the balance there. */
    final double[] gamma = new double[Columns.COUNT];

    private final Knowledge knowledge;
    private final LeakShape shape;
    private final int fast;
    private final int slow;
    private final int n;
    /** The variables in working units, for whoever calculates just now. */
    private final double[] value = new double[Knowledge.COUNT];

    private final double[] scratch = new double[Columns.COUNT];
    private final double[] trial;
    /** Columns of which neither the values nor the coefficient are always zero. */
    private final int[] used;
    /** The Gram matrix of the used columns. */
    private final double[] gram;
    /** d γ / d x, a row of used columns for each active variable. */
    private final double[] jacobian;
    /** γ of the used columns, for whoever calculates just now. */
    private final double[] part;
    /** Where in a row of it the first element is that is not zero, and where behind the last: most rows are short. */
    private final int[] from;

    private final int[] to;

    /**
     * @param start variables to begin at, or null to begin at what is thought beforehand
     */
    HalfChiSquare(Evidence evidence, Knowledge knowledge, LeakShape shape, int fast, int slow, double[] start) {
        this.knowledge = knowledge;
        this.shape = shape;
        this.fast = fast;
        this.slow = slow;
        this.n = Knowledge.COUNT + shape.column().length;
        this.x = new double[n];
        if (start != null) {
            System.arraycopy(start, 0, x, 0, n);
        }
        this.trial = x.clone();
        this.active = activeVariables(evidence);
        this.used = usedColumns(evidence);
        int k = used.length;
        this.gram = new double[k * k];
        for (int a = 0; a < k; a++) {
            for (int b = 0; b < k; b++) {
                gram[a * k + b] = evidence.gram[used[a] * Columns.COUNT + used[b]];
            }
        }
        this.jacobian = new double[active.length * k];
        this.part = new double[k];
        this.from = new int[active.length];
        this.to = new int[active.length];
    }

    private int[] activeVariables(Evidence evidence) {
        int[] list = new int[n];
        int count = 0;
        for (int v = 0; v < n; v++) {
            int column = switch (v) {
                case Knowledge.STROKE -> Columns.STROKES;
                case Knowledge.PUMP_LOSS -> Columns.STROKES_BAR;
                case Knowledge.BLED -> Columns.BLED;
                case Knowledge.AMBIENT -> Columns.AMBIENT_TEMPERATURE;
                case Knowledge.OIL_SENSOR -> Columns.OIL_TEMPERATURE;
                default -> Columns.PRESSURE;
            };
            if (evidence.gram[column * Columns.COUNT + column] > FELT) {
                list[count++] = v;
            }
        }
        return Arrays.copyOf(list, count);
    }

    private int[] usedColumns(Evidence evidence) {
        boolean[] use = new boolean[Columns.COUNT];
        Arrays.fill(use, 0, Columns.LAMINAR, true);
        knowledge.coefficients(knowledge.expected(), fast, slow, gamma);
        for (int c = Columns.RELAXATION; c < Columns.THRESHOLD; c++) {
            use[c] = gamma[c] != 0;
        }
        for (int c : shape.column()) {
            use[c] = true;
        }
        int[] list = new int[Columns.COUNT];
        int count = 0;
        for (int c = 0; c < Columns.COUNT; c++) {
            if (use[c] && evidence.gram[c * Columns.COUNT + c] > 0) {
                list[count++] = c;
            }
        }
        return Arrays.copyOf(list, count);
    }

    /** Where the search begins: the active ones of {@link #x}. */
    double[] start() {
        double[] at = new double[active.length];
        for (int i = 0; i < at.length; i++) {
            at[i] = x[active[i]];
        }
        return at;
    }

    @Override
    public double cost(double[] at) {
        for (int i = 0; i < active.length; i++) {
            trial[active[i]] = at[i];
        }
        return costOf(trial);
    }

    @Override
    public void linearise(double[] at, double[] gradient, double[] curvature) {
        for (int i = 0; i < active.length; i++) {
            x[active[i]] = at[i];
        }
        differentiate();
        assemble(gradient, curvature);
    }

    @Override
    public double longestStep(int variable) {
        return active[variable] < Knowledge.COUNT ? LONGEST_STEP : Double.POSITIVE_INFINITY;
    }

    /** Σ over variables of weight times d γ / d x, over all {@link Columns}. */
    double[] combination(double[] weight) {
        double[] out = new double[Columns.COUNT];
        int k = used.length;
        for (int i = 0; i < active.length; i++) {
            for (int a = 0; a < k; a++) {
                out[used[a]] += weight[active[i]] * jacobian[i * k + a];
            }
        }
        return out;
    }

    /** γ of the variables {@code at}, of which {@code value} holds what they are, into {@code out}. */
    private void coefficients(double[] at, double[] value, double[] out) {
        knowledge.coefficients(value, fast, slow, out);
        for (int i = 0; i < shape.column().length; i++) {
            out[shape.column()[i]] = shape.sign(i) * shape.scale()[i] * at[Knowledge.COUNT + i];
        }
    }

    private double costOf(double[] at) {
        knowledge.values(at, value);
        coefficients(at, value, scratch);
        int k = used.length;
        for (int a = 0; a < k; a++) {
            part[a] = scratch[used[a]];
        }
        double sum = 0;
        for (int a = 0; a < k; a++) {
            sum += part[a] * Vectors.dot(gram, a * k, part, 0, k);
        }
        for (double v : at) {
            sum += v * v;
        }
        return 0.5 * sum;
    }

    /** γ at x and what it changes by with each active variable. */
    private void differentiate() {
        knowledge.values(x, value);
        coefficients(x, value, gamma);
        int k = used.length;
        double h = 1e-4;
        for (int i = 0; i < active.length; i++) {
            int v = active[i];
            if (v >= Knowledge.COUNT) {
                int leak = v - Knowledge.COUNT;
                for (int a = 0; a < k; a++) {
                    jacobian[i * k + a] = used[a] == shape.column()[leak] ? shape.sign(leak) * shape.scale()[leak] : 0;
                }
                bound(i, k);
                continue;
            }
            double kept = value[v];
            value[v] = knowledge.value(v, x[v] + h);
            coefficients(x, value, scratch);
            value[v] = kept;
            for (int a = 0; a < k; a++) {
                jacobian[i * k + a] = (scratch[used[a]] - gamma[used[a]]) / h;
            }
            bound(i, k);
        }
    }

    private void bound(int i, int k) {
        int a = 0;
        while (a < k && jacobian[i * k + a] == 0) {
            a++;
        }
        int b = k;
        while (b > a && jacobian[i * k + b - 1] == 0) {
            b--;
        }
        from[i] = a;
        to[i] = b;
    }

    private void assemble(double[] gradient, double[] hessian) {
        int m = active.length;
        int k = used.length;
        double[] gTimesJ = new double[k];
        for (int i = 0; i < m; i++) {
            Arrays.fill(gTimesJ, 0);
            for (int b = from[i]; b < to[i]; b++) {
                double j = jacobian[i * k + b];
                if (j != 0) {
                    Vectors.addMultiple(gTimesJ, 0, j, gram, b * k, k);
                }
            }
            double g = x[active[i]];
            for (int a = 0; a < k; a++) {
                g += gTimesJ[a] * gamma[used[a]];
            }
            gradient[i] = g;
            for (int w = 0; w <= i; w++) {
                hessian[i * m + w] = Vectors.dot(gTimesJ, from[w], jacobian, w * k + from[w], to[w] - from[w]);
            }
            hessian[i * m + i] += 1;
        }
    }
}
