package org.holdtrace.trace;

/** Tells stroke by stroke whether the mean pressure of strokes has stopped rising though each still raises it. */
final class PlateauWatch {
    private static final int WINDOW = 6;
    /** Flat: the mean rises less than this part of a stroke's own rise, from stroke to stroke. */
    private static final double FLAT_PART = 0.06;

    private final double[] startS = new double[WINDOW];
    private final double[] meanPa = new double[WINDOW];
    private final double[] risePa = new double[WINDOW];
    private int strokes;
    private double since = Double.NaN;

    void begin() {
        strokes = 0;
        since = Double.NaN;
    }

    /** Takes a stroke; returns since when there is a plateau (s), or NaN where there is none. */
    double accept(double strokeStartS, double strokeMeanPa, double strokeRisePa) {
        int at = strokes++ % WINDOW;
        startS[at] = strokeStartS;
        meanPa[at] = strokeMeanPa;
        risePa[at] = strokeRisePa;
        if (strokes < WINDOW) {
            return Double.NaN;
        }
        double rise = 0;
        double trend = 0;
        for (int i = 0; i < WINDOW; i++) {
            int j = (strokes + i) % WINDOW;
            rise += risePa[j] / WINDOW;
            // Regression on the stroke's number: Σ(i − ī)² over six strokes is 17.5.
            trend += (i - 0.5 * (WINDOW - 1)) * meanPa[j] / 17.5;
        }
        if (trend > FLAT_PART * rise) {
            since = Double.NaN;
        } else if (Double.isNaN(since)) {
            since = startS[strokes % WINDOW];
        }
        return since;
    }
}
