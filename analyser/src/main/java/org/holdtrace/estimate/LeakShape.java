package org.holdtrace.estimate;

import org.holdtrace.leak.Law;

/**
 * A leak law as a combination of columns of the volume balance.
 *
 * @param law which law
 * @param column columns of its parameters
 * @param scale size of one unit of each parameter, so wide that the prior on it says nothing
 * @param thresholdBar opening pressure, bar; 0 for the other laws
 */
record LeakShape(Law law, int[] column, double[] scale, double thresholdBar) {
    static LeakShape none() {
        return new LeakShape(Law.NONE, new int[0], new double[0], 0);
    }

    static LeakShape laminar() {
        return new LeakShape(Law.LAMINAR, new int[] {Columns.LAMINAR}, new double[] {3}, 0);
    }

    static LeakShape orifice(double normBar) {
        return new LeakShape(Law.ORIFICE, new int[] {Columns.ORIFICE}, new double[] {3 * Math.sqrt(normBar)}, 0);
    }

    static LeakShape mixed(double normBar) {
        return new LeakShape(
                Law.MIXED, new int[] {Columns.LAMINAR, Columns.ORIFICE}, new double[] {3, 3 * Math.sqrt(normBar)}, 0);
    }

    /** A threshold that may still move a little: {@code shift} is its standard deviation times the conductance. */
    static LeakShape movingThreshold(int k, double thresholdBar, double shift) {
        return new LeakShape(
                Law.THRESHOLD,
                new int[] {Columns.THRESHOLD + k, Columns.OPEN_TIME + k},
                new double[] {3, shift},
                thresholdBar);
    }

    /** Flow of parameter {@code i} at unit coefficient and gauge pressure {@code bar}. */
    double flow(int i, double bar) {
        int c = column[i];
        double p = Math.max(0, bar);
        if (c == Columns.LAMINAR) {
            return p;
        }
        if (c == Columns.ORIFICE) {
            return Math.sqrt(p);
        }
        if (c >= Columns.OPEN_TIME) {
            return p > thresholdBar ? 1 : 0;
        }
        return Math.max(0, p - thresholdBar);
    }

    /** Sign with which parameter {@code i} enters the balance: a threshold moved up lets less through. */
    double sign(int i) {
        return column[i] >= Columns.OPEN_TIME ? -1 : 1;
    }

    /** How many parameters the law spends. */
    int parameters() {
        return law == Law.THRESHOLD ? 2 : column.length;
    }
}
