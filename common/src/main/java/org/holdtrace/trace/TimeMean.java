package org.holdtrace.trace;

/** Mean over time, not over samples: a gap or a change of rate does not shift it. */
final class TimeMean {
    private static final double PIECE_S = 2;

    private TimeMean() {}

    /** Mean of the reading over [fromS, toS], Pa, by the trapezoidal rule. */
    static double of(SampleWindow window, double fromS, double toS) {
        double integral = 0;
        double time = 0;
        double lastS = Double.NaN;
        double lastPa = Double.NaN;
        int pieces = (int) Math.max(1, Math.ceil((toS - fromS) / PIECE_S));
        for (int piece = 0; piece < pieces; piece++) {
            double from = fromS + (toS - fromS) * piece / pieces;
            double to = fromS + (toS - fromS) * (piece + 1) / pieces;
            window.loadAll(from, to);
            for (int i = 0; i < window.n(); i++) {
                double s = window.s()[i];
                double pa = window.pa()[i];
                if (s > lastS) {
                    integral += 0.5 * (pa + lastPa) * (s - lastS);
                    time += s - lastS;
                }
                lastS = s;
                lastPa = pa;
            }
        }
        return time > 0 ? integral / time : lastPa;
    }
}
