package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.M3_PER_CM3;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.holdtrace.estimate.HoldTestResult.BudgetLine;

/** How much of the leak's standard uncertainty each source is to blame for. */
final class Budget {
    private Budget() {}

    /**
     * @param joint the fit
     * @param carry to another temperature
     * @param spread of the leak's draws
     */
    static List<BudgetLine> of(Joint joint, Carry carry, Conclusion.Spread spread) {
        NodeFit fit = joint.best();
        double[] g = fit.leakGradient(joint.leakBar());
        double[] s = fit.solveHessian(g);
        double total = 0;
        for (int i = 0; i < g.length; i++) {
            total += g[i] * s[i];
        }
        Map<String, Double> square = new LinkedHashMap<>();
        double stated = 0;
        for (int v = 0; v < Knowledge.COUNT; v++) {
            String name = Knowledge.NAME[v];
            square.put(name, square.getOrDefault(name, 0.0) + s[v] * s[v]);
            stated += s[v] * s[v];
        }
        square.put("pressure noise and stroke scatter", Math.max(0, total - stated));
        double leak = fit.leak(fit.x, joint.leakBar());
        double carried = carry.relativeUncertainty() * leak;
        if (carried != 0) {
            square.put("carrying to temperature", carried * carried);
        }
        // What the mixture over laws and settling adds to the best fit's own uncertainty.
        square.put(
                "leak law and settling", Math.max(0, spread.mixture() * spread.mixture() - total - carried * carried));
        square.put("misfit of model and inputs", difference(spread.widened(), spread.mixture()));
        square.put("line check", difference(spread.whole(), spread.widened()));
        List<BudgetLine> lines = new ArrayList<>();
        double sum = 0;
        for (double v : square.values()) {
            sum += v;
        }
        for (Map.Entry<String, Double> source : square.entrySet()) {
            if (source.getValue() > 1e-6 * sum) {
                lines.add(new BudgetLine(source.getKey(), Math.sqrt(source.getValue()) * M3_PER_CM3));
            }
        }
        lines.sort(new LargestFirst());
        return lines;
    }

    /** What has to be added to the square of {@code smaller} to come to that of {@code larger}. */
    private static double difference(double larger, double smaller) {
        return Math.max(0, larger * larger - smaller * smaller);
    }

    private static final class LargestFirst implements Comparator<BudgetLine> {
        @Override
        public int compare(BudgetLine a, BudgetLine b) {
            return Double.compare(b.standardUncertaintyM3PerS(), a.standardUncertaintyM3PerS());
        }
    }
}
