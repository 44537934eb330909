package org.holdtrace.desk.compare;

import org.holdtrace.chart.MinMax;
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
        MinMax thinned = MinMax.of(trace, from, to, COLUMNS);
        for (int i = 0; i < thinned.size(); i++) {
            if (Double.isFinite(thinned.pressurePa(i))) {
                series.add(thinned.timeS(i) - span.fromS(), (thinned.pressurePa(i) - zeroPa) / unitPa, false);
            }
        }
        return series;
    }
}
