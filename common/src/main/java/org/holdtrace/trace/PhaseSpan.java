package org.holdtrace.trace;

/**
 * A phase and the stretch of time it took.
 *
 * @param phase which phase
 * @param fromS its start, s on the trace's own clock
 * @param toS its end, s, not before the start
 */
public record PhaseSpan(Phase phase, double fromS, double toS) {
    public PhaseSpan {
        if (!(toS >= fromS)) {
            throw new IllegalArgumentException(
                    "phase " + phase.label() + " ends at " + toS + " s before it starts at " + fromS + " s");
        }
    }

    /** Length in s. */
    public double durationS() {
        return toS - fromS;
    }
}
