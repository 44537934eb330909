package org.holdtrace.estimate;

import java.util.Arrays;
import java.util.List;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/** Where in a trace the parts of a hold test lie. */
final class Spans {
    /** A hand that pumps comes back within this time, s (common practice, no source) … */
    private static final double PAUSE_S = 4;

    /** … or within so many of its usual times between two pushes. */
    private static final double PAUSES = 3;

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

    /** A longer time than this between two strokes is a pause amid the pump-up, s. */
    static double pauseS(HoldTest test) {
        List<Stroke> strokes = test.strokes();
        if (strokes.size() < 2) {
            return PAUSE_S;
        }
        double[] between = new double[strokes.size() - 1];
        for (int k = 0; k < between.length; k++) {
            between[k] = strokes.get(k + 1).startS() - strokes.get(k).endS();
        }
        Arrays.sort(between);
        return Math.max(PAUSE_S, PAUSES * between[between.length / 2]);
    }
}
