package org.holdtrace.serve;

import org.holdtrace.session.SessionEvent;

/** Hears live what is recorded. Called on the logger's own thread: must return at once, and drop what it cannot take. */
public interface LiveListener {
    /**
     * Samples of a channel, from {@code from} to before {@code to}; the arrays are reused.
     *
     * @param timeNs ns on the logger's steady clock
     */
    void samples(int channelId, long[] timeNs, int[] counts, int from, int to);

    /** Something happened; its times are ns on the logger's steady clock, like those of samples. */
    void event(SessionEvent event);

    /** The state changed: phase, advice, fault, session begun or ended. */
    void state(LoggerState state);
}
