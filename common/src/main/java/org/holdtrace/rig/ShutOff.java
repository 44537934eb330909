package org.holdtrace.rig;

import org.holdtrace.quantity.Require;

/**
 * The shut-off valve between pump and line, shut by hand after the last push. Until it is shut the pump's check valve lets
 * oil back in proportion to pressure, less and less as the valve closes, and its stem displaces oil into the line. All of it
 * goes linearly with time.
 *
 * @param withinS time from the end of the last push until it is shut, s, at most 60; 0 for a valve and a check valve that
 *     do nothing of the kind
 * @param backLeakM3PerS flow back at the end of the last push if pressure is the test's target, m³/s of oil at that pressure
 * @param stemM3 what its stem displaces, m³
 */
public record ShutOff(double withinS, double backLeakM3PerS, double stemM3) {
    public ShutOff {
        Require.within(withinS, 0, 60, "time in which the shut-off valve is shut", "s");
        Require.notNegative(backLeakM3PerS, "flow back through the pump", "m3/s");
        Require.notNegative(stemM3, "volume of the shut-off valve's stem", "m3");
        if (withinS == 0 && (backLeakM3PerS > 0 || stemM3 > 0)) {
            throw new IllegalArgumentException(
                    "oil flows back, or a stem displaces some, only while the shut-off valve is shut: that takes a time");
        }
    }

    /** A tight check valve, and no valve to shut. */
    public static ShutOff none() {
        return new ShutOff(0, 0, 0);
    }

    /** Share of the way it has been shut {@code sinceS} after the last push, 0 to 1. */
    double shutBy(double sinceS) {
        return Math.max(0, Math.min(1, sinceS / withinS));
    }
}
