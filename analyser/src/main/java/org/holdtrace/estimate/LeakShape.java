package org.holdtrace.estimate;

import java.util.Arrays;
import org.holdtrace.leak.Law;

/**
 * A leak law as a combination of columns of the volume balance.
 *
 * @param law which law
 * @param column columns of its parameters
 * @param scale size of one unit of each parameter, so wide that the prior on it says nothing
 * @param fromBar gauge pressure above which each column counts, bar: what a threshold opens at; 0 for the other laws
 */
record LeakShape(Law law, int[] column, double[] scale, double[] fromBar) {
    /** One unit of a leak in proportion to pressure, as a share of the compliance, 1/s: so wide that the prior says nothing. */
    static final double ANY = 3;

    /**
     * A valve's curve is no straight line: its slope may be more or less above each of the grid's bends, by this share of
     * the conductance (one standard deviation).
     */
    private static final double BEND = 0.4;

    /**
     * A clearance does not pass quite in proportion to pressure: oil thickens under it (Barus, some 0.002 a bar, half of that
     * over the length of a gap; memory) and a bore widens. So much less or more for each bar (one standard deviation).
     */
    private static final double CLEARANCE_CURVE = 0.001;

    /** A law spends no more: a threshold, its place, what it seeps, and what its bends are worth. */
    static final int MOST_PARAMETERS = 5;

    /** What a valve passes without having opened, as a share of what it passes open, both at the peak (one standard deviation). */
    private static final double SEEP = 0.1;

    static LeakShape none() {
        return new LeakShape(Law.NONE, new int[0], new double[0], new double[0]);
    }

    static LeakShape laminar() {
        return new LeakShape(Law.LAMINAR, new int[] {Columns.LAMINAR}, new double[] {ANY}, new double[1]);
    }

    /** A clearance of this conductance, free to pass a little more or less than in proportion. */
    LeakShape curved(double conductance) {
        return with(new int[] {Columns.LAMINAR_CURVE}, CLEARANCE_CURVE * conductance, new double[1]);
    }

    static LeakShape orifice(double normBar) {
        return new LeakShape(
                Law.ORIFICE, new int[] {Columns.ORIFICE}, new double[] {ANY * Math.sqrt(normBar)}, new double[1]);
    }

    static LeakShape mixed(double normBar) {
        return new LeakShape(
                Law.MIXED,
                new int[] {Columns.LAMINAR, Columns.ORIFICE},
                new double[] {ANY, ANY * Math.sqrt(normBar)},
                new double[2]);
    }

    /** A threshold that may still move a little: {@code shift} is its standard deviation times the conductance. */
    static LeakShape movingThreshold(int k, double thresholdBar, double shift) {
        return new LeakShape(
                Law.THRESHOLD,
                new int[] {Columns.THRESHOLD + k, Columns.OPEN_TIME + k},
                new double[] {ANY, shift},
                new double[] {thresholdBar, thresholdBar});
    }

    /** The same, passing oil in proportion to pressure besides, opened or not; {@code scale} as for {@link #laminar}. */
    LeakShape seeping(double scale) {
        return with(new int[] {Columns.LAMINAR}, scale, new double[1]);
    }

    /** The same, seeping as much as a valve of this conductance may without being noticed. */
    LeakShape seepingALittle(double conductance, double peakBar) {
        return seeping(SEEP * conductance * Math.max(0.01, 1 - thresholdBar() / peakBar));
    }

    /** The same of this conductance, free to bend at the opening pressures {@code first} and following of a grid. */
    LeakShape bending(double conductance, int first, double[] gridBar) {
        int[] bends = new int[gridBar.length - first];
        for (int k = 0; k < bends.length; k++) {
            bends[k] = Columns.THRESHOLD + first + k;
        }
        return with(bends, BEND * conductance, Arrays.copyOfRange(gridBar, first, gridBar.length));
    }

    private LeakShape with(int[] more, double moreScale, double[] moreFromBar) {
        int n = column.length;
        int[] columns = Arrays.copyOf(column, n + more.length);
        double[] scales = Arrays.copyOf(scale, n + more.length);
        double[] from = Arrays.copyOf(fromBar, n + more.length);
        System.arraycopy(more, 0, columns, n, more.length);
        Arrays.fill(scales, n, n + more.length, moreScale);
        System.arraycopy(moreFromBar, 0, from, n, more.length);
        return new LeakShape(law, columns, scales, from);
    }

    double thresholdBar() {
        return fromBar[0];
    }

    /** Flow of parameter {@code i} at unit coefficient and gauge pressure {@code bar}. */
    double flow(int i, double bar) {
        int c = column[i];
        double p = Math.max(0, bar);
        if (c == Columns.LAMINAR) {
            return p;
        }
        if (c == Columns.LAMINAR_CURVE) {
            return p * p;
        }
        if (c == Columns.ORIFICE) {
            return Math.sqrt(p);
        }
        if (c >= Columns.OPEN_TIME) {
            return p > fromBar[i] ? 1 : 0;
        }
        return Math.max(0, p - fromBar[i]);
    }

    /** Sign with which parameter {@code i} enters the balance: a threshold moved up lets less through. */
    double sign(int i) {
        return column[i] >= Columns.OPEN_TIME ? -1 : 1;
    }

    /** How many parameters the law spends: bends that may be no more than {@link #BEND} count for two, however many. */
    int parameters() {
        return Math.min(MOST_PARAMETERS, column.length);
    }
}
