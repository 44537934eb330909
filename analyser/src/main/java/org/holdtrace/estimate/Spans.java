package org.holdtrace.estimate;

import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** Where in a trace the parts of a hold test lie. */
final class Spans {
    private Spans() {}

    /** The stretch of the first of {@code wanted} that occurred, or null. */
    static PhaseSpan firstOf(HoldTest test, Phase... wanted) {
        for (Phase phase : wanted) {
            for (PhaseSpan span : test.phases()) {
                if (span.phase() == phase) {
                    return span;
                }
            }
        }
        return null;
    }

    /** The hold, or the settling where the trace ends in it; null where there is neither. */
    static PhaseSpan hold(HoldTest test) {
        return firstOf(test, Phase.HOLD, Phase.SETTLING);
    }

    /** When the first phase after the rest begins, s; the start of the trace where there is none. */
    static double startS(Trace trace, HoldTest test) {
        double start = Double.POSITIVE_INFINITY;
        for (PhaseSpan span : test.phases()) {
            if (span.phase() != Phase.REST) {
                start = Math.min(start, span.fromS());
            }
        }
        return start < Double.POSITIVE_INFINITY ? start : trace.timeS(0);
    }

    /** Time that reduced rows count from, s: the sample before the first phase after the rest. */
    static double originS(Trace trace, HoldTest test) {
        return trace.timeS(Math.max(0, trace.indexAt(startS(trace, test)) - 1));
    }

    /** When the last phase before the bleed-off ends, s; the end of the trace where there is none. */
    static double endS(Trace trace, HoldTest test) {
        double end = Double.NEGATIVE_INFINITY;
        for (PhaseSpan span : test.phases()) {
            if (span.phase() != Phase.BLEED_OFF) {
                end = Math.max(end, span.toS());
            }
        }
        return end > Double.NEGATIVE_INFINITY ? end : trace.timeS(trace.size() - 1);
    }
}
