package org.holdtrace.estimate;

import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Trace;

/** Whether a transducer or its converter was at its end: the highest reading then stands still, without any noise. */
final class EndOfRange {
    /** Readings in a row that chance does not make equal where others differ. */
    private static final int FEWEST = 20;

    /** How much longer the highest reading must stand than any other: coarse steps and a tight line also repeat readings. */
    private static final int LONGER = 5;

    /** Readings below this part of the highest do not count: at rest a transducer may stand at its lower end. */
    private static final double LOW = 0.1;

    private EndOfRange() {}

    /** How long the highest reading of the test stood without noise, s; 0 where it did not. */
    static double standsS(Trace trace, HoldTest test) {
        int a = trace.indexAt(Spans.startS(trace, test));
        int b = Math.min(trace.size(), trace.indexAt(Spans.endS(trace, test)) + 1);
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = a; i < b; i++) {
            highest = Math.max(highest, trace.pressurePa(i));
        }
        int longest = 0;
        int longestBelow = 0;
        double stands = 0;
        int first = a;
        for (int i = a; i < b; i++) {
            double reading = trace.pressurePa(i);
            if (reading != trace.pressurePa(first)) {
                first = i;
            }
            int run = i - first + 1;
            if (reading == highest) {
                longest = Math.max(longest, run);
                stands = Math.max(stands, trace.timeS(i) - trace.timeS(first));
            } else if (reading > LOW * highest) {
                longestBelow = Math.max(longestBelow, run);
            }
        }
        return longest >= FEWEST && longest >= LONGER * longestBelow ? stands : 0;
    }
}
