package org.holdtrace.firmware;

import com.sun.jna.Library;
import com.sun.jna.Native;

/**
 * Lifts the thread that samples above the others of a program that was started with real-time priority: threads of one
 * priority do not interrupt one another, so a compiler or a link at work would make samples late. The others stay real-time
 * too: the thread that samples waits for the collector, and the collector for each of them. Java 17 cannot ask for a
 * policy, so the C library is called (sched(7)).
 */
final class SamplingPriority {
    private static final int FIFO = 1;
    private static final int ROUND_ROBIN = 2;
    private static final int HIGHEST = 99;
    private static final int THIS_THREAD = 0;

    /** So far above the program's own: leaves room for other programs between. */
    static final int STEP = 10;

    /** The few calls needed. */
    interface LibC extends Library {
        int sched_getscheduler(int thread);

        int sched_getparam(int thread, int[] priority);

        int sched_setscheduler(int thread, int policy, int[] priority);
    }

    private SamplingPriority() {}

    /**
     * Lifts the calling thread where its program is real-time, and does nothing where it is not or must not.
     *
     * @return its real-time priority now; 0 where it has none
     */
    static int lift() {
        if (!System.getProperty("os.name").equals("Linux")) {
            return 0;
        }
        try {
            return lift(Native.load("c", LibC.class));
        } catch (LinkageError e) {
            // Without the native part sampling works, less punctually.
            return 0;
        }
    }

    static int lift(LibC c) {
        int policy = c.sched_getscheduler(THIS_THREAD);
        int[] priority = new int[1];
        if ((policy != FIFO && policy != ROUND_ROBIN) || c.sched_getparam(THIS_THREAD, priority) != 0) {
            return 0;
        }
        int lifted = Math.min(HIGHEST, priority[0] + STEP);
        return c.sched_setscheduler(THIS_THREAD, FIFO, new int[] {lifted}) == 0 ? lifted : priority[0];
    }
}
