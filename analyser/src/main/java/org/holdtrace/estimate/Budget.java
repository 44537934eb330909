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

    static List<BudgetLine> of(NodeFit fit, Posterior joint, double[] draws, double leakBar) {
        double[] g = fit.leakGradient(leakBar);
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
        double mean = 0;
        for (double d : draws) {
            mean += d / draws.length;
        }
        double spread = 0;
        for (double d : draws) {
            spread += (d - mean) * (d - mean) / draws.length;
        }
        square.put("leak law and settling", Math.max(0, spread - total));
        List<BudgetLine> lines = new ArrayList<>();
        square.forEach((source, v) -> {
            if (v > 1e-6 * spread(square)) {
                lines.add(new BudgetLine(source, Math.sqrt(v) * 1e-6));
            }
        });
        lines.sort(Comparator.comparingDouble(BudgetLine::standardUncertaintyM3PerS)
                .reversed());
        return lines;
    }

    private static double spread(Map<String, Double> square) {
        return square.values().stream().mapToDouble(Double::doubleValue).sum();
    }
}
