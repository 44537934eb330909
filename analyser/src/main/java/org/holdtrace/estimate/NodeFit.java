package org.holdtrace.estimate;

import org.holdtrace.fit.Cholesky;
import org.holdtrace.fit.GaussNewton;
import org.holdtrace.fit.Measurand;
import org.holdtrace.fit.Uncertainty;
import org.holdtrace.leak.Law;

/**
 * One leak law with one pair of thermal time constants, fitted to the evidence and to what is known: the most probable
 * values of all variables, where {@link HalfChiSquare} is least, and the curvature about them (Laplace).
 */
final class NodeFit {
    private static final int STEPS = 20;

    /** An improvement of half chi-square by less than this ends the search. */
    private static final double ENOUGH = 0.02;

    /** So many widths of its foot above it a valve is as good as without one. */
    private static final double FAR_FROM_FOOT = 30;

    final LeakShape shape;
    final int fast;
    final int slow;
    /** Variables: those of {@link Knowledge}, then the leak parameters. */
    final double[] x;
    /** Half of chi-square with the priors' share. */
    final double cost;

    final double logDeterminant;
    /** Coefficients of the balance at the solution. */
    final double[] gamma;

    private final Knowledge knowledge;
    private final HalfChiSquare balance;
    private final int n;
    /** The variables in working units, for whoever calculates just now. */
    private final double[] value = new double[Knowledge.COUNT];
    /** Variables that take part. */
    private final int[] active;
    /** Cholesky factor (lower) of the Hessian of the active variables, row by row. */
    private final double[] factor;

    private NodeFit(Knowledge knowledge, LeakShape shape, int fast, int slow, HalfChiSquare balance) {
        this.knowledge = knowledge;
        this.shape = shape;
        this.fast = fast;
        this.slow = slow;
        this.balance = balance;
        GaussNewton search = new GaussNewton(balance, balance.start());
        search.minimise(STEPS, ENOUGH, Double.POSITIVE_INFINITY);
        this.cost = search.cost();
        this.factor = search.factor();
        this.x = balance.x;
        this.n = x.length;
        this.active = balance.active;
        this.gamma = balance.gamma;
        this.logDeterminant = Cholesky.logDeterminant(factor, active.length);
    }

    /**
     * @param start variables to begin at, or null to begin at what is thought beforehand
     */
    static NodeFit fit(Evidence evidence, Knowledge knowledge, LeakShape shape, int fast, int slow, double[] start) {
        HalfChiSquare balance = new HalfChiSquare(evidence, knowledge, shape, fast, slow, start);
        return new NodeFit(knowledge, shape, fast, slow, balance);
    }

    /** Leak in cm³/s at gauge pressure {@code bar} for variables {@code at}. */
    double leak(double[] at, double bar) {
        double[] value = new double[Knowledge.COUNT];
        knowledge.sizes(at, value);
        return leak(at, knowledge.compliance(value), bar * value[Knowledge.GAIN], 1, 1, 0);
    }

    /**
     * Leak at a pressure as it truly is; flow through clearances and through orifices times the factors given; a valve
     * opens over {@code foot} of its opening pressure.
     */
    private double leak(
            double[] at, double complianceNow, double trueBar, double laminar, double orifice, double foot) {
        if (shape.law() == Law.THRESHOLD && shape.scale()[0] * at[Knowledge.COUNT] > 0) {
            // Not by its columns: they are for one opening pressure, and know nothing of a leak below it.
            double flow = shape.scale()[0] * at[Knowledge.COUNT] * above(trueBar, opening(at), foot);
            for (int i = 2; i < shape.column().length; i++) {
                flow += shape.scale()[i] * at[Knowledge.COUNT + i] * shape.flow(i, trueBar);
            }
            return complianceNow * laminar * Math.max(0, flow);
        }
        double sum = 0;
        for (int i = 0; i < shape.column().length; i++) {
            // A valve that opens early is a clearance while it is barely open, and is carried as one.
            double carried = shape.column()[i] == Columns.ORIFICE ? orifice : laminar;
            sum += shape.sign(i) * carried * shape.scale()[i] * at[Knowledge.COUNT + i] * shape.flow(i, trueBar);
        }
        return complianceNow * sum;
    }

    /** How far {@code bar} is above the opening pressure, where the valve is shut and open by turns over a foot about it. */
    private static double above(double bar, double opening, double foot) {
        double width = foot * opening;
        double z = width > 0 ? (bar - opening) / width : Double.POSITIVE_INFINITY;
        return z < FAR_FROM_FOOT ? width * Math.log1p(Math.exp(z)) : Math.max(0, bar - opening);
    }

    /**
     * Leaks at {@code bar} and the isothermal compliance at its first into column {@code to} of {@code out}.
     *
     * @param drawn the compliances for draws about this fit
     * @param laminar factor on flow through clearances
     * @param orifice factor on flow through orifices
     * @param lowestBar the lowest pressure the leak was seen at
     * @param foot over which share of its opening pressure a valve opens, 0 for at once
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
            double foot,
            double unseen,
            double[][] out,
            int to) {
        double c = drawn.fast(at);
        double gain = knowledge.value(Knowledge.GAIN, at[Knowledge.GAIN]);
        for (int i = 0; i < bar.length; i++) {
            out[i][to] = leak(at, c, bar[i] * gain, laminar, orifice, foot);
            if (shape.law() == Law.THRESHOLD && bar[i] < lowestBar) {
                double still = unseen * leak(at, c, lowestBar * gain, laminar, orifice, foot) * bar[i] / lowestBar;
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
        return balance.combination(weight);
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
