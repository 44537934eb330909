package org.holdtrace.desk.view;

import java.util.List;
import java.util.Optional;
import org.holdtrace.chart.TracePyramid;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/**
 * What a trace view shows. Immutable.
 *
 * @param pyramid the trace, of one sample or more, made ready to be drawn
 * @param tests the hold tests found in it, in order
 * @param results what came of them so far, in any order
 * @param pressure the unit pressures are shown in
 */
public record TraceModel(TracePyramid pyramid, List<HoldTest> tests, List<HoldTestResult> results, Unit pressure) {
    public TraceModel {
        tests = List.copyOf(tests);
        results = List.copyOf(results);
        if (pyramid.trace().size() == 0) {
            throw new IllegalArgumentException("a trace without samples cannot be shown");
        }
    }

    /** From the first sample to the last; of a single sample, the second after it. */
    TimeWindow whole() {
        Trace trace = pyramid.trace();
        double fromS = trace.timeS(0);
        double toS = trace.timeS(trace.size() - 1);
        return new TimeWindow(fromS, toS > fromS ? toS : fromS + 1);
    }

    /** Whether any result has a fit. */
    boolean hasFit() {
        return results.stream().anyMatch(result -> result.picture().isPresent());
    }

    /** The result of the hold test that {@code timeS} lies in, where there is one. */
    Optional<HoldTestResult> resultAt(double timeS) {
        for (HoldTestResult result : results) {
            for (PhaseSpan span : result.holdTest().phases()) {
                if (timeS >= span.fromS() && timeS <= span.toS()) {
                    return Optional.of(result);
                }
            }
        }
        return Optional.empty();
    }
}
