package org.holdtrace.trace;

import java.util.Arrays;

/** What the detector knows of one hold test while it goes on; grows with the strokes, not with the samples. */
final class FoundTest {
    double restFromS = Double.NaN;
    double restToS = Double.NaN;
    /** Where the line was first seen shut and under pressure without a stroke; NaN where strokes made the pressure. */
    double pumpedUpS = Double.NaN;

    double holdFromS = Double.NaN;
    double plateauFromS = Double.NaN;
    double bleedFromS = Double.NaN;
    double bleedToS = Double.NaN;
    double endS = Double.NaN;
    double zeroPa;
    double noisePa;

    private double[] startS = new double[16];
    private double[] endStrokeS = new double[16];
    private double[] startPa = new double[16];
    private double[] endPa = new double[16];
    private int strokes;

    void addStroke(double fromS, double toS, double fromPa, double toPa) {
        if (strokes == startS.length) {
            startS = Arrays.copyOf(startS, 2 * strokes);
            endStrokeS = Arrays.copyOf(endStrokeS, 2 * strokes);
            startPa = Arrays.copyOf(startPa, 2 * strokes);
            endPa = Arrays.copyOf(endPa, 2 * strokes);
        }
        startS[strokes] = fromS;
        endStrokeS[strokes] = toS;
        startPa[strokes] = fromPa;
        endPa[strokes] = toPa;
        strokes++;
    }

    int strokes() {
        return strokes;
    }

    double startS(int stroke) {
        return startS[stroke];
    }

    double endS(int stroke) {
        return endStrokeS[stroke];
    }

    double startPa(int stroke) {
        return startPa[stroke];
    }

    double endPa(int stroke) {
        return endPa[stroke];
    }

    double lastStrokeEndS() {
        return strokes == 0 ? pumpedUpS : endStrokeS[strokes - 1];
    }

    /** Highest pressure at the end of a stroke, Pa. */
    double peakPa() {
        double peak = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < strokes; i++) {
            peak = Math.max(peak, endPa[i]);
        }
        return peak;
    }

    /** Highest pressure at which a stroke began, Pa. */
    double highestStartPa() {
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < strokes; i++) {
            highest = Math.max(highest, startPa[i]);
        }
        return highest;
    }

    /** This test's rest and strokes, then {@code late}'s strokes and what follows them. */
    FoundTest with(FoundTest late) {
        for (int i = 0; i < late.strokes; i++) {
            addStroke(late.startS[i], late.endStrokeS[i], late.startPa[i], late.endPa[i]);
        }
        holdFromS = late.holdFromS;
        plateauFromS = late.plateauFromS;
        bleedFromS = late.bleedFromS;
        bleedToS = late.bleedToS;
        endS = late.endS;
        return this;
    }
}
