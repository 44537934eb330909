package org.holdtrace.desk.classroom;

import java.util.List;

/** Where the pressure on the screen comes from. Made on the event thread; feeds its lanes on a thread of its own. */
interface Source extends AutoCloseable {
    /** One line, or two that are worked together. */
    List<Lane> lanes();

    /** What stands at the top of the screen; may change. */
    String title();

    /** What the instructor may press, beyond what works with every source. Actions run on the event thread. */
    List<Key> keys();

    /**
     * Begins to feed. Called once.
     *
     * @param changed told, from any thread and often, when there is something new to be seen
     */
    void begin(Runnable changed);

    /** Whether nobody looks for now: what is played or simulated stands still meanwhile; a real line cannot. */
    default void rest(boolean now) {}

    /** Ends feeding; returns at once. */
    @Override
    void close();
}
