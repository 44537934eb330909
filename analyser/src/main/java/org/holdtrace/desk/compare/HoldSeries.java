package org.holdtrace.desk.compare;

import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;
import org.jfree.data.xy.XYSeries;

/** The hold of a test as a line that begins at time 0, thinned to the lowest and highest of each column of a picture. */
final class HoldSeries {
    private static final int COLUMNS = 800;

    private HoldSeries() {}

    /**
     * The line.
     *
     * @param asShare whether pressure is a share of that at the start, %; otherwise in {@code perUnitPa}
     * @param perUnitPa the unit of pressure, Pa
     */
    static XYSeries of(String key, Compared test, boolean asShare, double perUnitPa) {
        XYSeries series = new XYSeries(key, false, true);
        PhaseSpan span = test.hold().orElse(null);
        if (span == null) {
            return series;
        }
        Trace trace = test.trace();
        double zeroPa = test.result().holdTest().rest().zeroPa();
        double unitPa = asShare ? test.startPa().orElseThrow() / 100 : perUnitPa;
        int from = trace.indexAt(span.fromS());
        int to = Math.min(trace.size(), trace.indexAt(span.toS()) + 1);
        int each = Math.max(1, (to - from) / COLUMNS);
        for (int start = from; start < to; start += each) {
            int low = start;
            int high = start;
            for (int i = start + 1; i < Math.min(to, start + each); i++) {
                low = trace.pressurePa(i) < trace.pressurePa(low) ? i : low;
                high = trace.pressurePa(i) > trace.pressurePa(high) ? i : high;
            }
            add(series, trace, Math.min(low, high), span.fromS(), zeroPa, unitPa);
            if (low != high) {
                add(series, trace, Math.max(low, high), span.fromS(), zeroPa, unitPa);
            }
        }
        return series;
    }

    private static void add(XYSeries series, Trace trace, int i, double fromS, double zeroPa, double unitPa) {
        if (Double.isFinite(trace.pressurePa(i))) {
            series.add(trace.timeS(i) - fromS, (trace.pressurePa(i) - zeroPa) / unitPa, false);
        }
    }
}
