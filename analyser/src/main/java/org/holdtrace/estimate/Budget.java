package org.holdtrace.estimate;

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
     * @param deviation standard deviation of the leak as it is stated, cm³/s
     */
    static List<BudgetLine> of(Joint joint, Carry carry, double deviation) {
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
            square.merge(Knowledge.NAME[v], s[v] * s[v], Double::sum);
            stated += s[v] * s[v];
        }
        square.put("pressure noise and stroke scatter", Math.max(0, total - stated));
        double leak = fit.leak(fit.x, joint.leakBar());
        double carried = carry.relativeUncertainty() * leak;
        if (carried != 0) {
            square.put("carrying to temperature", carried * carried);
        }
        // What the mixture over laws and settling, and disagreement, add to the best fit's own uncertainty.
        square.put("leak law and settling", Math.max(0, deviation * deviation - total - carried * carried));
        List<BudgetLine> lines = new ArrayList<>();
        square.forEach((source, v) -> {
            if (v > 1e-6 * sum(square)) {
                lines.add(new BudgetLine(source, Math.sqrt(v) * 1e-6));
            }
        });
        lines.sort(Comparator.comparingDouble(BudgetLine::standardUncertaintyM3PerS)
                .reversed());
        return lines;
    }

    private static double sum(Map<String, Double> square) {
        return square.values().stream().mapToDouble(Double::doubleValue).sum();
    }
}
