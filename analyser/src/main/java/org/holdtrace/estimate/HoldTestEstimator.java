package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.M3_PER_CM3;
import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.BudgetLine;
import org.holdtrace.leak.Law;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** From one hold test and what is known of it to the leak rate with its interval. */
public final class HoldTestEstimator {
    /** Opening pressures tried between the end of the hold (0) and the peak (1), densest where a decay dies out. */
    private static final double[] THRESHOLD_GRID = {-0.15, -0.05, -0.01, 0.01, 0.05, 0.15, 0.4, 0.7};

    /** Spread of an opening pressure about the one tried in the first search, bar a bar of the peak and 1/s: any. */
    private static final double WIDE_SHIFT = 0.1;

    /**
     * Lasting noise supposed in the first fits, as a share of the peak: more than a transducer has, so that a law which is
     * nearly right is found before priors are bent to save one that is wrong.
     */
    private static final double FIRST_COLOUR = 0.001;

    /** Pairs of time constants that are tried again once the noise is known. */
    private static final int LIKELY = 12;

    private final Trace trace;
    private final HoldTest test;
    private final TestSetup setup;
    private final EstimateOptions options;
    private final Cautions cautions = new Cautions();

    private HoldTestEstimator(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options) {
        this.trace = trace;
        this.test = test;
        this.setup = withLineCheck(setup, options.lineCheck());
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
     * @throws java.util.concurrent.CancellationException where the thread is interrupted meanwhile
     */
    public static HoldTestResult estimate(Trace trace, HoldTest test, TestSetup setup, EstimateOptions options) {
        return new HoldTestEstimator(trace, test, setup, options).run();
    }

    /** A line check tells what the line swells by, where nobody stated it. */
    private static TestSetup withLineCheck(TestSetup setup, Optional<HoldTestResult> lineCheck) {
        if (setup.lineComplianceM3PerPa().isPresent()
                || lineCheck.isEmpty()
                || lineCheck.get().compliance().isEmpty()) {
            return setup;
        }
        HoldTestResult.Compliance line = lineCheck.get().compliance().get();
        double deviation = Math.max(0.01 * line.m3PerPa(), (line.upper95() - line.lower95()) / 3.92);
        return setup.withLineCompliance(new Quantity(line.m3PerPa(), deviation));
    }

    private HoldTestResult run() {
        boolean plateau = test.plateauMeanPa().isPresent();
        if (Spans.hold(test) == null && !plateau) {
            return empty();
        }
        EndOfRange.Stand end = EndOfRange.of(trace, test);
        if (end.spoilsTest()) {
            cautions.ofEndOfRange(end);
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
        CleanTrace cleaned = new CleanTrace(trace, test);
        Reduction data = Reduction.of(cleaned, unknown, useEnd);
        if (data.rows < 4) {
            return empty();
        }
        double holdBar = holdPressure(data);
        double leakBar = options.atPa().isPresent()
                ? options.atPa().getAsDouble() / PA_PER_BAR
                : WorkingUnits.in(PA_PER_BAR, setup.referencePressurePa(), holdBar);
        double plateauBar = test.plateauMeanPa().orElse(0) / PA_PER_BAR;
        double normBar =
                Math.max(Math.max(1, 0.4 * data.peakBar), Math.min(data.peakBar, Math.max(plateauBar, holdBar)));

        StrokeRises rises = StrokeRises.of(trace, test);
        double strokeBar = rises.typicalBar();
        double stroke = WorkingUnits.in(M3_PER_CM3, setup.pumpStrokeM3(), Double.NaN);
        double rough = rises.count() >= 3 ? stroke / strokeBar : Double.NaN;
        Knowledge.OilPrior oil = OilKnowledge.of(setup);
        Knowledge knowledge =
                Knowledge.of(setup, rough, normBar, oil, !test.strokes().isEmpty());

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
            data = Reduction.of(cleaned, unknown, useEnd);
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
            coarse.add(LeakShape.movingThreshold(k, thresholds[k], WIDE_SHIFT * data.peakBar));
        }
        data = data.withThresholds(thresholds);
        evidence = evidence.withThresholds(data);
        Posterior second = Posterior.explore(
                evidence, knowledge, likelyFirst(coarse, firstBest.shape.law()), Posterior.coarsePairs());
        NodeFit open = second.best(Law.THRESHOLD);
        NodeFit bestSoFar = better(second.best(Law.LAMINAR), better(second.best(Law.ORIFICE), open));
        List<LeakShape> shapes = new ArrayList<>(
                List.of(LeakShape.laminar(), LeakShape.none(), LeakShape.orifice(normBar), LeakShape.mixed(normBar)));
        for (int pass = 0; pass < 2 && open != null; pass++) {
            thresholds = between(thresholds, open.opening());
            data = data.withThresholds(thresholds);
            evidence = evidence.withThresholds(data);
            double spacing = (thresholds[thresholds.length - 1] - thresholds[0]) / (thresholds.length - 1);
            double conductance = Math.max(1e-6, Math.abs(open.x[Knowledge.COUNT]) * 3);
            List<LeakShape> moving = new ArrayList<>();
            int at = nearest(thresholds, open.opening());
            // In the end the best and its neighbours, each of which may still move, cover what is left.
            int reach = pass == 0 ? thresholds.length : 1;
            for (int k = Math.max(0, at - reach); k <= Math.min(thresholds.length - 1, at + reach); k++) {
                moving.add(LeakShape.movingThreshold(k, thresholds[k], conductance * spacing));
            }
            if (pass == 0) {
                NodeFit finer = Posterior.explore(evidence, knowledge, moving, second.likelyPairs(3))
                        .best(Law.THRESHOLD);
                open = finer == null ? open : finer;
                bestSoFar = better(bestSoFar, open);
            } else {
                shapes.addAll(moving);
            }
        }
        // Noise is what the best of all laws leaves over; a poor fit's residuals would pass for noise.
        Posterior joint = null;
        for (int pass = 0; pass < 2; pass++) {
            noise = residualNoise(evidence, bestSoFar, noise, strokeBar);
            evidence = Evidence.of(data, all, noise, errors);
            List<LeakShape> likely = likelyFirst(shapes, bestSoFar.shape.law());
            // The first pass is for the noise alone: the likely law, none at all and two terms together tell that.
            joint = pass == 0
                    ? Posterior.explore(
                            evidence,
                            knowledge,
                            List.of(likely.get(0), LeakShape.none(), LeakShape.mixed(normBar)),
                            Posterior.pairs())
                    : Posterior.explore(evidence, knowledge, likely, joint.likelyPairs(LIKELY));
            bestSoFar = joint.leastCost();
        }
        return conclude(new Joint(data, all, noise, errors, knowledge, rough, leakBar, joint, unknown), end);
    }

    private HoldTestResult conclude(Joint joint, EndOfRange.Stand end) {
        Carry carry = Carry.NONE;
        if (options.atTemperatureK().isPresent()) {
            Optional<Carry> to = Carry.to(setup, options.atTemperatureK().getAsDouble());
            if (to.isEmpty()) {
                cautions.add(
                        "not-carried",
                        "The rate is stated at the temperature of the test: carrying it to another needs the oil's grade "
                                + "and temperature.");
            }
            carry = to.orElse(Carry.NONE);
        }
        RouteFits routes = RouteFits.of(joint, carry);
        Conclusion conclusion = new Conclusion(joint, setup, carry, options.lineCheck(), routes);
        List<BudgetLine> budget = Budget.of(joint, carry, conclusion.spread());
        cautions.ofSetup(setup, test);
        cautions.ofTrace(trace, test, end);
        cautions.ofPressures(setup, joint.data().peakBar);
        if (options.lineCheck().isPresent()) {
            cautions.ofLineCheck(options.lineCheck().get(), joint, conclusion);
        }
        cautions.ofFit(joint, routes, conclusion, budget, test);
        Optional<String> contradiction = Contradiction.of(
                joint,
                routes,
                conclusion.compliance(Optional.empty(), test.strokes().size()),
                setup,
                trace,
                test);
        HoldTestResult.Leak leak = conclusion.leak();
        if (contradiction.isPresent()) {
            cautions.ofContradiction(contradiction.get());
            leak = Contradiction.bounded(leak, routes.rates());
        }
        return new HoldTestResult(
                test,
                Optional.of(conclusion.compliance(
                        options.lineCheck(), test.strokes().size())),
                Optional.of(leak),
                routes.rates(),
                routes.agreement(),
                cautions.permitted(conclusion.verdict()),
                budget,
                cautions.list(),
                Optional.of(Pictures.of(joint, carry, originS(), conclusion.told())));
    }

    private HoldTestResult empty() {
        cautions.add(
                "no-usable-hold",
                "There is neither a usable hold nor a plateau in this test, so no leak rate is given.");
        return new HoldTestResult(
                test,
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                cautions.list(),
                Optional.empty());
    }

    /** The same laws, the likely one first: the pairs of time constants that suit it are those the others are tried with. */
    private static List<LeakShape> likelyFirst(List<LeakShape> shapes, Law likely) {
        int count = 0;
        for (LeakShape shape : shapes) {
            count += shape.law() == likely ? 1 : 0;
        }
        // Of several opening pressures the one in the middle.
        int wanted = count / 2;
        List<LeakShape> out = new ArrayList<>(shapes);
        for (int k = 0; k < shapes.size(); k++) {
            if (shapes.get(k).law() == likely && wanted-- == 0) {
                // Moved by its place: looking for it would ask for the equality of records, which is linked at run
                // time.
                out.add(0, out.remove(k));
            }
        }
        return out;
    }

    private static NodeFit better(NodeFit a, NodeFit b) {
        if (a == null || b == null) {
            return a == null ? b : a;
        }
        return a.cost <= b.cost ? a : b;
    }

    /** The strokes whose volume in the line is not known before the balance is looked at. */
    private boolean[] unknownStrokes(double peakBar) {
        double relief = WorkingUnits.in(PA_PER_BAR, setup.reliefSettingPa(), Double.POSITIVE_INFINITY);
        return StrokeRises.of(trace, test).notFull(relief, peakBar);
    }

    /** Time the reduced rows count from, s. */
    private double originS() {
        return trace.timeS(Math.max(0, trace.indexAt(Spans.startS(trace, test)) - 1));
    }

    private double peakBar() {
        int a = trace.indexAt(Spans.startS(trace, test));
        int b = Math.min(trace.size(), trace.indexAt(Spans.endS(trace, test)) + 1);
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

    private static int nearest(double[] grid, double centre) {
        int at = 0;
        for (int k = 0; k < grid.length; k++) {
            at = Math.abs(grid[k] - centre) < Math.abs(grid[at] - centre) ? k : at;
        }
        return at;
    }

    /** A grid from the neighbour below {@code centre} to the one above. */
    private static double[] between(double[] grid, double centre) {
        int n = grid.length;
        int at = nearest(grid, centre);
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
        PhaseSpan span = Spans.firstOf(test, Phase.HOLD, Phase.SETTLING, Phase.PUMP_UP);
        double to = span == null ? trace.timeS(trace.size() - 1) : span.toS();
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
        PhaseSpan hold = Spans.hold(test);
        double from = hold == null ? Double.NaN : hold.fromS();
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
        int[] usable = new int[data.rows];
        int n = 0;
        for (int i = 0; i < data.rows; i++) {
            if (data.kind[i] == Reduction.Kind.END || data.pressureBar[i] > least) {
                usable[n++] = i;
            }
        }
        return Arrays.copyOf(usable, n);
    }

    private Noise firstNoise(Reduction data) {
        return new Noise(
                data.sampleNoiseBar,
                Math.max(0.5 * data.sampleNoiseBar, FIRST_COLOUR * data.peakBar),
                1,
                1e-4,
                data.quantumBar,
                0.02,
                0);
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
        double scatter = StrokeResiduals.scatter(evidence, residual, strokeBar);
        double tail = StrokeResiduals.withinTails(evidence, residual);
        Noise base = new Noise(noise.whiteBar(), 0, 1, noise.walkBar(), noise.quantumBar(), scatter, tail);
        return NoiseFit.estimate(
                Arrays.copyOf(t, n), Arrays.copyOf(length, n), Arrays.copyOf(samples, n), Arrays.copyOf(r, n), base, 5);
    }
}
