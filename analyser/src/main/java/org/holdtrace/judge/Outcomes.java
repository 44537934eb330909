package org.holdtrace.judge;

/**
 * Outcomes by number, kept to be looked up: some hundred thousand times for one case, hence a table of its own. Few numbers
 * are places in an array; many are hashed; where there are more than a long can tell apart nothing is kept.
 */
final class Outcomes {
    private static final double FEW = 1 << 16;

    private final boolean direct;
    private final boolean keeps;
    private long[] keys;
    private double[][] values;
    private int size;

    /** For numbers from 0 to below {@code numbers}. */
    Outcomes(double numbers) {
        direct = numbers <= FEW;
        keeps = numbers < Long.MAX_VALUE;
        values = new double[direct ? (int) numbers : 16][];
        keys = new long[direct ? 0 : values.length];
    }

    /** The outcome of that number; null where there is none. */
    double[] get(long number) {
        return direct ? values[(int) number] : keeps ? values[place(number)] : null;
    }

    /** Keeps one; there must be none of that number. */
    void put(long number, double[] value) {
        if (direct) {
            values[(int) number] = value;
        } else if (keeps) {
            if (2 * ++size > keys.length) {
                grow();
            }
            set(number, value);
        }
    }

    private void grow() {
        long[] oldKeys = keys;
        double[][] oldValues = values;
        keys = new long[2 * oldKeys.length];
        values = new double[keys.length][];
        for (int i = 0; i < oldKeys.length; i++) {
            if (oldValues[i] != null) {
                set(oldKeys[i], oldValues[i]);
            }
        }
    }

    private void set(long number, double[] value) {
        int at = place(number);
        keys[at] = number;
        values[at] = value;
    }

    private int place(long number) {
        long mixed = number * 0x9E3779B97F4A7C15L; // 2^64 over the golden ratio: Knuth, TAOCP 3, 6.4, from memory
        int at = (int) (mixed >>> 34) & keys.length - 1;
        while (values[at] != null && keys[at] != number) {
            at = at + 1 & keys.length - 1;
        }
        return at;
    }
}
