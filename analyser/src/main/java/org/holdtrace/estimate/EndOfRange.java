package org.holdtrace.estimate;

import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** Whether a transducer or its converter was at its end: the highest reading then stands still, without any noise. */
final class EndOfRange {
    /** Readings in a row that chance does not make equal where others differ. */
    private static final int FEWEST = 20;

    /** How much longer the highest reading must stand than any other: coarse steps and a tight line also repeat readings. */
    private static final int LONGER = 5;

    /** Readings below this part of the highest do not count: at rest a transducer may stand at its lower end. */
    private static final double LOW = 0.1;

    /** A hold of which more than this part was spent at the end of the range tells nothing. */
    private static final double MOST_OF_HOLD = 0.2;

    /** A plateau below this part of the highest reading was not at the end of the range. */
    private static final double PLATEAU_BELOW = 0.98;

    private EndOfRange() {}

    /**
     * How long the highest reading of the test stood without noise.
     *
     * @param standsS the longest time it stood, s; 0 where it did not
     * @param spoilsTest whether so much of settling and hold was at the end, and the plateau if there is one, that what is
     *     left is not worth an estimate
     */
    record Stand(double standsS, boolean spoilsTest) {}

    /** Looks for the end of the range in {@code test}. */
    static Stand of(Trace trace, HoldTest test) {
        double highest = highestPa(trace, test);
        double stands = standsS(trace, test, highest);
        if (stands <= 0) {
            return new Stand(0, false);
        }
        double inHold = 0;
        double whole = 0;
        for (PhaseSpan span : test.phases()) {
            if (span.phase() == Phase.SETTLING || span.phase() == Phase.HOLD) {
                whole += span.durationS();
                inHold += atS(highest, trace, span);
            }
        }
        boolean plateauBelow = test.plateauMeanPa().isPresent()
                && test.plateauMeanPa().getAsDouble()
                        < PLATEAU_BELOW * (highest - test.rest().zeroPa());
        return new Stand(stands, inHold > MOST_OF_HOLD * whole && !plateauBelow);
    }

    /** How long {@code span} reads {@code highest}. */
    private static double atS(double highest, Trace trace, PhaseSpan span) {
        double time = 0;
        int b = Math.min(trace.size(), trace.indexAt(span.toS()));
        for (int i = Math.max(1, trace.indexAt(span.fromS())); i < b; i++) {
            time += trace.pressurePa(i) == highest ? trace.timeS(i) - trace.timeS(i - 1) : 0;
        }
        return time;
    }

    private static double highestPa(Trace trace, HoldTest test) {
        int b = Math.min(trace.size(), trace.indexAt(Spans.endS(trace, test)) + 1);
        double highest = Double.NEGATIVE_INFINITY;
        for (int i = trace.indexAt(Spans.startS(trace, test)); i < b; i++) {
            highest = Math.max(highest, trace.pressurePa(i));
        }
        return highest;
    }

    private static double standsS(Trace trace, HoldTest test, double highest) {
        int a = trace.indexAt(Spans.startS(trace, test));
        int b = Math.min(trace.size(), trace.indexAt(Spans.endS(trace, test)) + 1);
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
