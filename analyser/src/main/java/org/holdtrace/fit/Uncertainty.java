package org.holdtrace.fit;

/** The law of propagation of uncertainty (JCGM 100:2008, the GUM, clause 5.1 and annex G). */
public final class Uncertainty {
    private Uncertainty() {}

    /**
     * Sensitivity coefficients ∂f/∂xᵢ by central differences (GUM 5.1.3, note 2).
     *
     * @param f the measurand
     * @param at estimates of its inputs
     * @param step how far each is moved to either side, above 0
     */
    public static double[] gradient(Measurand f, double[] at, double[] step) {
        double[] moved = at.clone();
        double[] gradient = new double[at.length];
        for (int i = 0; i < gradient.length; i++) {
            moved[i] = at[i] + step[i];
            double up = f.value(moved);
            moved[i] = at[i] - step[i];
            double down = f.value(moved);
            moved[i] = at[i];
            gradient[i] = (up - down) / (2 * step[i]);
        }
        return gradient;
    }

    /**
     * Effective degrees of freedom by the Welch–Satterthwaite formula (GUM G.4.1), ν = u⁴/Σ(uᵢ⁴/νᵢ); it holds for
     * independent contributions only.
     *
     * @param variance the square of each contribution cᵢ·u(xᵢ)
     * @param degreesOfFreedom of each, above 0, infinity where it is known exactly
     */
    public static double effectiveDegreesOfFreedom(double[] variance, double[] degreesOfFreedom) {
        Arguments.sameLength(variance.length, degreesOfFreedom.length, "degrees of freedom");
        double sum = 0;
        double parts = 0;
        for (int i = 0; i < variance.length; i++) {
            double nu = Arguments.degreesOfFreedom(degreesOfFreedom[i], "degrees of freedom of a contribution");
            sum += variance[i];
            parts += variance[i] * variance[i] / nu;
        }
        return parts == 0 ? Double.POSITIVE_INFINITY : sum * sum / parts;
    }
}
