package org.holdtrace.desk.classroom;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
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

    /** Nobody could say of which of the two lines such a figure was. */
    private static final Verdict.Told CHANGED =
            new Verdict.Told("changed while it was tested", "let off, shut and pump for a verdict", Optional.empty());

    private static final String OF_BEFORE = "before the change: ";

    /** So much later than the line itself an end of a hold may be found, s. */
    private static final double FOUND_LATE_S = 0.5;

    /** What the analysis makes of the newest hold test in the samples that came so far, said in {@code setup}'s terms. */
    static Verdict soFar(Supplier<TestSetup> setup) {
        return (lane, units) ->
                newest(lane, setup.get()).map(each -> told(each, units)).orElse(TOO_EARLY);
    }

    /**
     * As {@link #soFar}, with the truth after it, since {@code past} knows it of a simulated line: that of the hold test
     * which the verdict is on, whatever was done to the line since, and at the pressure the leak is stated at, or the two
     * could not be compared.
     */
    static Verdict soFar(Supplier<TestSetup> setup, Past past) {
        return (lane, units) -> {
            Optional<HoldTestResult> result = newest(lane, setup.get());
            Optional<HoldTestResult.Leak> leak = result.flatMap(HoldTestResult::leak);
            if (leak.isEmpty()) {
                return TOO_EARLY;
            }
            double fromS = pumpedFromS(result.get().holdTest());
            double toS = Math.max(fromS, heldToS(result.get().holdTest()) - FOUND_LATE_S);
            Optional<LeakLaw> law = past.throughout(fromS, toS);
            if (law.isEmpty()) {
                return CHANGED;
            }
            Verdict.Told told = told(result.get(), units);
            double atPa = leak.get().atPa();
            return new Verdict.Told(
                    (law.get().equals(past.now()) ? "" : OF_BEFORE) + told.headline(),
                    told.detail(),
                    "in truth "
                            + Phrases.bound(TrainingLine.leaks(law.get()).flow(atPa), 2, units) + " at "
                            + Phrases.pressure(atPa, units),
                    told.outcome());
        };
    }

    private static double pumpedFromS(HoldTest test) {
        return test.phases().stream()
                .filter(each -> each.phase() != Phase.REST)
                .mapToDouble(PhaseSpan::fromS)
                .min()
                .orElse(0);
    }

    private static double heldToS(HoldTest test) {
        return test.phases().stream()
                .filter(each -> each.phase() != Phase.REST && each.phase() != Phase.BLEED_OFF)
                .mapToDouble(PhaseSpan::toS)
                .max()
                .orElse(0);
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
