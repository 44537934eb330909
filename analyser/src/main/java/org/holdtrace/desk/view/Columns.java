package org.holdtrace.desk.view;

import java.awt.geom.Path2D;
import java.util.function.DoubleUnaryOperator;
import org.holdtrace.trace.Trace;

/** The samples of a window thinned to the lowest and highest of each column of pixels, in the order they came. */
record Columns(Trace trace, int[] shown, int size, double lowPa, double highPa) {
    /** Also takes the sample before and after the window, so that the line runs on to its edges. */
    static Columns of(TracePyramid pyramid, TimeWindow window, int columns) {
        Trace trace = pyramid.trace();
        int from = Math.max(0, trace.indexAt(window.fromS()) - 1);
        int to = Math.min(trace.size(), trace.indexAt(window.toS()) + 1);
        int[] shown = new int[Math.min(to - from, 2 * columns + 2)];
        int size = 0;
        if (to - from <= shown.length) {
            for (int i = from; i < to; i++) {
                shown[size++] = i;
            }
        } else {
            int start = from;
            for (int column = 0; column < columns && start < to; column++) {
                double endS = window.fromS() + (column + 1) * window.durationS() / columns;
                int end = column == columns - 1 ? to : Math.min(to, trace.indexAt(endS));
                if (end > start) {
                    TracePyramid.Extremes found = pyramid.extremes(start, end);
                    shown[size++] = Math.min(found.low(), found.high());
                    if (found.low() != found.high()) {
                        shown[size++] = Math.max(found.low(), found.high());
                    }
                    start = end;
                }
            }
        }
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < size; i++) {
            double pressurePa = trace.pressurePa(shown[i]);
            if (Double.isFinite(pressurePa)) {
                low = Math.min(low, pressurePa);
                high = Math.max(high, pressurePa);
            }
        }
        return low <= high ? new Columns(trace, shown, size, low, high) : new Columns(trace, shown, 0, 0, 1);
    }

    /** The line through them; it breaks where a sample is no number. */
    Path2D path(DoubleUnaryOperator x, DoubleUnaryOperator y) {
        Path2D path = new Path2D.Double(Path2D.WIND_NON_ZERO, size + 1);
        boolean down = false;
        for (int i = 0; i < size; i++) {
            double pressurePa = trace.pressurePa(shown[i]);
            if (!Double.isFinite(pressurePa)) {
                down = false;
                continue;
            }
            double px = x.applyAsDouble(trace.timeS(shown[i]));
            double py = y.applyAsDouble(pressurePa);
            if (down) {
                path.lineTo(px, py);
            } else {
                path.moveTo(px, py);
                down = true;
            }
        }
        return path;
    }
}
