package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.M3_PER_CM3;
import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.BudgetLine;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;

/** From one hold test and what is known of it to the leak rate with its interval. */
public final class HoldTestEstimator {
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
        double peakBar = TestPressures.peakBar(trace, test);
        double relief = WorkingUnits.in(PA_PER_BAR, setup.reliefSettingPa(), Double.POSITIVE_INFINITY);
        StrokeRises rises = StrokeRises.of(trace, test);
        boolean[] unknown = rises.notFull(relief, peakBar);
        boolean endKnown = setup.bledVolumeM3().isPresent();
        CleanTrace cleaned = new CleanTrace(trace, test);
        Reduction data = Reduction.of(cleaned, unknown, rises.relieved(relief), endKnown);
        double holdBar = TestPressures.holdBar(trace, test, data);
        double leakBar = options.atPa().isPresent()
                ? options.atPa().getAsDouble() / PA_PER_BAR
                : WorkingUnits.in(PA_PER_BAR, setup.referencePressurePa(), holdBar);
        double plateauBar = test.plateauMeanPa().orElse(0) / PA_PER_BAR;
        double normBar =
                Math.max(Math.max(1, 0.4 * data.peakBar), Math.min(data.peakBar, Math.max(plateauBar, holdBar)));
        double stroke = WorkingUnits.in(M3_PER_CM3, setup.pumpStrokeM3(), Double.NaN);
        double rough = stroke / rises.usualBar();
        Knowledge knowledge = Knowledge.of(
                setup, rough, normBar, OilKnowledge.of(setup), !test.strokes().isEmpty());
        OpeningGrid wide = OpeningGrid.wide(TestPressures.holdEndBar(trace, test), peakBar);
        Optional<Joint> joint = new JointFit(data, unknown, knowledge, rises.typicalBar()).find(wide, rough, leakBar);
        return joint.isPresent() ? conclude(joint.get(), end) : empty();
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
                Optional.of(Pictures.of(joint, carry, Spans.originS(trace, test), conclusion.told())));
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
}
