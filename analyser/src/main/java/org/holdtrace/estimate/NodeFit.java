package org.holdtrace.estimate;

import java.util.Arrays;

/**
 * One leak law with one pair of thermal time constants, fitted to the evidence and to what is known: the most probable
 * values of all variables, and the curvature about them (Gauss–Newton, Laplace).
 *
 * <p>Minimises ½ γᵀ G γ + ½ |x|²: G the Gram matrix of the whitened columns, γ(x) the coefficients of the balance.
 */
final class NodeFit {
    private static final int STEPS = 20;

    final LeakShape shape;
    final int fast;
    final int slow;
    /** Variables: those of {@link Knowledge}, then the leak parameters. */
    final double[] x;
    /** Half of chi-square with the priors' share. */
    double cost;
    /** Cholesky factor (lower) of the Hessian, row by row. */
    double[] factor;

    double logDeterminant;
    /** d γ / d x at the solution, column-major by variable over {@link Columns}. */
    final double[][] jacobian;

    final double[] gamma = new double[Columns.COUNT];
    double compliance;

    private final Knowledge knowledge;
    private final int n;
    private final int[] used;

    private NodeFit(Knowledge knowledge, LeakShape shape, int fast, int slow) {
        this.knowledge = knowledge;
        this.shape = shape;
        this.fast = fast;
        this.slow = slow;
        this.n = Knowledge.COUNT + shape.column().length;
        this.x = new double[n];
        this.jacobian = new double[n][Columns.COUNT];
        boolean[] use = new boolean[Columns.COUNT];
        Arrays.fill(use, 0, Columns.LAMINAR, true);
        double[] probe = new double[Columns.COUNT];
        knowledge.coefficients(x, fast, slow, probe);
        for (int c = Columns.RELAXATION; c < Columns.THRESHOLD; c++) {
            use[c] = probe[c] != 0;
        }
        use[Columns.RELAXATION + fast] = true;
        use[Columns.RELAXATION + slow] = true;
        for (int c : shape.column()) {
            use[c] = true;
        }
        int[] list = new int[Columns.COUNT];
        int count = 0;
        for (int c = 0; c < Columns.COUNT; c++) {
            if (use[c]) {
                list[count++] = c;
            }
        }
        this.used = Arrays.copyOf(list, count);
    }

    static NodeFit fit(Evidence evidence, Knowledge knowledge, LeakShape shape, int fast, int slow, double[] start) {
        NodeFit fit = new NodeFit(knowledge, shape, fast, slow);
        if (start != null) {
            System.arraycopy(start, 0, fit.x, 0, fit.n);
        }
        fit.solve(evidence.gram);
        return fit;
    }

    /** γ(x); returns the compliance it was divided by. */
    double coefficients(double[] at, double[] out) {
        double c = knowledge.coefficients(at, fast, slow, out);
        for (int i = 0; i < shape.column().length; i++) {
            out[shape.column()[i]] =
                    (shape.column()[i] >= Columns.OPEN_TIME ? -1 : 1) * shape.scale()[i] * at[Knowledge.COUNT + i];
        }
        return c;
    }

    /** Leak in cm³/s at gauge pressure {@code bar} for variables {@code at}. */
    double leak(double[] at, double bar) {
        double[] scratch = new double[Columns.COUNT];
        double c = knowledge.coefficients(at, fast, slow, scratch);
        return leak(at, c, bar, Carry.NONE);
    }

    private double leak(double[] at, double complianceNow, double bar, Carry carry) {
        double gain = 1 + knowledge.prior(Knowledge.GAIN).spread() * at[Knowledge.GAIN];
        double sum = 0;
        for (int i = 0; i < shape.column().length; i++) {
            double sign = shape.column()[i] >= Columns.OPEN_TIME ? -1 : 1;
            sum += sign
                    * carried(shape.column()[i], carry)
                    * shape.scale()[i]
                    * at[Knowledge.COUNT + i]
                    * shape.flow(i, bar * gain);
        }
        return complianceNow * sum;
    }

    /** Leaks at {@code bar} and the isothermal compliance at its first into column {@code to} of {@code out}. */
    void quantities(double[] at, double[] bar, Carry carry, double[] scratch, double[][] out, int to) {
        double c = knowledge.coefficients(at, fast, slow, scratch);
        for (int i = 0; i < bar.length; i++) {
            out[i][to] = leak(at, c, bar[i], carry);
        }
        out[bar.length][to] = knowledge.isothermalCompliance(at, bar[0]);
    }

    /** A valve that opens early is a clearance while it is barely open, and is carried as one. */
    private static double carried(int column, Carry carry) {
        return column == Columns.ORIFICE ? carry.orifice() : carry.laminar();
    }

    private double cost(double[] at, double[] gram, double[] scratch) {
        coefficients(at, scratch);
        double sum = 0;
        for (int a : used) {
            double line = 0;
            int base = a * Columns.COUNT;
            for (int b : used) {
                line += gram[base + b] * scratch[b];
            }
            sum += scratch[a] * line;
        }
        for (double v : at) {
            sum += v * v;
        }
        return 0.5 * sum;
    }

    private void solve(double[] gram) {
        double[] scratch = new double[Columns.COUNT];
        double[] trial = new double[n];
        double[] gradient = new double[n];
        double[] hessian = new double[n * n];
        double[] step = new double[n];
        double[] gTimesJ = new double[Columns.COUNT];
        cost = cost(x, gram, scratch);
        double damping = 0;
        for (int iteration = 0; iteration < STEPS; iteration++) {
            linearise();
            assemble(gram, gradient, hessian, gTimesJ);
            boolean better = false;
            double before = cost;
            for (int attempt = 0; attempt < 8 && !better; attempt++) {
                double[] h = hessian.clone();
                for (int i = 0; i < n; i++) {
                    h[i * n + i] *= 1 + damping;
                }
                factor = cholesky(h, n);
                solveFactor(factor, n, gradient, step);
                double length = 1;
                for (int i = 0; i < Knowledge.COUNT; i++) {
                    // A variable that wants to go many standard deviations at once is led there in steps.
                    length = Math.min(length, 3 / Math.max(1e-300, Math.abs(step[i])));
                }
                for (int i = 0; i < n; i++) {
                    trial[i] = x[i] - length * step[i];
                }
                double c = cost(trial, gram, scratch);
                if (c <= cost + 1e-9) {
                    System.arraycopy(trial, 0, x, 0, n);
                    cost = c;
                    better = true;
                    damping = damping < 1e-3 ? 0 : damping / 10;
                } else {
                    damping = Math.max(1e-3, damping * 10);
                }
            }
            if (!better || before - cost < 0.02) {
                break;
            }
        }
        linearise();
        assemble(gram, gradient, hessian, gTimesJ);
        factor = cholesky(hessian, n);
        logDeterminant = 0;
        for (int i = 0; i < n; i++) {
            logDeterminant += 2 * Math.log(factor[i * n + i]);
        }
    }

    private void linearise() {
        double[] shifted = new double[Columns.COUNT];
        compliance = coefficients(x, gamma);
        double[] at = x.clone();
        for (int v = 0; v < n; v++) {
            double[] column = jacobian[v];
            Arrays.fill(column, 0);
            if (v >= Knowledge.COUNT) {
                int i = v - Knowledge.COUNT;
                int c = shape.column()[i];
                column[c] = (c >= Columns.OPEN_TIME ? -1 : 1) * shape.scale()[i];
                continue;
            }
            double h = 1e-4;
            at[v] = x[v] + h;
            coefficients(at, shifted);
            at[v] = x[v];
            for (int c : used) {
                column[c] = (shifted[c] - gamma[c]) / h;
            }
        }
    }

    private void assemble(double[] gram, double[] gradient, double[] hessian, double[] gTimesJ) {
        for (int v = 0; v < n; v++) {
            double[] jv = jacobian[v];
            for (int a : used) {
                double sum = 0;
                int base = a * Columns.COUNT;
                for (int b : used) {
                    sum += gram[base + b] * jv[b];
                }
                gTimesJ[a] = sum;
            }
            double g = x[v];
            for (int a : used) {
                g += gTimesJ[a] * gamma[a];
            }
            gradient[v] = g;
            for (int w = 0; w <= v; w++) {
                double[] jw = jacobian[w];
                double sum = 0;
                for (int a : used) {
                    sum += gTimesJ[a] * jw[a];
                }
                hessian[v * n + w] = sum;
                hessian[w * n + v] = sum;
            }
            hessian[v * n + v] += 1;
        }
    }

    int variables() {
        return n;
    }

    /** Solves H y = b with the factor of the Hessian. */
    double[] solveHessian(double[] b) {
        double[] out = new double[n];
        solveFactor(factor, n, b, out);
        return out;
    }

    /** x + L⁻ᵀ z: a draw from the Laplace approximation for a vector {@code z} of standard normals. */
    void draw(double[] z, double[] out) {
        for (int i = n - 1; i >= 0; i--) {
            double sum = z[i];
            for (int k = i + 1; k < n; k++) {
                sum -= factor[k * n + i] * out[k];
            }
            out[i] = sum / factor[i * n + i];
        }
        for (int i = 0; i < n; i++) {
            out[i] += x[i];
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
        double[] g = leakGradient(bar);
        boolean[] known = new boolean[n];
        for (int v : fixed) {
            known[v] = true;
            g[v] = 0;
        }
        double[] h = new double[n * n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double sum = 0;
                for (int k = 0; k <= Math.min(i, j); k++) {
                    sum += factor[i * n + k] * factor[j * n + k];
                }
                h[i * n + j] = known[i] || known[j] ? (i == j ? 1 : 0) : sum;
            }
        }
        double[] y = new double[n];
        solveFactor(cholesky(h, n), n, g, y);
        double square = 0;
        for (int i = 0; i < n; i++) {
            square += g[i] * y[i];
        }
        return Math.sqrt(Math.max(0, square));
    }

    static double[] cholesky(double[] a, int n) {
        double[] l = new double[n * n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = a[i * n + j];
                for (int k = 0; k < j; k++) {
                    sum -= l[i * n + k] * l[j * n + k];
                }
                if (i == j) {
                    l[i * n + i] = Math.sqrt(Math.max(sum, 1e-12 * Math.max(1, a[i * n + i])));
                } else {
                    l[i * n + j] = sum / l[j * n + j];
                }
            }
        }
        return l;
    }

    private static void solveFactor(double[] l, int n, double[] b, double[] out) {
        for (int i = 0; i < n; i++) {
            double sum = b[i];
            for (int k = 0; k < i; k++) {
                sum -= l[i * n + k] * out[k];
            }
            out[i] = sum / l[i * n + i];
        }
        for (int i = n - 1; i >= 0; i--) {
            double sum = out[i];
            for (int k = i + 1; k < n; k++) {
                sum -= l[k * n + i] * out[k];
            }
            out[i] = sum / l[i * n + i];
        }
    }
}
