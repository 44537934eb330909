package org.holdtrace.desk.classroom;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/** The ways to a verdict: the one the analysis gives, on what came so far or on a whole recording. */
final class Verdicts {
    private static final Verdict.Told TOO_EARLY =
            new Verdict.Told("no verdict yet", "it takes a pump-up and a hold, or a plateau", Optional.empty());

    private Verdicts() {}

    /** What is the matter with a line in truth. */
    @FunctionalInterface
    interface Truth {
        /** What is lost at {@code pressurePa}, Pa, m³/s. */
        double flowM3PerS(double pressurePa);
    }

    /** What the analysis makes of the newest hold test in the samples that came so far, said in {@code setup}'s terms. */
    static Verdict soFar(Supplier<TestSetup> setup) {
        return (lane, units) ->
                newest(lane, setup.get()).map(each -> told(each, units)).orElse(TOO_EARLY);
    }

    /**
     * As {@link #soFar}, with {@code truth} after it, since of a simulated line it is known: at the pressure the leak is
     * stated at, or the two could not be compared.
     */
    static Verdict soFar(Supplier<TestSetup> setup, Truth truth) {
        return (lane, units) -> {
            Optional<HoldTestResult> result = newest(lane, setup.get());
            Optional<HoldTestResult.Leak> leak = result.flatMap(HoldTestResult::leak);
            if (leak.isEmpty()) {
                return TOO_EARLY;
            }
            Verdict.Told told = told(result.get(), units);
            double atPa = leak.get().atPa();
            return new Verdict.Told(
                    told.headline(),
                    told.detail(),
                    "in truth " + Phrases.bound(truth.flowM3PerS(atPa), 2, units) + " at "
                            + Phrases.pressure(atPa, units),
                    told.outcome());
        };
    }

    private static Optional<HoldTestResult> newest(Lane lane, TestSetup setup) {
        Trace trace = lane.trace();
        List<HoldTest> tests = trace.size() == 0 ? List.of() : TraceSegmenter.segment(trace);
        return tests.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        HoldTestEstimator.estimate(trace, tests.get(tests.size() - 1), setup, EstimateOptions.none()));
    }

    /** What the analysis made of a whole recording, of the hold test being shown. */
    static Verdict recorded(List<HoldTestResult> results) {
        return (lane, units) -> {
            if (results.isEmpty()) {
                return new Verdict.Told("no hold test", "none was found in this recording", Optional.empty());
            }
            double atS = lane.shown().timeS();
            HoldTestResult found = results.get(0);
            for (HoldTestResult each : results) {
                if (fromS(each) <= atS) {
                    found = each;
                }
            }
            return told(found, units);
        };
    }

    private static double fromS(HoldTestResult result) {
        return result.holdTest().phases().stream()
                .mapToDouble(PhaseSpan::fromS)
                .min()
                .orElse(0);
    }

    static Verdict.Told told(HoldTestResult result, ShownUnits units) {
        if (result.leak().isEmpty()) {
            return TOO_EARLY;
        }
        HoldTestResult.Leak leak = result.leak().get();
        String rate = leak.law() == Law.NONE
                ? "below " + Phrases.bound(leak.upper95(), 2, units)
                : Phrases.rateWithInterval(leak.m3PerS(), leak.lower95(), leak.upper95(), units) + " "
                        + ShownUnits.name(units.flow());
        String figures = rate + " at " + Phrases.pressure(leak.atPa(), units);
        return new Verdict.Told(
                result.verdict().map(each -> Phrases.outcome(each, units)).orElse("no limit is stated"),
                figures,
                result.verdict().map(HoldTestResult.Verdict::outcome));
    }
}
