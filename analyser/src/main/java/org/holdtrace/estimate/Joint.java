package org.holdtrace.estimate;

import java.util.EnumMap;
import java.util.Map;
import org.holdtrace.fit.Normal;
import org.holdtrace.fit.StudentT;
import org.holdtrace.fit.Uncertainty;
import org.holdtrace.leak.Law;

/**
 * The joint fit of a hold test with all that went into it.
 *
 * @param data the reduced test
 * @param rows the rows used
 * @param noise the noise found
 * @param errors what the model may be wrong by
 * @param knowledge what was known beforehand
 * @param roughCompliance what strokes alone suggest, cm³/bar, or NaN
 * @param leakBar pressure the leak is stated at, bar
 * @param posterior laws and settling with their weights
 * @param unknownStrokes strokes that were not counted as full ones
 */
record Joint(
        Reduction data,
        int[] rows,
        Noise noise,
        ModelError errors,
        Knowledge knowledge,
        double roughCompliance,
        double leakBar,
        Posterior posterior,
        boolean[] unknownStrokes) {

    /** A stated input may be off by this many of its standard uncertainties before the interval is widened for it. */
    private static final double TENSE = 2;

    /** Degrees of freedom of an uncertainty that is itself known to a fifth. */
    private static final double JUDGED_FREEDOM = 12;

    /** A leak of so many standard deviations is told from zero: quantiles for 2.5 % false and 5 % missed alarms, added. */
    static final double RESOLVED_DEVIATIONS = 1.96 + 1.645;

    /** A fit that misses the pressures of the hold by this part of what was lost in it is a good one. */
    private static final double FITS = 0.01;

    /** Variables that set the size of the answer rather than what can be seen at all. */
    private static final int[] SIZE = {
        Knowledge.VOLUME, Knowledge.MODULUS, Knowledge.LINE, Knowledge.STROKE, Knowledge.BLED, Knowledge.GAIN
    };

    /** Weights of the laws that leak, summing to 1. */
    Map<Law, Double> leakingWeights() {
        Map<Law, Double> w = new EnumMap<>(Law.class);
        w.putAll(posterior.lawWeight);
        w.remove(Law.NONE);
        if (!Posterior.normalise(w)) {
            w.clear();
            w.put(Law.LAMINAR, 1.0);
        }
        return w;
    }

    /** The law that leaks with the largest weight. */
    Law likelyLaw() {
        Law likeliest = Law.LAMINAR;
        double most = -1;
        for (Map.Entry<Law, Double> each : leakingWeights().entrySet()) {
            if (each.getValue() > most) {
                most = each.getValue();
                likeliest = each.getKey();
            }
        }
        return likeliest;
    }

    /** The most probable fit of the likeliest law. */
    NodeFit best() {
        return posterior.best(likelyLaw());
    }

    /**
     * Whether the likeliest law passes nothing that could be told once the shut-off valve was shut, at no pressure that was
     * there then: a valve that opens early and a shut-off valve that was shut late look alike.
     */
    boolean seenOnlyUntilShut() {
        NodeFit fit = best();
        double highest = Double.NEGATIVE_INFINITY;
        for (int r : rows) {
            if (data.kind[r] != Reduction.Kind.END && errors.unshut()[r] == 0) {
                highest = Math.max(highest, data.pressureBar[r]);
            }
        }
        return fit != null
                && fit.shape.law() == Law.THRESHOLD
                && fit.leak(fit.x, Math.max(0, highest)) < smallestResolvable();
    }

    /** Square root of chi-square per degree of freedom, where the noise did not account for all of it; else 1. */
    double misfit() {
        double chi = 2 * leastCost(true, 0);
        int dof = Math.max(1, rows.length - 6);
        return Math.max(1, Math.sqrt(chi / dof));
    }

    /**
     * What the fit misses the pressures of the hold by, root mean square over its rows, as a share of the pressure lost in
     * it, beyond the {@value #FITS} that the errors of shape allow for: of a rate that is what is lost by the time, no
     * less can be unsure.
     */
    double missedShare() {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        double squares = 0;
        int n = 0;
        double[] missed = missedBar();
        for (int i = 0; i < missed.length; i++) {
            if (!Double.isNaN(missed[i])) {
                double pressure = data.pressureBar[posterior.evidence.row[i]];
                low = Math.min(low, pressure);
                high = Math.max(high, pressure);
                squares += missed[i] * missed[i];
                n++;
            }
        }
        double square = high > low ? squares / n / ((high - low) * (high - low)) : 0;
        return Math.sqrt(Math.max(0, square - FITS * FITS));
    }

    /** Measured less fitted pressure for each row of the evidence that lies in the hold, bar; NaN for the others. */
    double[] missedBar() {
        Evidence evidence = posterior.evidence;
        double[] missed = evidence.rawResidual(best().gamma);
        double mean = 0;
        int n = 0;
        for (int i = 0; i < missed.length; i++) {
            if (data.kind[evidence.row[i]] == Reduction.Kind.HOLD) {
                mean += missed[i];
                n++;
            }
        }
        mean /= Math.max(1, n);
        for (int i = 0; i < missed.length; i++) {
            int row = evidence.row[i];
            // The balance is in oil; where the line is softer a given volume is less pressure.
            missed[i] = data.kind[row] == Reduction.Kind.HOLD ? (missed[i] - mean) / errors.local()[row] : Double.NaN;
        }
        return missed;
    }

    /** More than 1 where something stated had to give way by more than its uncertainty allows. */
    double tension() {
        double largest = 0;
        for (int v : knowledge.stated()) {
            largest = Math.max(largest, Math.abs(best().x[v]));
        }
        return Math.max(1, largest / TENSE);
    }

    /**
     * By how much to widen for not knowing the uncertainties themselves (GUM G.4): stated ones are taken at their word,
     * what noise, settling and model may do is judged to a fifth, which is worth {@value #JUDGED_FREEDOM} degrees of
     * freedom (GUM equation G.3); together by Welch and Satterthwaite.
     */
    double coverage() {
        NodeFit fit = best();
        double[] g = fit.leakGradient(leakBar);
        double[] s = fit.solveHessian(g);
        double total = 0;
        for (int i = 0; i < g.length; i++) {
            total += g[i] * s[i];
        }
        double stated = 0;
        for (int v : knowledge.stated()) {
            stated += s[v] * s[v];
        }
        double judged = Math.max(0, total - stated);
        if (!(judged > 1e-3 * total)) {
            return 1;
        }
        double freedom = Uncertainty.effectiveDegreesOfFreedom(
                new double[] {total - judged, judged}, new double[] {Double.POSITIVE_INFINITY, JUDGED_FREEDOM});
        return StudentT.coverageFactor(0.95, freedom) / Normal.quantile(0.975);
    }

    /** By how much (in chi-square) a leak improves the fit over none. */
    double evidenceOfLeak() {
        NodeFit none = posterior.best(Law.NONE);
        if (none == null) {
            return Double.POSITIVE_INFINITY;
        }
        return 2 * (none.cost - leastCost(false, none.cost));
    }

    /** Least cost among the nodes, those without a leak counted or not; {@code otherwise} where there are none. */
    private double leastCost(boolean tightToo, double otherwise) {
        double least = Double.POSITIVE_INFINITY;
        for (Posterior.Node node : posterior.nodes) {
            if (tightToo || node.fit().shape.law() != Law.NONE) {
                least = Math.min(least, node.fit().cost);
            }
        }
        return least < Double.POSITIVE_INFINITY ? least : otherwise;
    }

    /**
     * Smallest leak that could have been told from zero, cm³/s: what stays uncertain of a laminar leak though the size
     * of everything were known exactly, times the sum of the quantiles for 2.5 % false and 5 % missed alarms.
     */
    double smallestResolvable() {
        NodeFit fit = posterior.best(Law.LAMINAR);
        if (fit == null) {
            return 0;
        }
        return RESOLVED_DEVIATIONS * fit.leakUncertainty(leakBar, SIZE);
    }
}
