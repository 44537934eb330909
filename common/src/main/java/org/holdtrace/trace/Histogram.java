package org.holdtrace.trace;

/** Counts of magnitudes by quarter octaves, of any scale; old counts fade as new ones come. */
final class Histogram {
    /** The exponent and the first two bits of the fraction of a double, together, number quarter octaves. */
    private static final int SHIFT = 50;

    private static final int BINS = 1024;
    private static final int FIRST = (1023 << 2) - BINS / 2;
    private static final int FORGET_AT = 1500;

    private final int[] counts = new int[BINS];
    private int lowest = BINS;
    private int highest = -1;
    private int zeros;
    private int total;

    /** Takes a magnitude; those no double of everyday size are counted at the ends. */
    void add(double value) {
        if (value > 0) {
            int bin = (int) (Double.doubleToRawLongBits(value) >>> SHIFT) - FIRST;
            bin = Math.max(0, Math.min(BINS - 1, bin));
            counts[bin]++;
            lowest = Math.min(lowest, bin);
            highest = Math.max(highest, bin);
        } else {
            zeros++;
        }
        if (++total > FORGET_AT) {
            forget();
        }
    }

    private void forget() {
        zeros /= 2;
        total = zeros;
        int low = BINS;
        int high = -1;
        for (int i = lowest; i <= highest; i++) {
            counts[i] /= 2;
            total += counts[i];
            if (counts[i] > 0) {
                low = Math.min(low, i);
                high = i;
            }
        }
        lowest = low;
        highest = high;
    }

    int total() {
        return total;
    }

    /**
     * The value below which one part in {@code parts} lies. Counts of a value are taken as spread half way to its
     * neighbours: differences of a coarse converter take few values, and a plain median would jump between them.
     */
    double quantile(int parts) {
        double wanted = (double) total / parts;
        double seen = 0;
        double below = -1;
        double value = 0;
        int count = zeros;
        for (int i = lowest; i <= highest; i++) {
            if (counts[i] == 0) {
                continue;
            }
            double next = Double.longBitsToDouble((2L * (i + FIRST) + 1) << (SHIFT - 1));
            if (count > 0) {
                if (seen + count >= wanted) {
                    return spread(below, value, next, (wanted - seen) / count);
                }
                seen += count;
                below = value;
            }
            value = next;
            count = counts[i];
        }
        return spread(below, value, value, count == 0 ? 0 : (wanted - seen) / count);
    }

    private static double spread(double below, double value, double above, double part) {
        double low = below < 0 ? value : 0.5 * (below + value);
        return low + (0.5 * (value + above) - low) * Math.max(0, Math.min(1, part));
    }
}
