package org.holdtrace.trace;

/** Mean of the last few blocks and of their times: steps of a cylinder are found in noise of half their size. */
final class RunningMean {
    /** Some 80 ms: short against a stroke and its pause, even at a quick tempo. */
    static final int BLOCKS = 4;

    private final double[] s = new double[BLOCKS];
    private final double[] pa = new double[BLOCKS];
    private int count;
    private int at;

    /** Takes a block; true where the mean is over a full set. */
    boolean accept(double timeS, double meanPa) {
        s[at] = timeS;
        pa[at] = meanPa;
        at = (at + 1) % BLOCKS;
        count = Math.min(BLOCKS, count + 1);
        return count == BLOCKS;
    }

    /** Begins anew after a gap. */
    void clear() {
        count = 0;
        at = 0;
    }

    double timeS() {
        return sum(s) / BLOCKS;
    }

    double meanPa() {
        return sum(pa) / BLOCKS;
    }

    private static double sum(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return sum;
    }
}
