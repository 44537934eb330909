package org.holdtrace.desk.classroom;

import java.awt.geom.Path2D;
import java.util.Arrays;

/**
 * The newest samples as the lowest and highest of each hundredth of a second, so that drawing costs the same at any
 * sampling rate and a spike of one sample stays. Old ones fall off. Not safe for use by several threads.
 */
final class Strip {
    /** Length of a slot, s: finer than a pixel in any window that is shown on a 4K screen but the shortest. */
    static final double SLOT_S = 0.01;
    /** The longest stretch that is kept, s. */
    static final double LONGEST_S = 300;

    private static final int SLOTS = (int) Math.round(LONGEST_S / SLOT_S);

    private final double[] low = new double[SLOTS];
    private final double[] high = new double[SLOTS];
    private long newest = Long.MIN_VALUE;

    Strip() {
        clear();
    }

    void clear() {
        Arrays.fill(low, Double.NaN);
        newest = Long.MIN_VALUE;
    }

    /** Takes a sample; {@code timeS} must not go back by more than a slot. */
    void accept(double timeS, double pressurePa) {
        long slot = (long) Math.floor(timeS / SLOT_S);
        if (newest == Long.MIN_VALUE || slot - newest >= SLOTS) {
            Arrays.fill(low, Double.NaN);
            newest = slot;
        }
        while (newest < slot) {
            low[at(++newest)] = Double.NaN;
        }
        int i = at(slot);
        if (Double.isNaN(low[i])) {
            low[i] = pressurePa;
            high[i] = pressurePa;
        } else {
            low[i] = Math.min(low[i], pressurePa);
            high[i] = Math.max(high[i], pressurePa);
        }
    }

    private static int at(long slot) {
        return (int) Math.floorMod(slot, (long) SLOTS);
    }

    /** The highest of the last {@code windowS} seconds, Pa; NaN where there is nothing. */
    double highestPa(double windowS) {
        double highest = Double.NaN;
        for (long slot = first(windowS); slot <= newest; slot++) {
            int i = at(slot);
            if (!Double.isNaN(low[i]) && !(high[i] <= highest)) {
                highest = high[i];
            }
        }
        return highest;
    }

    private long first(double windowS) {
        return newest == Long.MIN_VALUE
                ? 0
                : newest - Math.min(SLOTS - 1L, (long) Math.ceil(Math.min(windowS, LONGEST_S) / SLOT_S));
    }

    /** How pressure over time becomes pixels. */
    interface Scale {
        double x(double timeS);

        double y(double pressurePa);
    }

    /**
     * The line through the last {@code windowS} seconds, at most two points for each of {@code columns} columns; broken
     * where nothing came for longer than {@code gapS}.
     */
    Path2D path(double windowS, int columns, double gapS, Scale scale) {
        Path2D path = new Path2D.Double(Path2D.WIND_NON_ZERO, 2 * columns + 16);
        long first = first(windowS);
        long perColumn = Math.max(1, (newest - first) / Math.max(1, columns));
        // Columns stand on the strip's own grid, so that the line does not shimmer while it moves.
        long from = Math.floorDiv(first, perColumn) * perColumn;
        boolean down = false;
        long lastSlot = from;
        for (long column = from; column <= newest; column += perColumn) {
            double lowest = Double.NaN;
            double highest = Double.NaN;
            for (long slot = Math.max(column, first); slot < column + perColumn && slot <= newest; slot++) {
                int i = at(slot);
                if (!Double.isNaN(low[i])) {
                    lowest = low[i] >= lowest ? lowest : low[i];
                    highest = high[i] <= highest ? highest : high[i];
                }
            }
            if (Double.isNaN(lowest)) {
                continue;
            }
            double x = scale.x(Math.min(column + perColumn, newest + 1) * SLOT_S);
            if (!down || (column - lastSlot) * SLOT_S > gapS) {
                path.moveTo(x, scale.y(lowest));
                down = true;
            } else {
                path.lineTo(x, scale.y(lowest));
            }
            if (highest > lowest) {
                path.lineTo(x, scale.y(highest));
            }
            lastSlot = column + perColumn;
        }
        return path;
    }
}
