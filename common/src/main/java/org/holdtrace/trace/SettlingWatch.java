package org.holdtrace.trace;

/**
 * Tells, while it happens, when settling has calmed down: when the pressure's slope over the newer half of the time
 * since the last stroke is no longer much gentler than over the quarter before it, or when the fall so far is more than
 * heat of compression can account for, so that a leak rules it.
 */
final class SettlingWatch {
    private static final double LEAST_S = 1;
    /** Fast compression sees oil some 10 to 15 % stiffer than slow: no more of the pressure than this is heat. */
    static final double HEAT_PART = 0.12;

    private static final double CALM_RATIO = 1.35;

    private double beginS;
    private double calmS;
    /** Pressure means at times since begin of 2^(k/2) × 0.25 s, k = 0, 1, …: a slope needs no more memory. */
    private final double[] markPa = new double[64];

    private final double[] markS = new double[64];
    private int marks;
    private double firstPa;
    private double sum;
    private double sumS;
    private int count;

    /** Begins at the end of the last stroke, s. */
    void begin(double timeS) {
        beginS = timeS;
        marks = 0;
        sum = 0;
        sumS = 0;
        count = 0;
        firstPa = Double.NaN;
    }

    /** Takes a block mean; true where settling is over since {@link #calmS}. */
    boolean accept(double timeS, double meanPa, double sigmaPa) {
        double since = timeS - beginS;
        if (Double.isNaN(firstPa)) {
            firstPa = meanPa;
        }
        sum += meanPa;
        sumS += timeS;
        count++;
        if (since < 0.25 * Math.pow(Math.sqrt(2), marks) || marks == markPa.length) {
            return false;
        }
        markPa[marks] = sum / count;
        markS[marks] = sumS / count;
        double error = sigmaPa / Math.sqrt(count);
        marks++;
        sum = 0;
        sumS = 0;
        count = 0;
        if (since < LEAST_S || marks < 4) {
            return false;
        }
        double newer = slope(marks - 2, marks - 1);
        double older = slope(marks - 4, marks - 2);
        double doubt = 3 * error / (markS[marks - 1] - markS[marks - 2]);
        calmS = timeS;
        return Math.abs(older) <= CALM_RATIO * Math.abs(newer) + doubt
                || firstPa - meanPa > HEAT_PART * Math.abs(firstPa);
    }

    private double slope(int a, int b) {
        return (markPa[b] - markPa[a]) / (markS[b] - markS[a]);
    }

    /** Since when settling is over, s. */
    double calmS() {
        return calmS;
    }
}
