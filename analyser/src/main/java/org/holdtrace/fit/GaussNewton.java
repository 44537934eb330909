package org.holdtrace.fit;

/**
 * Gauss–Newton with a trust region: minimises half a sum of squares ½|r(x)|², of which a {@link Problem} tells the value,
 * the gradient Jᵀr and JᵀJ. That is all it asks for, so that a problem with many residuals may sum them up once and for
 * all. Steps are damped (Levenberg, Marquardt) as far as the region asks for, measured in the largest curvatures met
 * (Moré, The Levenberg–Marquardt algorithm, Lecture Notes in Mathematics 630, 1978; the region's rules from memory).
 *
 * <p>JᵀJ squares the condition of J. What that costs is seen on the certified problems of NIST: six digits of parameters
 * and standard deviations are met by all of them.
 *
 * <p>One search from one start; allocates nothing on the way. Not thread-safe.
 */
public final class GaussNewton {
    private static final int ATTEMPTS = 30;

    /** A step may lose this part of what ends the search and still be taken: rounding must not look like a hill. */
    private static final double ROUNDING = 5e-8;

    /** The step need not meet the edge of the region better than this. */
    private static final double EDGE = 0.3;

    private static final int ROUNDS = 20;

    /** Where there is no step without damping and no region to say how much: so much at first, of the curvature. */
    private static final double LEAST_DAMPING = 1e-3;

    /** What is to be minimised. */
    public interface Problem {
        /** Half the sum of squares at {@code at}; not a number, or infinite, where there is none. */
        double cost(double[] at);

        /** Gradient Jᵀr and, row by row, at least the lower triangle of JᵀJ at {@code at}. */
        void linearise(double[] at, double[] gradient, double[] curvature);

        /** How far a variable may move in one step. */
        default double longestStep(int variable) {
            return Double.POSITIVE_INFINITY;
        }
    }

    private final Problem problem;
    private final int n;
    private final double[] x;
    private final double[] trial;
    private final double[] gradient;
    private final double[] curvature;
    private final double[] factor;
    private final double[] step;
    private final double[] scale;
    private double cost;
    private double radius;
    private double damping;
    private double promised;
    private boolean converged;

    /**
     * @param problem what is to be minimised
     * @param start where to begin; it is this array that moves to the minimum
     */
    public GaussNewton(Problem problem, double[] start) {
        this.problem = problem;
        this.n = start.length;
        this.x = start;
        this.trial = new double[n];
        this.gradient = new double[n];
        this.curvature = new double[n * n];
        this.factor = new double[n * n];
        this.step = new double[n];
        this.scale = new double[n];
    }

    /**
     * Searches the minimum and leaves the curvature there factorised.
     *
     * @param steps the most steps taken
     * @param enough a gain in cost of no more than this ends the search; 0 goes on as far as rounding allows
     * @param firstRadius how far the first step may go, in multiples of the start's own (scaled) length; infinite for a
     *     problem that is nearly linear
     * @throws IllegalStateException where the curvature at the end is not positive definite, or not finite
     */
    public void minimise(int steps, double enough, double firstRadius) {
        cost = problem.cost(x);
        for (int i = 0; i < steps && !converged; i++) {
            linearise();
            if (i == 0) {
                double length = scaledLength(x);
                radius = firstRadius < Double.POSITIVE_INFINITY && length > 0 ? firstRadius * length : firstRadius;
            }
            double before = cost;
            boolean better = false;
            promised = Double.POSITIVE_INFINITY;
            for (int attempt = 0; attempt < ATTEMPTS && !better && promised > hardly(enough); attempt++) {
                better = attempt(ROUNDING * enough);
            }
            converged = !better || before - cost <= enough;
        }
        linearise();
        if (!factorise(0)) {
            throw new IllegalStateException("the curvature of the fit is not finite");
        }
    }

    /** Half the least sum of squares. */
    public double cost() {
        return cost;
    }

    /** Whether the search ended by itself. */
    public boolean converged() {
        return converged;
    }

    /** L with JᵀJ = L Lᵀ at the minimum, row by row; what stands above the diagonal means nothing. */
    public double[] factor() {
        return factor;
    }

    /** A gain that is not worth another attempt. */
    private double hardly(double enough) {
        return Math.max(enough, 0x1p-52 * cost);
    }

    private void linearise() {
        problem.linearise(x, gradient, curvature);
        for (int i = 0; i < n; i++) {
            scale[i] = Math.max(scale[i], Math.sqrt(curvature[i * n + i]));
        }
    }

    private double scaledLength(double[] v) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            sum += v[i] * v[i] * scale[i] * scale[i];
        }
        return Math.sqrt(sum);
    }

    private boolean factorise(double damping) {
        System.arraycopy(curvature, 0, factor, 0, factor.length);
        if (damping > 0) {
            for (int i = 0; i < n; i++) {
                factor[i * n + i] += damping * scale[i] * scale[i];
            }
        }
        return Cholesky.factor(factor, n);
    }

    /** The scaled length of the step with that damping, which then stands in {@link #step}; infinite where there is none. */
    private double dampedStep(double damping) {
        if (!factorise(damping)) {
            return Double.POSITIVE_INFINITY;
        }
        System.arraycopy(gradient, 0, step, 0, n);
        Cholesky.solve(factor, n, step);
        return scaledLength(step);
    }

    /**
     * Damps the step until it ends near the edge of the region, by Newton's rule on 1/length (Hebden; Moré section 5), from
     * what the last step needed; mostly one or two rounds. Not at all where the undamped step ends within the region.
     */
    private double stepWithinRadius() {
        double low = 0;
        double high = Double.POSITIVE_INFINITY;
        double length = 0;
        for (int k = 0; k < ROUNDS; k++) {
            length = dampedStep(damping);
            boolean tooLong = !(length <= (1 + EDGE) * radius) || length == Double.POSITIVE_INFINITY;
            if (!tooLong && (damping == 0 || length >= (1 - EDGE) * radius)) {
                break;
            }
            if (tooLong) {
                low = damping;
            } else {
                high = damping;
            }
            boolean told = length < Double.POSITIVE_INFINITY && radius < Double.POSITIVE_INFINITY;
            damping = told ? newton(damping, length) : radius < Double.POSITIVE_INFINITY ? Double.NaN : 0;
            if (low == 0 && !(damping > 0) && high < Double.POSITIVE_INFINITY) {
                damping = 0;
            } else if (!(damping > low && damping < high)) {
                damping = high < Double.POSITIVE_INFINITY ? Math.sqrt(low * high) : Math.max(LEAST_DAMPING, 10 * low);
            }
        }
        return length;
    }

    /** The damping that would end the step at the edge if 1/length were straight; spoils {@link #trial}. */
    private double newton(double damping, double length) {
        for (int i = 0; i < n; i++) {
            trial[i] = scale[i] * scale[i] * step[i];
        }
        Cholesky.solveLower(factor, n, trial);
        double square = 0;
        for (int i = 0; i < n; i++) {
            square += trial[i] * trial[i];
        }
        return damping + length * length * (length - radius) / (radius * square);
    }

    private boolean attempt(double loss) {
        double length = stepWithinRadius();
        double part = 1;
        for (int i = 0; i < n; i++) {
            part = Math.min(part, problem.longestStep(i) / Math.max(1e-300, Math.abs(step[i])));
        }
        for (int i = 0; i < n; i++) {
            trial[i] = x[i] - part * step[i];
        }
        double reached = problem.cost(trial);
        promised = promised(part);
        double ratio = (cost - reached) / promised;
        if (!(ratio > 0.25)) {
            radius = 0.25 * Math.min(radius, part * length);
        } else if (ratio > 0.75) {
            radius = Math.max(radius, 2 * part * length);
        }
        if (!(reached <= cost + loss)) {
            return false;
        }
        System.arraycopy(trial, 0, x, 0, n);
        cost = reached;
        return true;
    }

    /** What {@code part} of the step would gain if the residuals were linear. */
    private double promised(double part) {
        double sum = 0;
        for (int i = 0; i < n; i++) {
            double line = 0.5 * curvature[i * n + i] * step[i];
            for (int j = 0; j < i; j++) {
                line += curvature[i * n + j] * step[j];
            }
            sum += part * step[i] * (gradient[i] - part * line);
        }
        return sum;
    }
}
