package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.BudgetLine;
import org.holdtrace.estimate.HoldTestResult.Caution;
import org.holdtrace.estimate.HoldTestResult.Compliance;
import org.holdtrace.estimate.HoldTestResult.Leak;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.estimate.HoldTestResult.Verdict;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** From one hold test and what is known of it to the leak rate with its interval. */
public final class HoldTestEstimator {
    private static final double PA_PER_BAR = 1e5;
    private static final double M3_PER_CM3 = 1e-6;

    /** A leak is told from zero when it stands this many standard uncertainties above it. */
    private static final double TOLD = 2.2;

    /** Opening pressures tried between the end of the hold (0) and the peak (1), densest where a decay dies out. */
    private static final double[] THRESHOLD_GRID = {-0.15, -0.05, -0.01, 0.01, 0.05, 0.15, 0.4, 0.7};

    private final Trace trace;
    private final HoldTest test;
    private final TestSetup setup;
    private final EstimateOptions options;
    private final List<Caution> cautions = new ArrayList<>();

    private HoldTestEstimator(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options) {
        this.trace = trace;
        this.test = test;
        this.setup = setup;
        this.options = options;
    }

    /**
     * Estimates the leak of one hold test.
     *
     * @param trace the samples of the whole session
     * @param test the hold test found in it
     * @param setup what is known beside the samples
     * @param options what the caller wishes
     * @return the result; its leak is empty where there is neither a usable hold nor a plateau
     */
    public static HoldTestResult estimate(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options) {
        return new HoldTestEstimator(trace, test, setup, options).run();
    }

    private HoldTestResult run() {
        Optional<PhaseSpan> hold = test.phase(Phase.HOLD).or(() -> test.phase(Phase.SETTLING));
        boolean plateau = test.plateauMeanPa().isPresent();
        if (hold.isEmpty() && !plateau) {
            return empty();
        }
        double peak = peakBar();
        boolean[] unknown = unknownStrokes(peak);
        double[] thresholds = new double[Columns.THRESHOLDS];
        double holdEnd = Math.min(0.98 * peak, holdEndBar());
        for (int k = 0; k < thresholds.length; k++) {
            thresholds[k] = k < 4 ? holdEnd * (0.3 + 0.2 * k) : holdEnd + (peak - holdEnd) * THRESHOLD_GRID[k - 4];
        }
        boolean useEnd = setup.bledVolumeM3().isPresent();
        Reduction data = Reduction.of(trace, test, unknown, useEnd, thresholds);
        if (data.rows < 4) {
            return empty();
        }
        double holdBar = holdPressure(data);
        double leakBar = options.atPa().isPresent()
                ? options.atPa().getAsDouble() / PA_PER_BAR
                : setup.referencePressurePa().map(q -> q.value() / PA_PER_BAR).orElse(holdBar);
        double plateauBar = test.plateauMeanPa().orElse(0) / PA_PER_BAR;
        double normBar =
                Math.max(Math.max(1, 0.4 * data.peakBar), Math.min(data.peakBar, Math.max(plateauBar, holdBar)));

        StrokeRises rises = StrokeRises.of(trace, test);
        double strokeBar = rises.typicalBar();
        double stroke = setup.pumpStrokeM3().map(q -> q.value() / M3_PER_CM3).orElse(Double.NaN);
        double rough = rises.count() >= 3 ? stroke / strokeBar : Double.NaN;
        Knowledge.OilPrior oil = OilKnowledge.of(setup);
        Knowledge knowledge = Knowledge.of(setup, rough, normBar, oil);

        ModelError errors = ModelError.of(data, knowledge, strokeBar);
        int[] all = usableRows(data, normBar);
        if (all.length < 4) {
            return empty();
        }
        Noise noise = firstNoise(data);
        Evidence evidence = Evidence.of(data, all, noise, errors);
        Posterior first = Posterior.explore(
                evidence, knowledge, List.of(LeakShape.laminar(), LeakShape.orifice(normBar)), Posterior.coarsePairs());
        NodeFit firstBest = better(first.best(Law.LAMINAR), first.best(Law.ORIFICE));

        // What the first fit leaves over tells of noise and of strokes that were not what they seemed.
        boolean[] doubtful = StrokeResiduals.doubtful(evidence, firstBest, strokeBar, unknown);
        if (!Arrays.equals(doubtful, unknown)) {
            unknown = doubtful;
            data = Reduction.of(trace, test, unknown, useEnd, thresholds);
            all = usableRows(data, normBar);
            errors = ModelError.of(data, knowledge, strokeBar);
            evidence = Evidence.of(data, all, noise, errors);
            first = Posterior.explore(
                    evidence,
                    knowledge,
                    List.of(LeakShape.laminar(), LeakShape.orifice(normBar)),
                    Posterior.coarsePairs());
            firstBest = better(first.best(Law.LAMINAR), first.best(Law.ORIFICE));
        }
        List<LeakShape> coarse = new ArrayList<>();
        coarse.add(LeakShape.laminar());
        coarse.add(LeakShape.orifice(normBar));
        for (int k = 0; k < thresholds.length; k++) {
            coarse.add(LeakShape.threshold(k, thresholds[k]));
        }
        Posterior second = Posterior.explore(evidence, knowledge, coarse, Posterior.coarsePairs());
        NodeFit open = second.best(Law.THRESHOLD);
        NodeFit bestSoFar = better(second.best(Law.LAMINAR), better(second.best(Law.ORIFICE), open));
        noise = residualNoise(evidence, bestSoFar, noise, strokeBar);
        List<LeakShape> shapes = new ArrayList<>(
                List.of(LeakShape.laminar(), LeakShape.none(), LeakShape.orifice(normBar), LeakShape.mixed(normBar)));
        if (open != null) {
            for (int pass = 0; pass < 2; pass++) {
                double[] finer = between(thresholds, open.shape.thresholdBar());
                double spacing = (finer[finer.length - 1] - finer[0]) / (finer.length - 1);
                thresholds = finer;
                data = Reduction.of(trace, test, unknown, useEnd, thresholds);
                double conductance = Math.max(1e-6, Math.abs(open.x[Knowledge.COUNT]) * 3);
                List<LeakShape> moving = new ArrayList<>();
                for (int k = 0; k < thresholds.length; k++) {
                    moving.add(LeakShape.movingThreshold(k, thresholds[k], conductance * spacing));
                }
                if (pass == 0) {
                    evidence = Evidence.of(data, all, noise, errors);
                    NodeFit finerBest = Posterior.explore(evidence, knowledge, moving, second.likelyPairs(3))
                            .best(Law.THRESHOLD);
                    open = finerBest == null ? open : finerBest;
                } else {
                    shapes.addAll(moving);
                }
            }
        }
        evidence = Evidence.of(data, all, noise, errors);
        Posterior joint = Posterior.explore(evidence, knowledge, shapes, Posterior.pairs());
        return assemble(joint, data, all, noise, errors, knowledge, rough, leakBar);
    }

    private HoldTestResult assemble(
            Posterior joint,
            Reduction data,
            int[] all,
            Noise noise,
            ModelError errors,
            Knowledge knowledge,
            double rough,
            double leakBar) {
        Map<Law, Double> leaking = leakingWeights(joint);
        double[][] draws = joint.draw(Posterior.tempered(leaking), leakBar);
        double inflate = misfit(joint);
        double[] leak = spread(draws[0], inflate);
        double[] s = Posterior.summary(leak);
        Law likely = leaking.entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse(Law.LAMINAR);
        NodeFit best = joint.best(likely);
        boolean told = told(joint, leak, s);
        Leak result;
        double[] sorted = leak.clone();
        if (!told) {
            for (int i = 0; i < sorted.length; i++) {
                sorted[i] = Math.abs(sorted[i]);
            }
        }
        Arrays.sort(sorted);
        double resolvable = resolvable(joint, leakBar) * inflate;
        Map<Law, Double> weights = new EnumMap<>(Law.class);
        for (Law law : Law.values()) {
            weights.put(law, joint.lawWeight.getOrDefault(law, 0.0));
        }
        if (told) {
            result = new Leak(
                    s[2] * M3_PER_CM3,
                    Math.max(0, s[1]) * M3_PER_CM3,
                    s[3] * M3_PER_CM3,
                    leakBar * PA_PER_BAR,
                    likely,
                    weights,
                    resolvable * M3_PER_CM3);
        } else {
            result = new Leak(
                    Math.max(0, s[2]) * M3_PER_CM3,
                    0,
                    Posterior.quantile(sorted, 0.95) * M3_PER_CM3,
                    leakBar * PA_PER_BAR,
                    Law.NONE,
                    weights,
                    resolvable * M3_PER_CM3);
        }
        Optional<Verdict> verdict = setup.limitM3PerS().map(limit -> verdict(sorted, limit.value()));
        double[] c = Posterior.summary(draws[1]);
        Optional<Compliance> compliance = Optional.of(new Compliance(
                c[2] * M3_PER_CM3 / PA_PER_BAR,
                c[1] * M3_PER_CM3 / PA_PER_BAR,
                c[3] * M3_PER_CM3 / PA_PER_BAR,
                complianceFrom(knowledge)));
        RouteFits routes =
                RouteFits.of(new RouteFits.Shared(data, all, noise, errors, knowledge, rough, leakBar, leaking, joint));
        List<BudgetLine> budget = Budget.of(best, joint, leak, leakBar);
        HoldTestResult.FitPicture picture =
                Pictures.of(joint, best, leaking, originS(), 1.1 * Math.max(leakBar, data.peakBar), told);
        return new HoldTestResult(
                test,
                compliance,
                Optional.of(result),
                routes.rates(),
                routes.agreement(),
                verdict,
                budget,
                cautions,
                Optional.of(picture));
    }

    private List<String> complianceFrom(Knowledge knowledge) {
        List<String> from = new ArrayList<>();
        if (knowledge.strokeStated && test.strokes().size() >= 4) {
            from.add("strokes");
        }
        if (knowledge.volumeStated) {
            from.add("volume and oil");
        }
        if (knowledge.bledStated) {
            from.add("bled volume");
        }
        return from;
    }

    /** Weights of the laws that leak, summing to 1. */
    private static Map<Law, Double> leakingWeights(Posterior joint) {
        Map<Law, Double> w = new EnumMap<>(joint.lawWeight);
        w.remove(Law.NONE);
        double sum = w.values().stream().mapToDouble(Double::doubleValue).sum();
        if (!(sum > 0)) {
            w.clear();
            w.put(Law.LAMINAR, 1.0);
            return w;
        }
        w.replaceAll((law, v) -> v / sum);
        return w;
    }

    /** Square root of chi-square per degree of freedom, where the noise did not account for all of it. */
    private static double misfit(Posterior joint) {
        double chi = joint.nodes.stream()
                .mapToDouble(node -> 2 * node.fit().cost)
                .min()
                .orElse(0);
        int dof = Math.max(1, joint.evidence.row.length - 6);
        return Math.max(1, Math.sqrt(chi / dof));
    }

    private static double[] spread(double[] draws, double factor) {
        if (factor <= 1) {
            return draws;
        }
        double[] sorted = draws.clone();
        Arrays.sort(sorted);
        double middle = Posterior.quantile(sorted, 0.5);
        double[] out = new double[draws.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = middle + factor * (draws[i] - middle);
        }
        return out;
    }

    private static boolean told(Posterior joint, double[] leak, double[] summary) {
        double square = 0;
        for (double v : leak) {
            square += (v - summary[0]) * (v - summary[0]);
        }
        double sd = Math.sqrt(square / leak.length);
        double z = summary[1] > 0 ? Math.max(summary[0] / sd, 1.96 * summary[2] / (summary[2] - summary[1])) : 0;
        NodeFit none = joint.best(Law.NONE);
        if (none == null) {
            return z > TOLD;
        }
        double best = joint.nodes.stream()
                .filter(node -> node.fit().shape.law() != Law.NONE)
                .mapToDouble(node -> node.fit().cost)
                .min()
                .orElse(none.cost);
        return z > TOLD && 2 * (none.cost - best) > TOLD * TOLD;
    }

    /** Smallest leak that could have been told from zero: what stays uncertain though the scale were known exactly. */
    private static double resolvable(Posterior joint, double leakBar) {
        NodeFit fit = joint.best(Law.LAMINAR);
        if (fit == null) {
            return 0;
        }
        double[] g = fit.leakGradient(leakBar);
        int n = fit.variables();
        boolean[] fixed = new boolean[n];
        for (int v : new int[] {
            Knowledge.VOLUME, Knowledge.MODULUS, Knowledge.LINE, Knowledge.STROKE, Knowledge.BLED, Knowledge.GAIN
        }) {
            fixed[v] = true;
        }
        double[] h = new double[n * n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < n; j++) {
                double sum = 0;
                for (int k = 0; k <= Math.min(i, j); k++) {
                    sum += fit.factor[i * n + k] * fit.factor[j * n + k];
                }
                h[i * n + j] = fixed[i] || fixed[j] ? (i == j ? 1 : 0) : sum;
            }
            if (fixed[i]) {
                g[i] = 0;
            }
        }
        double[] l = NodeFit.cholesky(h, n);
        double square = 0;
        double[] y = new double[n];
        for (int i = 0; i < n; i++) {
            double sum = g[i];
            for (int k = 0; k < i; k++) {
                sum -= l[i * n + k] * y[k];
            }
            y[i] = sum / l[i * n + i];
            square += y[i] * y[i];
        }
        return (1.96 + 1.645) * Math.sqrt(square);
    }

    private static Verdict verdict(double[] sortedCm3, double limit) {
        double limitCm3 = limit / M3_PER_CM3;
        int at = Arrays.binarySearch(sortedCm3, limitCm3);
        int below = at >= 0 ? at : -at - 1;
        double over = 1 - (double) below / sortedCm3.length;
        Outcome outcome = over >= 0.975 ? Outcome.OVER_LIMIT : over <= 0.025 ? Outcome.WITHIN_LIMIT : Outcome.UNDECIDED;
        return new Verdict(outcome, limit, over);
    }

    private HoldTestResult empty() {
        cautions.add(new Caution(
                "no-usable-hold",
                "There is neither a usable hold nor a plateau in this test, so no leak rate is given."));
        return new HoldTestResult(
                test,
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                cautions,
                Optional.empty());
    }

    private static NodeFit better(NodeFit a, NodeFit b) {
        if (a == null || b == null) {
            return a == null ? b : a;
        }
        return a.cost <= b.cost ? a : b;
    }

    /** The strokes whose volume in the line is not known before the balance is looked at. */
    private boolean[] unknownStrokes(double peakBar) {
        double relief = setup.reliefSettingPa().map(q -> q.value() / PA_PER_BAR).orElse(Double.POSITIVE_INFINITY);
        return StrokeRises.of(trace, test).notFull(relief, peakBar);
    }

    /** Time the reduced rows count from, s. */
    private double originS() {
        double from = test.phases().stream()
                .filter(span -> span.phase() != Phase.REST)
                .mapToDouble(PhaseSpan::fromS)
                .min()
                .orElse(trace.timeS(0));
        return trace.timeS(Math.max(0, trace.indexAt(from) - 1));
    }

    private double peakBar() {
        double from = test.phases().stream()
                .filter(span -> span.phase() != Phase.REST)
                .mapToDouble(PhaseSpan::fromS)
                .min()
                .orElse(trace.timeS(0));
        double to = test.phases().stream()
                .filter(span -> span.phase() != Phase.BLEED_OFF)
                .mapToDouble(PhaseSpan::toS)
                .max()
                .orElse(trace.timeS(trace.size() - 1));
        int a = trace.indexAt(from);
        int b = Math.min(trace.size(), trace.indexAt(to) + 1);
        double peak = 0;
        for (int i = a; i + 2 < b; i++) {
            // The median of three: a spike of one sample is no pressure.
            double x = trace.pressurePa(i);
            double y = trace.pressurePa(i + 1);
            double z = trace.pressurePa(i + 2);
            peak = Math.max(peak, Math.max(Math.min(x, y), Math.min(Math.max(x, y), z)));
        }
        return Math.max(1, (peak - test.rest().zeroPa()) / PA_PER_BAR);
    }

    /** A grid from the neighbour below {@code centre} to the one above. */
    private static double[] between(double[] grid, double centre) {
        int n = grid.length;
        int at = 0;
        for (int k = 0; k < n; k++) {
            at = Math.abs(grid[k] - centre) < Math.abs(grid[at] - centre) ? k : at;
        }
        double low = at == 0 ? 0.5 * grid[0] : grid[at - 1];
        double high = at == n - 1 ? grid[at] + 0.5 * (grid[at] - grid[at - 1]) : grid[at + 1];
        double[] out = new double[n];
        for (int k = 0; k < n; k++) {
            out[k] = Math.max(0.03 * grid[n - 1], low + (high - low) * (k + 0.5) / n);
        }
        return out;
    }

    /** Pressure at the end of the hold, bar. */
    private double holdEndBar() {
        double to = test.phase(Phase.HOLD)
                .or(() -> test.phase(Phase.SETTLING))
                .or(() -> test.phase(Phase.PUMP_UP))
                .map(PhaseSpan::toS)
                .orElse(trace.timeS(trace.size() - 1));
        int last = Math.min(trace.size() - 1, trace.indexAt(to));
        int first = Math.max(0, last - Math.max(5, last / 200));
        double sum = 0;
        for (int i = first; i < last; i++) {
            sum += trace.pressurePa(i);
        }
        double mean = last > first ? sum / (last - first) : trace.pressurePa(last);
        return Math.max(0.5, (mean - test.rest().zeroPa()) / PA_PER_BAR);
    }

    private double holdPressure(Reduction data) {
        double from = test.phase(Phase.HOLD)
                .or(() -> test.phase(Phase.SETTLING))
                .map(PhaseSpan::fromS)
                .orElse(Double.NaN);
        double origin = originS();
        for (int i = 0; i < data.rows; i++) {
            if (data.kind[i] == Reduction.Kind.HOLD && data.timeS[i] + 0.5 * data.lengthS[i] >= from - origin) {
                return data.pressureBar[i];
            }
        }
        return test.plateauMeanPa().orElse(data.peakBar * PA_PER_BAR) / PA_PER_BAR;
    }

    private static int[] usableRows(Reduction data, double normBar) {
        double least = Math.max(0.3, 0.015 * normBar);
        return data.rowsWhere(i -> data.kind[i] == Reduction.Kind.END || data.pressureBar[i] > least);
    }

    private Noise firstNoise(Reduction data) {
        return new Noise(data.sampleNoiseBar, 0.5 * data.sampleNoiseBar, 1, 1e-4, data.quantumBar, 0.02);
    }

    private static Noise residualNoise(Evidence evidence, NodeFit best, Noise noise, double strokeBar) {
        Reduction data = evidence.data;
        double[] residual = evidence.rawResidual(best.gamma);
        int n = 0;
        double[] t = new double[residual.length];
        double[] length = new double[residual.length];
        double[] r = new double[residual.length];
        int[] samples = new int[residual.length];
        for (int i = 0; i < residual.length; i++) {
            int row = evidence.row[i];
            if (data.kind[row] == Reduction.Kind.HOLD) {
                t[n] = data.timeS[row];
                length[n] = data.lengthS[row];
                samples[n] = data.samples[row];
                r[n++] = residual[i];
            }
        }
        double scatter = StrokeResiduals.scatter(evidence, best, strokeBar);
        Noise base = new Noise(noise.whiteBar(), 0, 1, noise.walkBar(), noise.quantumBar(), scatter);
        return NoiseFit.estimate(
                Arrays.copyOf(t, n), Arrays.copyOf(length, n), Arrays.copyOf(samples, n), Arrays.copyOf(r, n), base, 5);
    }
}
