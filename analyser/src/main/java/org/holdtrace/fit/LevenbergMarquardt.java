package org.holdtrace.fit;

import java.util.Arrays;
import org.holdtrace.fit.LeastSquares.Model;

/** One run of the solver from one start; holds the arrays, so that the loop allocates nothing. Not thread-safe. */
final class LevenbergMarquardt {
    private static final double ROUNDING = 0x1p-52;
    /**
     * A first step may be this many times the length of the (scaled) start. Moré's 100 lets NIST's BoxBOD jump from its
     * first start to where the model is flat; with 10, 1 or 0.1 every certified set converges.
     */
    private static final double FIRST_RADIUS = 1;

    private static final double DIFFERENCE = Math.cbrt(ROUNDING);

    private final LeastSquares settings;
    private final Model model;
    private final int n;
    private final int rows;
    private final int p;
    private final double[] x;
    private final double[] trial;
    /** The model's own rows; the priors' rows follow in {@link #weighted}. */
    private final double[] residuals;

    private final double[] trialResiduals;
    private final double[] shifted;
    private final double[] modelJacobian;
    private final double[] columns;
    private final double[] weighted;
    private final double[] scale;
    private final int[] free;
    private int k;
    private final double[] r;
    private final double[] qtb;
    private final double[] damped;
    private final double[] right;
    private final double[] row;
    private final double[] step;
    private final double[] work;
    private double lambda;
    private double gradientCosine;
    private int evaluations;

    LevenbergMarquardt(LeastSquares settings, Model model, int residualCount, int priors, double[] start) {
        this.settings = settings;
        this.model = model;
        this.n = residualCount;
        this.rows = residualCount + priors;
        this.p = start.length;
        this.x = start;
        this.trial = new double[p];
        this.residuals = new double[n];
        this.trialResiduals = new double[n];
        this.shifted = new double[n];
        this.modelJacobian = new double[n * p];
        this.columns = new double[rows * p];
        this.weighted = new double[rows];
        this.scale = new double[p];
        this.free = new int[p];
        this.r = new double[p * p];
        this.qtb = new double[p];
        this.damped = new double[p * p];
        this.right = new double[p];
        this.row = new double[p];
        this.step = new double[p];
        this.work = new double[p];
    }

    Fit run() {
        model.residuals(x, residuals);
        evaluations = 1;
        double norm = norm(x, residuals);
        if (!(norm < Double.POSITIVE_INFINITY)) {
            return end(Fit.Status.NOT_FINITE, norm);
        }
        double radius = 0;
        boolean first = true;
        while (true) {
            linearise();
            if (k == 0 || norm == 0 || gradientCosine <= ROUNDING) {
                return end(Fit.Status.CONVERGED, norm);
            }
            if (first) {
                radius = FIRST_RADIUS * scaledLength(x);
                radius = radius == 0 ? FIRST_RADIUS : radius;
            }
            double ratio;
            do {
                double length = dampedStep(radius);
                if (first) {
                    radius = Math.min(radius, length);
                }
                double promised = promisedReduction(norm);
                model.residuals(trial, trialResiduals);
                evaluations++;
                double trialNorm = norm(trial, trialResiduals);
                // Not finite: as if the sum of squares had grown a hundredfold, so the radius shrinks.
                double gained = 0.1 * trialNorm < norm ? 1 - (trialNorm / norm) * (trialNorm / norm) : -1;
                ratio = promised > 0 ? gained / promised : 0;
                radius = nextRadius(radius, length, ratio, gained);
                if (ratio >= 1e-4) {
                    System.arraycopy(trial, 0, x, 0, p);
                    System.arraycopy(trialResiduals, 0, residuals, 0, n);
                    norm = trialNorm;
                    first = false;
                }
                if ((Math.abs(gained) <= settings.tolerance() && promised <= settings.tolerance() && ratio <= 2)
                        || radius <= ROUNDING * scaledLength(x)) {
                    linearise();
                    return end(Fit.Status.CONVERGED, norm);
                }
                if (evaluations >= settings.maxEvaluations()) {
                    linearise();
                    return end(Fit.Status.NOT_CONVERGED, norm);
                }
            } while (ratio < 1e-4);
        }
    }

    /** √χ²; not a number, or infinite, where a residual is. */
    private double norm(double[] at, double[] res) {
        double sum = Householder.dot(res, 0, res, 0, n);
        for (int j = 0; j < p; j++) {
            if (settings.priorSd(j) < Double.POSITIVE_INFINITY) {
                double d = (at[j] - settings.priorMean(j)) / settings.priorSd(j);
                sum += d * d;
            }
        }
        return Math.sqrt(sum);
    }

    /** Jacobian, the parameters that are free to move, R and Qᵀr of their scaled columns. */
    private void linearise() {
        if (!model.jacobian(x, residuals, modelJacobian)) {
            differences();
        }
        System.arraycopy(residuals, 0, weighted, 0, n);
        int at = n;
        for (int j = 0; j < p; j++) {
            if (settings.priorSd(j) < Double.POSITIVE_INFINITY) {
                weighted[at++] = (x[j] - settings.priorMean(j)) / settings.priorSd(j);
            }
        }
        double norm = Math.sqrt(Householder.dot(weighted, 0, weighted, 0, rows));
        gradientCosine = 0;
        k = 0;
        for (int j = 0; j < p; j++) {
            int to = k * rows;
            System.arraycopy(modelJacobian, j * n, columns, to, n);
            Arrays.fill(columns, to + n, to + rows, 0);
            if (settings.priorSd(j) < Double.POSITIVE_INFINITY) {
                columns[to + n + priorRow(j)] = 1 / settings.priorSd(j);
            }
            double length = Math.sqrt(Householder.dot(columns, to, columns, to, rows));
            double gradient = Householder.dot(columns, to, weighted, 0, rows);
            // Moré's scaling: a column never counts for less than it once did.
            scale[j] = Math.max(scale[j], length);
            boolean blocked =
                    (x[j] <= settings.lower(j) && gradient >= 0) || (x[j] >= settings.upper(j) && gradient <= 0);
            if (blocked) {
                continue;
            }
            double by = 1 / scale(j);
            for (int i = to; i < to + rows; i++) {
                columns[i] *= by;
            }
            if (length > 0 && norm > 0) {
                gradientCosine = Math.max(gradientCosine, Math.abs(gradient) / (length * norm));
            }
            free[k++] = j;
        }
        Householder.triangularise(columns, rows, k, weighted, r);
        System.arraycopy(weighted, 0, qtb, 0, k);
    }

    private int priorRow(int parameter) {
        int row = 0;
        for (int j = 0; j < parameter; j++) {
            row += settings.priorSd(j) < Double.POSITIVE_INFINITY ? 1 : 0;
        }
        return row;
    }

    private void differences() {
        System.arraycopy(x, 0, trial, 0, p);
        for (int j = 0; j < p; j++) {
            double h = DIFFERENCE * (x[j] == 0 ? 1 : Math.abs(x[j]));
            double up = settings.clamp(j, x[j] + h);
            double down = settings.clamp(j, x[j] - h);
            trial[j] = up;
            model.residuals(trial, trialResiduals);
            trial[j] = down;
            model.residuals(trial, shifted);
            trial[j] = x[j];
            int to = j * n;
            double by = 1 / (up - down);
            for (int i = 0; i < n; i++) {
                modelJacobian[to + i] = (trialResiduals[i] - shifted[i]) * by;
            }
        }
    }

    private double scaledLength(double[] of) {
        double sum = 0;
        for (int j = 0; j < p; j++) {
            double v = of[j] * scale(j);
            sum += v * v;
        }
        return Math.sqrt(sum);
    }

    /**
     * Finds the damping whose step is as long as {@code radius} within a tenth (Moré 1978, section 5), and puts the
     * trial point where it leads, or where the bounds stop it.
     *
     * @return length of the scaled step before the bounds
     */
    private double dampedStep(double radius) {
        double length = Double.POSITIVE_INFINITY;
        double least = 0;
        double excess = Double.POSITIVE_INFINITY;
        boolean fullRank = fullRank();
        if (fullRank) {
            Householder.solveUpper(r, k, qtb, step);
            length = length(step);
            excess = length - radius;
            if (excess <= 0.1 * radius) {
                lambda = 0;
                return moveTrial(length);
            }
            least = excess / (radius * inverseSquare(r, length));
        }
        double gradient = 0;
        for (int j = 0; j < k; j++) {
            double sum = 0;
            for (int i = 0; i <= j; i++) {
                sum += r[i * k + j] * qtb[i];
            }
            gradient += sum * sum;
        }
        gradient = Math.sqrt(gradient);
        double most = Math.max(gradient / radius, Double.MIN_NORMAL);
        lambda = Math.min(Math.max(lambda, least), most);
        if (lambda == 0) {
            lambda = fullRank ? gradient / length : 1e-3 * most;
        }
        for (int i = 0; i < 12; i++) {
            if (lambda == 0) {
                lambda = Math.max(Double.MIN_NORMAL, 1e-3 * most);
            }
            Householder.damp(r, qtb, k, lambda, damped, right, row);
            Householder.solveUpper(damped, k, right, step);
            length = length(step);
            double before = excess;
            excess = length - radius;
            if (Math.abs(excess) <= 0.1 * radius || (least == 0 && excess <= before && before < 0)) {
                break;
            }
            double correction = excess / (radius * inverseSquare(damped, length));
            if (excess > 0) {
                least = Math.max(least, lambda);
            } else {
                most = Math.min(most, lambda);
            }
            lambda = Math.max(least, lambda + correction);
        }
        return moveTrial(length);
    }

    /** |S⁻ᵀ s/|s||²: how fast the length of the step falls with the damping. */
    private double inverseSquare(double[] triangle, double length) {
        for (int i = 0; i < k; i++) {
            work[i] = step[i] / length;
        }
        Householder.solveTransposed(triangle, k, work);
        double sum = 0;
        for (int i = 0; i < k; i++) {
            sum += work[i] * work[i];
        }
        return sum;
    }

    private double moveTrial(double length) {
        System.arraycopy(x, 0, trial, 0, p);
        for (int i = 0; i < k; i++) {
            int j = free[i];
            double by = scale(j);
            trial[j] = settings.clamp(j, x[j] - step[i] / by);
        }
        return length;
    }

    private double length(double[] of) {
        double sum = 0;
        for (int i = 0; i < k; i++) {
            sum += of[i] * of[i];
        }
        return Math.sqrt(sum);
    }

    /** What the linear model promises for the step to the trial point, as a fraction of χ². */
    private double promisedReduction(double norm) {
        double reduction = 0;
        for (int i = 0; i < k; i++) {
            double moved = 0;
            for (int c = i; c < k; c++) {
                int j = free[c];
                moved += r[i * k + c] * (x[j] - trial[j]) * scale(j);
            }
            reduction += moved * (2 * qtb[i] - moved);
        }
        return reduction / (norm * norm);
    }

    private double nextRadius(double radius, double length, double ratio, double gained) {
        if (ratio <= 0.25) {
            double shrink = gained >= 0 ? 0.5 : 0.1;
            lambda /= shrink;
            return shrink * Math.min(radius, 10 * length);
        }
        if (lambda == 0 || ratio >= 0.75) {
            lambda *= 0.5;
            return 2 * length;
        }
        return radius;
    }

    private boolean fullRank() {
        for (int i = 0; i < k; i++) {
            if (!(Math.abs(r[i * k + i]) > 4 * p * ROUNDING * columnLength(i))) {
                return false;
            }
        }
        return k > 0;
    }

    private double columnLength(int c) {
        double sum = 0;
        for (int i = 0; i <= c; i++) {
            sum += r[i * k + c] * r[i * k + c];
        }
        return Math.sqrt(sum);
    }

    private Fit end(Fit.Status status, double norm) {
        double[] covariance = new double[p * p];
        Fit.Status reported = status;
        if (status == Fit.Status.NOT_FINITE || (k > 0 && !fullRank())) {
            Arrays.fill(covariance, Double.NaN);
            reported = status == Fit.Status.CONVERGED ? Fit.Status.UNDETERMINED : status;
        } else {
            covarianceOfFree(covariance);
            if (status == Fit.Status.CONVERGED && atBound()) {
                reported = Fit.Status.CONVERGED_AT_BOUND;
            }
        }
        boolean ok = reported == Fit.Status.CONVERGED || reported == Fit.Status.CONVERGED_AT_BOUND;
        return new Fit(
                reported, x.clone(), covariance, norm * norm, rows - p, evaluations, gradientCosine, 1, ok ? 1 : 0);
    }

    private boolean atBound() {
        for (int j = 0; j < p; j++) {
            if (x[j] <= settings.lower(j) || x[j] >= settings.upper(j)) {
                return true;
            }
        }
        return false;
    }

    /** (RᵀR)⁻¹ = R⁻¹R⁻ᵀ, scaling undone; a parameter held by its bound has no covariance of its own: 0. */
    private void covarianceOfFree(double[] covariance) {
        double[] inverse = new double[k * k];
        for (int c = 0; c < k; c++) {
            Arrays.fill(work, 0);
            work[c] = 1;
            Householder.solveUpper(r, k, work, step);
            for (int i = 0; i < k; i++) {
                inverse[i * k + c] = step[i];
            }
        }
        for (int a = 0; a < k; a++) {
            for (int b = 0; b < k; b++) {
                double by = scale(free[a]) * scale(free[b]);
                covariance[free[a] * p + free[b]] = Householder.dot(inverse, a * k, inverse, b * k, k) / by;
            }
        }
    }

    private double scale(int j) {
        return scale[j] == 0 ? 1 : scale[j];
    }
}
