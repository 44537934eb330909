package org.holdtrace.serve;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.holdtrace.session.TestSetup;

/** What a person at the other end of a link may ask of the logger. May be called from any thread; returns soon. */
public interface LoggerControl {
    /** How the logger is doing now. */
    LoggerState state();

    /** The sessions recorded here, oldest first; the one being recorded is among them. */
    List<StoredSession> sessions() throws IOException;

    /**
     * Starts a session.
     *
     * @return its file name; where one is running, that one's
     */
    String start() throws IOException;

    /** Ends the session that runs; nothing where none does. */
    void stop() throws IOException;

    /**
     * Takes the present pressure as zero.
     *
     * @throws IOException where it is not at rest or cannot be stored, and why
     */
    void zero() throws IOException;

    /** What is known of the next test; goes into the header of the next session. */
    void plan(TestSetup setup) throws IOException;

    /** Sets the wall clock that sessions are dated by; the session's own clock is not touched. */
    void clock(Instant now);

    /**
     * A session's file for reading.
     *
     * @throws IOException where there is no such session here
     */
    Path file(String name) throws IOException;

    /** From now on {@code listener} hears what is sampled and what happens; until {@link #forget}. */
    void follow(LiveListener listener);

    /** The end of {@link #follow}; nothing where it did not follow. */
    void forget(LiveListener listener);

    /**
     * A session's file on the logger.
     *
     * @param name file name
     * @param bytes its length now
     * @param open whether it is still being recorded
     */
    record StoredSession(String name, long bytes, boolean open) {}
}
