package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.util.Optional;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** Pressures of a hold test that its estimate turns about, bar above the zero learned at rest. */
final class TestPressures {
    /** A rest further above the zero, as a part of the highest pressure, was no rest without pressure. */
    private static final double PRESSURE_LEFT = 0.004;

    private TestPressures() {}

    /** The highest pressure. */
    static double peakBar(Trace trace, HoldTest test) {
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

    /** What the line held at rest, before the pumping, as it turned out; 0 where that was the zero or there was no rest. */
    static double leftBar(Trace trace, HoldTest test) {
        Optional<PhaseSpan> rest = test.phase(Phase.REST);
        if (rest.isEmpty()) {
            return 0;
        }
        int to = Math.min(trace.size(), trace.indexAt(rest.get().toS()));
        int from = trace.indexAt(Math.max(rest.get().fromS(), rest.get().toS() - 1));
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += trace.pressurePa(i) - test.rest().zeroPa();
        }
        double left = to > from ? sum / (to - from) / PA_PER_BAR : 0;
        // The highest pressure is asked for last: it takes another way through all samples.
        return left > PRESSURE_LEFT && left > PRESSURE_LEFT * peakBar(trace, test) ? left : 0;
    }

    /** Pressure at the end of the hold. */
    static double holdEndBar(Trace trace, HoldTest test) {
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

    /** Pressure where the hold begins; of a test without one that of the plateau, or the highest. */
    static double holdBar(Trace trace, HoldTest test, Reduction data) {
        PhaseSpan hold = Spans.hold(test);
        double from = hold == null ? Double.NaN : hold.fromS();
        double origin = Spans.originS(trace, test);
        for (int i = 0; i < data.rows; i++) {
            if (data.kind[i] == Reduction.Kind.HOLD && data.timeS[i] + 0.5 * data.lengthS[i] >= from - origin) {
                return data.pressureBar[i];
            }
        }
        return test.plateauMeanPa().orElse(data.peakBar * PA_PER_BAR) / PA_PER_BAR;
    }
}
