package org.holdtrace.session;

import org.holdtrace.trace.Phase;

/** Something that happened while a session was recorded. Times are ns on the session's own steady clock. */
public sealed interface SessionEvent {
    /** When, ns since the session began. */
    long timeNs();

    /**
     * The logger's detector saw a phase begin.
     *
     * @param holdTest which hold test of the session, from 1
     */
    record PhaseMark(long timeNs, int holdTest, Phase phase) implements SessionEvent {}

    /**
     * The logger's detector saw a stroke.
     *
     * @param timeNs its start
     * @param endNs its end
     */
    record StrokeMark(long timeNs, long endNs) implements SessionEvent {}

    /**
     * Something went wrong while recording.
     *
     * @param name a stable name, such as {@code adc.read}
     * @param text what a person should know
     */
    record Fault(long timeNs, String name, String text) implements SessionEvent {}

    /**
     * The wall clock was set; the session's own clock was not.
     *
     * @param jumpNs new wall-clock time less old, ns
     */
    record ClockJump(long timeNs, long jumpNs) implements SessionEvent {}

    /**
     * How evenly samples came since the last such event.
     *
     * @param samples how many came
     * @param missed how many did not
     * @param p50Ns median of lateness, ns
     * @param p99Ns 99th percentile of lateness, ns
     * @param maxNs largest lateness, ns
     */
    record Jitter(long timeNs, long samples, long missed, long p50Ns, long p99Ns, long maxNs) implements SessionEvent {}

    /** Free text. */
    record Note(long timeNs, String text) implements SessionEvent {}
}
