package org.holdtrace.estimate;

import java.util.Arrays;
import org.holdtrace.fit.Cholesky;
import org.holdtrace.fit.GaussNewton;
import org.holdtrace.fit.Measurand;
import org.holdtrace.fit.Uncertainty;
import org.holdtrace.fit.Vectors;
import org.holdtrace.leak.Law;

/**
 * One leak law with one pair of thermal time constants, fitted to the evidence and to what is known: the most probable
 * values of all variables, and the curvature about them (Laplace).
 *
 * <p>Minimises ½ γᵀ G γ + ½ |x|²: G the Gram matrix of the whitened columns, γ(x) the coefficients of the balance. Only
 * variables that the evidence can feel take part; the others stay at what was thought of them.
 */
final class NodeFit {
    private static final int STEPS = 20;

    /** No variable moves by more than this many of its standard deviations in one step. */
    private static final double LONGEST_STEP = 3;

    /** An improvement of half chi-square by less than this ends the search. */
    private static final double ENOUGH = 0.02;

    /** A column whose whitened square is below this cannot be felt. */
    private static final double FELT = 1e-4;

    final LeakShape shape;
    final int fast;
    final int slow;
    /** Variables: those of {@link Knowledge}, then the leak parameters. */
    final double[] x;
    /** Half of chi-square with the priors' share. */
    double cost;

    double logDeterminant;
    /** Coefficients of the balance at the solution. */
    final double[] gamma = new double[Columns.COUNT];
    /** What γ was divided by: the compliance a fast change sees at the norm pressure, cm³/bar. */
    double compliance;

    private final Knowledge knowledge;
    private final int n;
    /** The variables in working units, for whoever calculates just now. */
    private final double[] value = new double[Knowledge.COUNT];
    /** Variables that take part. */
    private final int[] active;
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
    /** Cholesky factor (lower) of the Hessian of the active variables, row by row. */
    private double[] factor;

    private NodeFit(Evidence evidence, Knowledge knowledge, LeakShape shape, int fast, int slow) {
        this.knowledge = knowledge;
        this.shape = shape;
        this.fast = fast;
        this.slow = slow;
        this.n = Knowledge.COUNT + shape.column().length;
        this.x = new double[n];
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

    /**
     * @param start variables to begin at, or null to begin at what is thought beforehand
     */
    static NodeFit fit(Evidence evidence, Knowledge knowledge, LeakShape shape, int fast, int slow, double[] start) {
        NodeFit fit = new NodeFit(evidence, knowledge, shape, fast, slow);
        if (start != null) {
            System.arraycopy(start, 0, fit.x, 0, fit.n);
        }
        fit.solve();
        return fit;
    }

    /** γ of the variables {@code at}, of which {@code value} holds what they are; returns what it was divided by. */
    private double coefficients(double[] at, double[] value, double[] out) {
        double c = knowledge.coefficients(value, fast, slow, out);
        for (int i = 0; i < shape.column().length; i++) {
            out[shape.column()[i]] = shape.sign(i) * shape.scale()[i] * at[Knowledge.COUNT + i];
        }
        return c;
    }

    /** Leak in cm³/s at gauge pressure {@code bar} for variables {@code at}. */
    double leak(double[] at, double bar) {
        double[] value = new double[Knowledge.COUNT];
        knowledge.sizes(at, value);
        return leak(at, knowledge.compliance(value), bar * value[Knowledge.GAIN], 1, 1);
    }

    /** Leak at a pressure as it truly is; flow through clearances and through orifices times the factors given. */
    private double leak(double[] at, double complianceNow, double trueBar, double laminar, double orifice) {
        if (shape.law() == Law.THRESHOLD && shape.scale()[0] * at[Knowledge.COUNT] > 0) {
            // Not by its columns: they are for one opening pressure, and know nothing of a leak below it.
            double over = Math.max(0, trueBar - opening(at));
            return complianceNow * laminar * shape.scale()[0] * at[Knowledge.COUNT] * over;
        }
        double sum = 0;
        for (int i = 0; i < shape.column().length; i++) {
            // A valve that opens early is a clearance while it is barely open, and is carried as one.
            double carried = shape.column()[i] == Columns.ORIFICE ? orifice : laminar;
            sum += shape.sign(i) * carried * shape.scale()[i] * at[Knowledge.COUNT + i] * shape.flow(i, trueBar);
        }
        return complianceNow * sum;
    }

    /**
     * Leaks at {@code bar} and the isothermal compliance at its first into column {@code to} of {@code out}.
     *
     * @param drawn the compliances for draws about this fit
     * @param laminar factor on flow through clearances
     * @param orifice factor on flow through orifices
     * @param lowestBar the lowest pressure the leak was seen at
     * @param unseen share, 0 to 1, of what leaks there that a valve which opens early still passes below, in proportion to
     *     pressure: nobody saw that it shuts
     */
    void quantities(
            double[] at,
            DrawnCompliance drawn,
            double[] bar,
            double laminar,
            double orifice,
            double lowestBar,
            double unseen,
            double[][] out,
            int to) {
        double c = drawn.fast(at);
        double gain = knowledge.value(Knowledge.GAIN, at[Knowledge.GAIN]);
        for (int i = 0; i < bar.length; i++) {
            out[i][to] = leak(at, c, bar[i] * gain, laminar, orifice);
            if (shape.law() == Law.THRESHOLD && bar[i] < lowestBar) {
                double still = unseen * leak(at, c, lowestBar * gain, laminar, orifice) * bar[i] / lowestBar;
                out[i][to] = Math.max(out[i][to], still);
            }
        }
        out[bar.length][to] = drawn.isothermal(at);
    }

    /** The compliance a fast change sees at the norm pressure, cm³/bar as measured. */
    double fastCompliance(double[] at) {
        knowledge.sizes(at, value);
        return knowledge.compliance(value);
    }

    /** The isothermal compliance at {@code bar}, cm³/bar. */
    double isothermalCompliance(double[] at, double bar) {
        knowledge.sizes(at, value);
        return knowledge.isothermalCompliance(value, bar);
    }

    private double cost(double[] at, double[] scratch) {
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

    private void solve() {
        int m = active.length;
        double[] at = new double[m];
        for (int i = 0; i < m; i++) {
            at[i] = x[active[i]];
        }
        GaussNewton search = new GaussNewton(new Sum(), at);
        search.minimise(STEPS, ENOUGH, Double.POSITIVE_INFINITY);
        cost = search.cost();
        factor = search.factor();
        logDeterminant = Cholesky.logDeterminant(factor, m);
    }

    /** Half chi-square with the priors' share, as a function of the variables that take part. */
    private final class Sum implements GaussNewton.Problem {
        private final double[] scratch = new double[Columns.COUNT];
        private final double[] trial = x.clone();

        @Override
        public double cost(double[] at) {
            for (int i = 0; i < active.length; i++) {
                trial[active[i]] = at[i];
            }
            return NodeFit.this.cost(trial, scratch);
        }

        @Override
        public void linearise(double[] at, double[] gradient, double[] curvature) {
            for (int i = 0; i < active.length; i++) {
                x[active[i]] = at[i];
            }
            NodeFit.this.linearise(scratch);
            assemble(gradient, curvature);
        }

        @Override
        public double longestStep(int variable) {
            return active[variable] < Knowledge.COUNT ? LONGEST_STEP : Double.POSITIVE_INFINITY;
        }
    }

    private void linearise(double[] shifted) {
        knowledge.values(x, value);
        compliance = coefficients(x, value, gamma);
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
            coefficients(x, value, shifted);
            value[v] = kept;
            for (int a = 0; a < k; a++) {
                jacobian[i * k + a] = (shifted[used[a]] - gamma[used[a]]) / h;
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

    /** Where the valve opens, bar: the opening pressure the columns were made for, moved as the fit would have it. */
    double opening() {
        return opening(x);
    }

    private double opening(double[] at) {
        double g = shape.scale()[0] * at[Knowledge.COUNT];
        double moved = shape.column().length > 1 && g > 0 ? shape.scale()[1] * at[Knowledge.COUNT + 1] / g : 0;
        return shape.thresholdBar() + moved;
    }

    int variables() {
        return n;
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

    /** Solves H y = b; a variable that takes no part has curvature 1. */
    double[] solveHessian(double[] b) {
        double[] out = b.clone();
        double[] part = new double[active.length];
        for (int i = 0; i < part.length; i++) {
            part[i] = b[active[i]];
        }
        Cholesky.solve(factor, part.length, part);
        for (int i = 0; i < part.length; i++) {
            out[active[i]] = part[i];
        }
        return out;
    }

    /**
     * A draw from the Laplace approximation.
     *
     * @param normal as many standard normals as there are variables; spoilt
     */
    void draw(double[] normal, double[] out) {
        Cholesky.solveUpper(factor, active.length, normal);
        System.arraycopy(x, 0, out, 0, n);
        for (int i = 0; i < active.length; i++) {
            out[active[i]] += normal[i];
        }
    }

    /** d leak(bar) / d x. */
    double[] leakGradient(double bar) {
        double[] step = new double[n];
        for (int v = 0; v < n; v++) {
            step[v] = v < Knowledge.COUNT ? 1e-3 : 1e-6;
        }
        return Uncertainty.gradient(new LeakAt(bar), x, step);
    }

    private final class LeakAt implements Measurand {
        private final double bar;

        LeakAt(double bar) {
            this.bar = bar;
        }

        @Override
        public double value(double[] at) {
            return leak(at, bar);
        }
    }

    /** Standard uncertainty of the leak at {@code bar} (cm³/s) if the variables {@code fixed} were known exactly. */
    double leakUncertainty(double bar, int[] fixed) {
        double[] gradient = leakGradient(bar);
        int m = active.length;
        boolean[] known = new boolean[n];
        for (int v : fixed) {
            known[v] = true;
        }
        double[] h = new double[m * m];
        double[] g = new double[m];
        for (int i = 0; i < m; i++) {
            g[i] = known[active[i]] ? 0 : gradient[active[i]];
            for (int j = 0; j < m; j++) {
                double sum = 0;
                for (int k = 0; k <= Math.min(i, j); k++) {
                    sum += factor[i * m + k] * factor[j * m + k];
                }
                h[i * m + j] = known[active[i]] || known[active[j]] ? (i == j ? 1 : 0) : sum;
            }
        }
        if (!Cholesky.factor(h, m)) {
            return 0;
        }
        double[] y = g.clone();
        Cholesky.solve(h, m, y);
        double square = 0;
        for (int i = 0; i < m; i++) {
            square += g[i] * y[i];
        }
        return Math.sqrt(Math.max(0, square));
    }
}
