package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.Agreement;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.estimate.HoldTestResult.RouteRate;
import org.holdtrace.leak.Law;

/**
 * The same leak by each route from the inputs that are its own, and whether they agree given what they share.
 *
 * @param rates the routes whose inputs exist
 * @param agreement chi-square of them, with two or more
 */
record RouteFits(List<RouteRate> rates, Optional<Agreement> agreement) {
    /** Chi-square beyond which routes are said to disagree: 99 % point for 1 and 2 degrees of freedom. */
    private static final double[] CRITICAL = {0, 6.635, 9.210};

    /** Pairs of thermal time constants a route is tried with. */
    private static final int ROUTE_PAIRS = 10;

    /** A route as it is fitted. */
    private record Fitted(
            Route route, NodeFit node, Evidence evidence, Knowledge knowledge, double[] summary, double sd) {}

    /** Everything the routes have in common. */
    record Shared(
            Reduction data,
            int[] rows,
            Noise noise,
            ModelError errors,
            Knowledge knowledge,
            double roughCompliance,
            double leakBar,
            Map<Law, Double> leaking,
            Posterior joint) {
        Evidence evidence(int[] of) {
            return Evidence.of(data, of, noise, errors);
        }

        int[] where(java.util.function.IntPredicate test) {
            return Arrays.stream(rows).filter(test).toArray();
        }
    }

    static RouteFits of(Shared shared) {
        Reduction data = shared.data;
        Knowledge knowledge = shared.knowledge;
        List<Fitted> fitted = new ArrayList<>();
        int[] holdRows = shared.where(i -> data.kind[i] != Reduction.Kind.TAIL);
        if ((knowledge.volumeStated || knowledge.bledStated) && holdRows.length >= 5) {
            fitted.add(fit(Route.DECAY, shared, holdRows, knowledge.withoutStroke()));
        }
        if (knowledge.strokeStated) {
            Knowledge blind = knowledge.withoutVolume(shared.roughCompliance);
            int[] strokeRows = shared.where(i -> data.kind[i] != Reduction.Kind.END);
            if (knownStrokes(data, strokeRows) >= 3) {
                fitted.add(fit(Route.STROKE_TAILS, shared, strokeRows, blind));
            }
            int[] plateauRows = shared.where(i -> data.inPlateau[i]);
            if (knownStrokes(data, plateauRows) >= 2) {
                fitted.add(fit(Route.PLATEAU_FLOW, shared, plateauRows, blind));
            }
        }
        fitted.removeIf(f -> f == null);
        List<RouteRate> rates = new ArrayList<>();
        for (Fitted f : fitted) {
            rates.add(new RouteRate(
                    f.route,
                    Math.max(0, f.summary[2]) * 1e-6,
                    Math.max(0, f.summary[1]) * 1e-6,
                    Math.max(0, f.summary[3]) * 1e-6));
        }
        return new RouteFits(rates, agreement(fitted, shared));
    }

    /** Steps over full strokes among the rows. */
    private static int knownStrokes(Reduction data, int[] rows) {
        int steps = 0;
        for (int i = 1; i < rows.length; i++) {
            int strokes = data.strokesBefore[rows[i]] - data.strokesBefore[rows[i - 1]];
            int unknown = data.unknownBefore[rows[i]] - data.unknownBefore[rows[i - 1]];
            steps += Math.max(0, strokes - unknown);
        }
        return steps;
    }

    private static Fitted fit(Route route, Shared shared, int[] rows, Knowledge knowledge) {
        Evidence evidence = shared.evidence(rows);
        List<LeakShape> shapes = new ArrayList<>();
        shared.leaking.forEach((law, weight) -> {
            NodeFit best = shared.joint.best(law);
            if (weight > 0.03 && best != null) {
                shapes.add(best.shape);
            }
        });
        if (shapes.isEmpty()) {
            shapes.add(LeakShape.laminar());
        }
        Posterior posterior = Posterior.explore(evidence, knowledge, shapes, shared.joint.likelyPairs(ROUTE_PAIRS));
        double[] draws = posterior.draw(shared.leaking, shared.leakBar)[0];
        double[] s = Posterior.summary(draws);
        double sd = 0;
        for (double d : draws) {
            sd += (d - s[0]) * (d - s[0]) / draws.length;
        }
        NodeFit node = posterior.nodes.stream()
                .max(java.util.Comparator.comparingDouble(Posterior.Node::logWeight))
                .map(Posterior.Node::fit)
                .orElse(null);
        return node == null ? null : new Fitted(route, node, evidence, knowledge, s, Math.sqrt(sd));
    }

    private static Optional<Agreement> agreement(List<Fitted> fitted, Shared shared) {
        int m = fitted.size();
        if (m < 2) {
            return Optional.empty();
        }
        double[][] prior = new double[m][];
        double[][] rows = new double[m][];
        for (int a = 0; a < m; a++) {
            Fitted f = fitted.get(a);
            prior[a] = f.node.solveHessian(f.node.leakGradient(shared.leakBar));
            double[] combination = new double[Columns.COUNT];
            for (int v = 0; v < f.node.variables(); v++) {
                for (int c = 0; c < Columns.COUNT; c++) {
                    combination[c] += prior[a][v] * f.node.jacobian[v][c];
                }
            }
            rows[a] = f.evidence.sensitivity(combination);
        }
        Evidence all = shared.joint.evidence;
        double[][] c = new double[m][m];
        for (int a = 0; a < m; a++) {
            for (int b = a; b < m; b++) {
                double sum = 0;
                for (int v = 0; v < Knowledge.COUNT; v++) {
                    if (fitted.get(a)
                            .knowledge
                            .prior(v)
                            .equals(fitted.get(b).knowledge.prior(v))) {
                        sum += prior[a][v] * prior[b][v];
                    }
                }
                int[] ra = position(all.row, fitted.get(a).evidence.row);
                int[] rb = position(all.row, fitted.get(b).evidence.row);
                for (int i = 0; i < ra.length; i++) {
                    double line = 0;
                    for (int j = 0; j < rb.length; j++) {
                        line += all.covariance(ra[i], rb[j]) * rows[b][j];
                    }
                    sum += rows[a][i] * line;
                }
                c[a][b] = sum;
                c[b][a] = sum;
            }
        }
        // The mixture over laws and settling is wider than its best node: the covariance is scaled to it.
        double[] scale = new double[m];
        for (int a = 0; a < m; a++) {
            scale[a] = fitted.get(a).sd / Math.sqrt(Math.max(c[a][a], 1e-300));
        }
        double[] flat = new double[m * m];
        for (int a = 0; a < m; a++) {
            for (int b = 0; b < m; b++) {
                double limit = 0.98 * fitted.get(a).sd * fitted.get(b).sd;
                double v = c[a][b] * scale[a] * scale[b];
                flat[a * m + b] = a == b ? v : Math.max(-limit, Math.min(limit, v));
            }
        }
        double[] l = NodeFit.cholesky(flat, m);
        double[] q = new double[m];
        double[] one = new double[m];
        for (int a = 0; a < m; a++) {
            double u = fitted.get(a).summary[2];
            double w = 1;
            for (int k = 0; k < a; k++) {
                u -= l[a * m + k] * q[k];
                w -= l[a * m + k] * one[k];
            }
            q[a] = u / l[a * m + a];
            one[a] = w / l[a * m + a];
        }
        double oo = 0;
        double oq = 0;
        double qq = 0;
        for (int a = 0; a < m; a++) {
            oo += one[a] * one[a];
            oq += one[a] * q[a];
            qq += q[a] * q[a];
        }
        double chi = Math.max(0, qq - oq * oq / oo);
        return Optional.of(new Agreement(chi, m - 1, chi <= CRITICAL[m - 1]));
    }

    private static int[] position(int[] all, int[] some) {
        int[] out = new int[some.length];
        for (int i = 0; i < some.length; i++) {
            out[i] = Arrays.binarySearch(all, some[i]);
        }
        return out;
    }
}
