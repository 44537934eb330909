package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.Agreement;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.estimate.HoldTestResult.RouteRate;
import org.holdtrace.fit.Sample;
import org.holdtrace.fit.WeightedMean;
import org.holdtrace.leak.Law;

/**
 * The same leak by each route from the inputs that are its own, and whether they agree given what they share.
 *
 * @param rates the routes whose inputs exist
 * @param agreement chi-square of them, with two or more
 */
record RouteFits(List<RouteRate> rates, Optional<Agreement> agreement) {
    /** Routes are said to disagree where chance alone would part them so far less often than this. */
    private static final double DISAGREE = 0.01;

    /** Pairs of thermal time constants a route is tried with. */
    private static final int ROUTE_PAIRS = 6;

    /** By how much to widen the interval since routes disagree (the Birge ratio, GU-17): 1 where they agree. */
    double disagreement() {
        if (agreement.isEmpty() || agreement.get().agree()) {
            return 1;
        }
        return Math.sqrt(agreement.get().chiSquare() / agreement.get().degreesOfFreedom());
    }

    /** A route as it is fitted. */
    private record Fitted(
            Route route, NodeFit node, Evidence evidence, Knowledge knowledge, double[] summary, double sd) {}

    static RouteFits of(Joint shared, Carry carry) {
        Reduction data = shared.data();
        Knowledge knowledge = shared.knowledge();
        List<Fitted> fitted = new ArrayList<>();
        int[] holdRows = rowsFor(Route.DECAY, shared);
        if ((knowledge.volumeStated || knowledge.bledStated) && holdRows.length >= 5) {
            addFit(Route.DECAY, shared, holdRows, knowledge.withoutStroke(), carry, fitted);
        }
        if (knowledge.strokeStated) {
            Knowledge blind = knowledge.withoutVolume(shared.roughCompliance());
            int[] strokeRows = rowsFor(Route.STROKE_TAILS, shared);
            if (knownStrokes(data, strokeRows) >= 3) {
                addFit(Route.STROKE_TAILS, shared, strokeRows, blind, carry, fitted);
            }
            int[] plateauRows = rowsFor(Route.PLATEAU_FLOW, shared);
            if (knownStrokes(data, plateauRows) >= 2) {
                addFit(Route.PLATEAU_FLOW, shared, plateauRows, blind, carry, fitted);
            }
        }
        List<Fitted> comparable = new ArrayList<>();
        List<RouteRate> rates = new ArrayList<>();
        for (Fitted f : fitted) {
            if (f.sd > 0) {
                comparable.add(f);
            }
            rates.add(new RouteRate(
                    f.route,
                    Math.max(0, f.summary[2]) * 1e-6,
                    Math.max(0, f.summary[1]) * 1e-6,
                    Math.max(0, f.summary[3]) * 1e-6));
        }
        return new RouteFits(rates, agreement(comparable, shared));
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

    private static void addFit(
            Route route, Joint shared, int[] rows, Knowledge knowledge, Carry carry, List<Fitted> fitted) {
        Evidence evidence = shared.posterior().evidence.ofRows(rows);
        List<LeakShape> shapes = new ArrayList<>();
        for (Map.Entry<Law, Double> weight : shared.leakingWeights().entrySet()) {
            NodeFit best = shared.posterior().best(weight.getKey());
            if (weight.getValue() > 0.03 && best != null) {
                shapes.add(best.shape);
            }
        }
        if (shapes.isEmpty()) {
            shapes.add(LeakShape.laminar());
        }
        Posterior posterior = Posterior.explore(
                evidence, knowledge, shapes, shared.posterior().likelyPairs(ROUTE_PAIRS));
        double[] draws = posterior.draw(Posterior.tempered(shared.leakingWeights()), shared.leakBar(), carry)[0];
        double[] s = Sample.summary(draws);
        NodeFit node = posterior.best();
        if (node != null) {
            fitted.add(new Fitted(route, node, evidence, knowledge, s, Sample.deviation(draws)));
        }
    }

    private static Optional<Agreement> agreement(List<Fitted> fitted, Joint shared) {
        int m = fitted.size();
        if (m < 2) {
            return Optional.empty();
        }
        double[][] prior = new double[m][];
        double[][] rows = new double[m][];
        for (int a = 0; a < m; a++) {
            Fitted f = fitted.get(a);
            prior[a] = f.node.solveHessian(f.node.leakGradient(shared.leakBar()));
            rows[a] = f.evidence.sensitivity(f.node.combination(prior[a]));
        }
        Evidence all = shared.posterior().evidence;
        double[][] c = new double[m][m];
        for (int a = 0; a < m; a++) {
            for (int b = a; b < m; b++) {
                double sum = 0;
                for (int v = 0; v < Knowledge.COUNT; v++) {
                    if (fitted.get(a)
                            .knowledge
                            .prior(v)
                            .sameAs(fitted.get(b).knowledge.prior(v))) {
                        sum += prior[a][v] * prior[b][v];
                    }
                }
                int[] ra = all.positions(fitted.get(a).evidence.row);
                int[] rb = all.positions(fitted.get(b).evidence.row);
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
        // The mixture over laws and settling is wider than its best node: the correlations are kept, the sizes taken
        // from the mixture. Correlations are drawn in a little so that routes which share nearly all stay apart.
        double unit = 0;
        for (Fitted f : fitted) {
            unit = Math.max(unit, f.sd);
        }
        double[] rate = new double[m];
        double[] flat = new double[m * m];
        for (int a = 0; a < m; a++) {
            rate[a] = fitted.get(a).summary[2] / unit;
            for (int b = 0; b < m; b++) {
                double r = c[a][b] / Math.sqrt(Math.max(c[a][a] * c[b][b], 1e-300));
                double drawn = a == b ? 1 : 0.95 * Math.max(-1, Math.min(1, r));
                flat[a * m + b] = drawn * fitted.get(a).sd / unit * fitted.get(b).sd / unit;
            }
        }
        WeightedMean mean = WeightedMean.ofCorrelated(rate, flat);
        return Optional.of(new Agreement(mean.chiSquare(), mean.degreesOfFreedom(), mean.probability() > DISAGREE));
    }

    /** The rows whose evidence a route rests on. */
    private static int[] rowsFor(Route route, Joint shared) {
        Reduction data = shared.data();
        int[] out = new int[shared.rows().length];
        int n = 0;
        for (int row : shared.rows()) {
            boolean wanted = switch (route) {
                case DECAY -> data.kind[row] != Reduction.Kind.TAIL;
                case STROKE_TAILS -> data.kind[row] != Reduction.Kind.END;
                case PLATEAU_FLOW -> data.inPlateau[row];
            };
            if (wanted) {
                out[n++] = row;
            }
        }
        return Arrays.copyOf(out, n);
    }
}
