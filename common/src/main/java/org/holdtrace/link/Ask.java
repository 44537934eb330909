package org.holdtrace.link;

import java.time.Instant;
import org.holdtrace.session.TestSetup;

/** What a client may ask of a logger. Asking twice for the same does no harm: a lost answer is asked for again. */
public sealed interface Ask {
    /** How it is doing; answered by {@link Reply.StatusNow}. */
    record State() implements Ask {}

    /**
     * Which sessions it has, from the {@code from}th on, oldest first; answered by {@link Reply.Sessions}.
     *
     * @param from 0 or more
     */
    record Sessions(long from) implements Ask {}

    /**
     * Part of a session's file; answered by {@link Reply.Chunk}.
     *
     * @param offset first byte
     * @param length most bytes, up to {@link LinkLimits#LONGEST_CHUNK}
     */
    record Fetch(String name, long offset, int length) implements Ask {}

    /**
     * SHA-256 over part of a session's file; answered by {@link Reply.Digest}.
     *
     * @param offset first byte
     * @param length most bytes, up to {@link LinkLimits#LONGEST_DIGEST}
     */
    record Digest(String name, long offset, int length) implements Ask {}

    /** Begin a session; answered by {@link Reply.Started}. */
    record Start() implements Ask {}

    /** End the session that runs; answered by {@link Reply.Done}, as are all that follow. */
    record Stop() implements Ask {}

    /** Take the present pressure as zero. */
    record Zero() implements Ask {}

    /** What is known of the next test. */
    record Plan(TestSetup setup) implements Ask {}

    /** Set the wall clock. */
    record Clock(Instant now) implements Ask {}

    /**
     * Send live what happens.
     *
     * @param samples whether samples too
     * @param everyMs time from one state to the next where nothing changes, 100 to 10 000 ms
     */
    record Follow(boolean samples, int everyMs) implements Ask {}

    /** Send nothing live any more. */
    record Unfollow() implements Ask {}

    /** Say that you are there. */
    record Ping() implements Ask {}
}
