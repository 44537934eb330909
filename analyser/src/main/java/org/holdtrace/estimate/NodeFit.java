package org.holdtrace.estimate;

import java.util.Arrays;
import org.holdtrace.fit.Cholesky;

/**
 * One leak law with one pair of thermal time constants, fitted to the evidence and to what is known: the most probable
 * values of all variables, and the curvature about them (Gauss–Newton with damping, Laplace).
 *
 * <p>Minimises ½ γᵀ G γ + ½ |x|²: G the Gram matrix of the whitened columns, γ(x) the coefficients of the balance. Only
 * variables that the evidence can feel take part; the others stay at what was thought of them.
 *
 * <p>Its own loop and not {@link org.holdtrace.fit.LeastSquares}, whose triangularised Jacobian makes the whole estimate
 * cost a third more. Over 169 simulated hold tests that solver, run to rounding, moves the rate or an end of its interval by
 * half a percent of the interval in the median and by more than a tenth in four; coverage is the same but for one test.
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
     */
    void quantities(
            double[] at, DrawnCompliance drawn, double[] bar, double laminar, double orifice, double[][] out, int to) {
        double c = drawn.fast(at);
        double gain = knowledge.value(Knowledge.GAIN, at[Knowledge.GAIN]);
        for (int i = 0; i < bar.length; i++) {
            out[i][to] = leak(at, c, bar[i] * gain, laminar, orifice);
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
        double sum = 0;
        for (int a = 0; a < k; a++) {
            double line = 0;
            for (int b = 0; b < k; b++) {
                line += gram[a * k + b] * scratch[used[b]];
            }
            sum += scratch[used[a]] * line;
        }
        for (double v : at) {
            sum += v * v;
        }
        return 0.5 * sum;
    }

    private void solve() {
        int m = active.length;
        double[] scratch = new double[Columns.COUNT];
        double[] trial = x.clone();
        double[] gradient = new double[m];
        double[] hessian = new double[m * m];
        double[] step = new double[m];
        cost = cost(x, scratch);
        double damping = 0;
        for (int iteration = 0; iteration < STEPS; iteration++) {
            linearise(scratch);
            assemble(gradient, hessian);
            boolean better = false;
            double before = cost;
            for (int attempt = 0; attempt < 8 && !better; attempt++) {
                factor = hessian.clone();
                for (int i = 0; i < m; i++) {
                    factor[i * m + i] *= 1 + damping;
                    step[i] = gradient[i];
                }
                if (Cholesky.factor(factor, m)) {
                    Cholesky.solve(factor, m, step);
                    better = tryStep(step, trial, scratch);
                }
                damping = better ? (damping < 1e-3 ? 0 : damping / 10) : Math.max(1e-3, damping * 10);
            }
            if (!better || before - cost < ENOUGH) {
                break;
            }
        }
        linearise(scratch);
        assemble(gradient, hessian);
        factor = hessian;
        // The Hessian is the identity plus a square: it has a factor unless rounding ate the identity.
        if (!Cholesky.factor(factor, m)) {
            throw new IllegalStateException("the curvature of the fit is not finite");
        }
        logDeterminant = Cholesky.logDeterminant(factor, m);
    }

    private boolean tryStep(double[] step, double[] trial, double[] scratch) {
        double length = 1;
        for (int i = 0; i < active.length; i++) {
            if (active[i] < Knowledge.COUNT) {
                length = Math.min(length, LONGEST_STEP / Math.max(1e-300, Math.abs(step[i])));
            }
        }
        for (int i = 0; i < active.length; i++) {
            trial[active[i]] = x[active[i]] - length * step[i];
        }
        double c = cost(trial, scratch);
        if (c <= cost + 1e-9) {
            System.arraycopy(trial, 0, x, 0, n);
            cost = c;
            return true;
        }
        return false;
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
                continue;
            }
            double kept = value[v];
            value[v] = knowledge.value(v, x[v] + h);
            coefficients(x, value, shifted);
            value[v] = kept;
            for (int a = 0; a < k; a++) {
                jacobian[i * k + a] = (shifted[used[a]] - gamma[used[a]]) / h;
            }
        }
    }

    private void assemble(double[] gradient, double[] hessian) {
        int m = active.length;
        int k = used.length;
        double[] gTimesJ = new double[k];
        for (int i = 0; i < m; i++) {
            Arrays.fill(gTimesJ, 0);
            for (int b = 0; b < k; b++) {
                double j = jacobian[i * k + b];
                if (j != 0) {
                    for (int a = 0; a < k; a++) {
                        gTimesJ[a] += gram[b * k + a] * j;
                    }
                }
            }
            double g = x[active[i]];
            for (int a = 0; a < k; a++) {
                g += gTimesJ[a] * gamma[used[a]];
            }
            gradient[i] = g;
            for (int w = 0; w <= i; w++) {
                double sum = 0;
                for (int a = 0; a < k; a++) {
                    sum += gTimesJ[a] * jacobian[w * k + a];
                }
                hessian[i * m + w] = sum;
                hessian[w * m + i] = sum;
            }
            hessian[i * m + i] += 1;
        }
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

    /** d leak(bar) / d x by central differences. */
    double[] leakGradient(double bar) {
        double[] g = new double[n];
        double[] at = x.clone();
        for (int v = 0; v < n; v++) {
            double h = v < Knowledge.COUNT ? 1e-3 : 1e-6;
            at[v] = x[v] + h;
            double up = leak(at, bar);
            at[v] = x[v] - h;
            double down = leak(at, bar);
            at[v] = x[v];
            g[v] = (up - down) / (2 * h);
        }
        return g;
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
