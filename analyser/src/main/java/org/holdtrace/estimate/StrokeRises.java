package org.holdtrace.estimate;

import java.util.Arrays;
import java.util.List;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * What one stroke raises the pressure by, as a first look.
 *
 * @param typicalBar median over the strokes in the upper half of the pressure, bar
 * @param count strokes that were looked at
 */
record StrokeRises(double typicalBar, int count) {
    /** Rise of pressure across each stroke, bar. */
    static double[] each(Trace trace, List<Stroke> strokes) {
        int n = strokes.size();
        double[] rise = new double[n];
        for (int k = 0; k < n; k++) {
            Stroke stroke = strokes.get(k);
            double previous =
                    k == 0 ? stroke.startS() - 0.3 : strokes.get(k - 1).endS();
            double next = k + 1 < n ? strokes.get(k + 1).startS() : stroke.endS() + 0.3;
            double before = mean(trace, Math.max(previous, stroke.startS() - 0.1), stroke.startS());
            double after = mean(trace, stroke.endS(), Math.min(next, stroke.endS() + 0.1));
            rise[k] = (after - before) / 1e5;
        }
        return rise;
    }

    static StrokeRises of(Trace trace, HoldTest test) {
        List<Stroke> strokes = test.strokes();
        int n = strokes.size();
        double[] rise = each(trace, strokes);
        double[] level = new double[n];
        for (int k = 0; k < n; k++) {
            double end = strokes.get(k).endS();
            level[k] = (mean(trace, end, end + 0.1) - test.rest().zeroPa()) / 1e5;
        }
        double top = Arrays.stream(level).max().orElse(0);
        double highest = Arrays.stream(rise).max().orElse(0);
        int inner = 0;
        double[] kept = new double[n];
        for (int k = 1; k + 1 < n; k++) {
            // Strokes that end against a relief raise next to nothing and tell nothing.
            if (level[k] > 0.5 * top && rise[k] > 0.25 * highest) {
                kept[inner++] = rise[k];
            }
        }
        if (inner == 0) {
            return new StrokeRises(Math.max(0.1, top / Math.max(1, n)), 0);
        }
        Arrays.sort(kept, 0, inner);
        return new StrokeRises(Math.max(1e-3, kept[inner / 2]), inner);
    }

    private static double mean(Trace trace, double from, double to) {
        int a = Math.min(trace.size() - 1, trace.indexAt(from));
        int b = Math.min(trace.size(), Math.max(a + 1, trace.indexAt(to)));
        double sum = 0;
        for (int i = a; i < b; i++) {
            sum += trace.pressurePa(i);
        }
        return sum / (b - a);
    }
}
