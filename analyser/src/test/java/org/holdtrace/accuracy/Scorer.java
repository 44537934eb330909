package org.holdtrace.accuracy;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.holdtrace.estimate.EstimateOptions;
import org.holdtrace.estimate.HoldTestEstimator;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.Verdict;
import org.holdtrace.rig.Truth;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;

/** Runs the analyser over a simulated test and holds its answer against the truth. */
final class Scorer {
    /** Processor time of the thread, so that what else a machine does costs nothing. */
    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private Scorer() {}

    static Score score(Corpus corpus, int index) {
        long start = THREADS.getCurrentThreadCpuTime();
        SimulatedCase.Recorded recorded = corpus.simulate(index);
        SimulatedCase test = recorded.test();
        long simulated = THREADS.getCurrentThreadCpuTime();
        Trace trace = recorded.trace();
        String failure = "";
        Optional<Score.Answer> answer = Optional.empty();
        Optional<SingleExponential.Answer> naive = Optional.empty();
        long done = simulated;
        try {
            List<HoldTest> found = TraceSegmenter.segment(trace);
            Optional<HoldTest> match = match(found, test.test());
            if (match.isEmpty()) {
                failure = "hold test not found (" + found.size() + " others)";
            } else {
                HoldTestResult result =
                        HoldTestEstimator.estimate(trace, match.get(), test.setup(), EstimateOptions.none());
                done = THREADS.getCurrentThreadCpuTime();
                if (result.leak().isEmpty()) {
                    failure = "no leak rate";
                } else {
                    double atPa = result.leak().get().atPa();
                    answer = Optional.of(
                            judge(test, match.get(), result, result.leak().get()));
                    naive = SingleExponential.estimate(trace, match.get(), test.setup(), atPa);
                }
            }
        } catch (RuntimeException e) {
            StackTraceElement at = e.getStackTrace().length > 0 ? e.getStackTrace()[0] : null;
            failure = e + " at " + at;
        }
        return new Score(test, answer, naive, failure, (simulated - start) / 1e9, Math.max(0, done - simulated) / 1e9);
    }

    /** The found test that lies over the end of the true pump-up. */
    private static Optional<HoldTest> match(List<HoldTest> found, Truth.Test truth) {
        double pumpedS =
                Math.max(0, truth.strokes().get(truth.strokes().size() - 1).endS());
        double holdToS = truth.phase(Phase.HOLD)
                .or(() -> truth.phase(Phase.SETTLING))
                .map(PhaseSpan::toS)
                .orElse(pumpedS);
        return found.stream()
                .filter(test -> overlapS(test, pumpedS, holdToS) > 0)
                .max(Comparator.comparingDouble(test -> overlapS(test, pumpedS, holdToS)));
    }

    private static double overlapS(HoldTest test, double fromS, double toS) {
        return test.phases().stream()
                .filter(span -> span.phase() == Phase.HOLD || span.phase() == Phase.SETTLING)
                .mapToDouble(span -> Math.max(0, Math.min(toS, span.toS()) - Math.max(fromS, span.fromS())))
                .sum();
    }

    private static Score.Answer judge(
            SimulatedCase test, HoldTest found, HoldTestResult result, HoldTestResult.Leak leak) {
        Truth truth = test.truth();
        double atPa = leak.atPa();
        double trueLeak = truth.leakM3PerS(atPa);
        Optional<Verdict> verdict = result.verdict();
        boolean wrong = verdict.map(said -> isWrong(said, trueLeak)).orElse(false);
        double compliance = truth.complianceM3PerPa(test.judged(), atPa);
        return new Score.Answer(
                trueLeak,
                leak.m3PerS(),
                leak.lower95(),
                leak.upper95(),
                atPa,
                leak.law(),
                leak.weights(),
                Unavoidable.relative(test.setup(), truth.rig(), test.showsPumping(), atPa / Units.BAR),
                verdict.map(Verdict::outcome),
                wrong,
                found.strokes().size(),
                test.showsPumping() ? fewestStrokes(test) : 0,
                test.showsPumping() ? (int) raising(test.test(), 0) : 0,
                result.compliance()
                        .map(c -> c.lower95() <= compliance && compliance <= c.upper95())
                        .orElse(false),
                result.compliance().map(c -> c.m3PerPa() / compliance - 1).orElse(Double.NaN),
                result.budget());
    }

    private static boolean isWrong(Verdict said, double trueLeak) {
        return switch (said.outcome()) {
            case OVER_LIMIT -> trueLeak <= said.limitM3PerS();
            case WITHIN_LIMIT -> trueLeak > said.limitM3PerS();
            case UNDECIDED -> false;
        };
    }

    /** Make-up strokes and a last one cut short to next to nothing may be missed. */
    private static int fewestStrokes(SimulatedCase test) {
        double low = Math.max(1e5, 0.03 * test.test().peakPa());
        double full = test.truth().rig().pump().strokeM3();
        int n = 0;
        for (Truth.Stroke stroke : test.test().strokes()) {
            n += stroke.endPa() > low && stroke.volumeM3() > 0.1 * full ? 1 : 0;
        }
        return n;
    }

    private static long raising(Truth.Test test, double abovePa) {
        return test.strokes().stream().filter(s -> s.endPa() > abovePa).count();
    }
}
