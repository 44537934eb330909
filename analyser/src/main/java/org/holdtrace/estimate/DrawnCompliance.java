package org.holdtrace.estimate;

/**
 * The compliances as functions of the variables, for draws about a fit.
 *
 * <p>Strokes or bled oil tell the sum of oil and line far better than either. The probable values then lie on a curved
 * ridge, while draws scatter along its tangent, off which a sum of log-normal shares can only grow: taken as it stands
 * the sum would come out too large, and uncertain by what the shares are. To first order its logarithm stays on the
 * ridge.
 */
final class DrawnCompliance {
    private static final double STEP = 1e-4;

    /** The data rule where they leave less than this of the prior's standard deviation. */
    private static final double RULED = 0.5;

    private final NodeFit fit;
    /** Pressure of the isothermal compliance, bar. */
    private final double bar;

    private final double fastAtFit;
    private final double isothermalAtFit;
    /** d ln C / d x at the fit, or null where the data do not rule. */
    private final double[] fastGradient;

    private final double[] isothermalGradient;

    /**
     * @param fit the fit that draws are made about
     * @param bar pressure of the isothermal compliance
     */
    DrawnCompliance(NodeFit fit, double bar) {
        this.fit = fit;
        this.bar = bar;
        fastAtFit = fit.fastCompliance(fit.x);
        isothermalAtFit = fit.isothermalCompliance(fit.x, bar);
        double[] at = fit.x.clone();
        double[] fast = new double[at.length];
        double[] isothermal = new double[at.length];
        for (int v = 0; v < Knowledge.COUNT; v++) {
            at[v] = fit.x[v] + STEP;
            fast[v] = Math.log(fit.fastCompliance(at) / fastAtFit) / STEP;
            isothermal[v] = Math.log(fit.isothermalCompliance(at, bar) / isothermalAtFit) / STEP;
            at[v] = fit.x[v];
        }
        fastGradient = ruled(fast) ? fast : null;
        isothermalGradient = ruled(isothermal) ? isothermal : null;
    }

    private boolean ruled(double[] gradient) {
        double[] s = fit.solveHessian(gradient);
        double before = 0;
        double after = 0;
        for (int v = 0; v < gradient.length; v++) {
            before += gradient[v] * gradient[v];
            after += gradient[v] * s[v];
        }
        return after < RULED * RULED * before;
    }

    /** What a fast change sees at the norm pressure for variables {@code x}, cm³/bar as measured. */
    double fast(double[] x) {
        return fastGradient == null ? fit.fastCompliance(x) : fastAtFit * Math.exp(change(fastGradient, x));
    }

    /** The isothermal compliance, cm³/bar. */
    double isothermal(double[] x) {
        return isothermalGradient == null
                ? fit.isothermalCompliance(x, bar)
                : isothermalAtFit * Math.exp(change(isothermalGradient, x));
    }

    private double change(double[] gradient, double[] x) {
        double log = 0;
        for (int v = 0; v < Knowledge.COUNT; v++) {
            log += gradient[v] * (x[v] - fit.x[v]);
        }
        return log;
    }
}
