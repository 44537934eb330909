package org.holdtrace.rig;

import java.util.Arrays;
import org.holdtrace.trace.Trace;

/**
 * A simulated recording and the truth behind it.
 *
 * @param trace times, pressures by the nominal calibration, temperatures where they are recorded
 * @param counts the converter's counts, one a sample
 * @param truth what really was
 */
@SuppressWarnings("ArrayRecordComponent") // millions of counts: handed over, not copied, and not to be changed
public record SimulatedRun(Trace trace, int[] counts, Truth truth) {
    @Override
    public boolean equals(Object other) {
        return other instanceof SimulatedRun run && trace == run.trace && Arrays.equals(counts, run.counts);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(counts);
    }

    @Override
    public String toString() {
        return "SimulatedRun[" + counts.length + " samples, " + truth.tests().size() + " hold tests]";
    }
}
