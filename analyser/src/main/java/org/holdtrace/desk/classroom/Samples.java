package org.holdtrace.desk.classroom;

import java.util.Arrays;
import org.holdtrace.trace.Trace;

/** What came since a line was begun, for the verdict; the oldest make room when there are a million (20 min
 * at 860 Hz). */
final class Samples {
    private static final int MOST = 1 << 20;

    private double[] timeS = new double[1 << 12];
    private double[] pressurePa = new double[1 << 12];
    private int size;

    void add(double atS, double pa) {
        if (size == MOST) {
            int kept = MOST - MOST / 4;
            System.arraycopy(timeS, MOST / 4, timeS, 0, kept);
            System.arraycopy(pressurePa, MOST / 4, pressurePa, 0, kept);
            size = kept;
        }
        if (size == timeS.length) {
            timeS = Arrays.copyOf(timeS, 2 * size);
            pressurePa = Arrays.copyOf(pressurePa, 2 * size);
        }
        timeS[size] = atS;
        pressurePa[size++] = pa;
    }

    void clear() {
        size = 0;
    }

    Trace trace() {
        return Trace.of(Arrays.copyOf(timeS, size), Arrays.copyOf(pressurePa, size));
    }
}
