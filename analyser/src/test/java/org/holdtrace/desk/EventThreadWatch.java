package org.holdtrace.desk;

import java.awt.AWTEvent;
import java.awt.EventQueue;
import java.awt.Toolkit;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;

/**
 * Watches the event thread: how much work its longest event was, and whether it was ever seen in code that has no place
 * there. Work is counted in the processor's time, since a busy computer makes every event late.
 */
final class EventThreadWatch implements AutoCloseable {
    /** Reading, finding hold tests, estimating, waiting for a logger: all of it takes as long as it takes. */
    private static final Set<String> ELSEWHERE = Set.of(
            "org.holdtrace.estimate.HoldTestEstimator",
            "org.holdtrace.trace.TraceSegmenter",
            "org.holdtrace.library.Recordings",
            "org.holdtrace.session.HoldFileReader",
            "org.holdtrace.session.CsvTraceReader",
            "org.holdtrace.remote.SerialWire",
            "org.holdtrace.remote.SessionCopier",
            "org.holdtrace.link.LinkClient");

    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private final Queue queue = new Queue();
    private final Set<String> seen = new ConcurrentSkipListSet<>();
    private final Thread watcher = new Thread(this::watch, "event-thread-watch");
    private volatile boolean ended;
    private volatile Thread eventThread;

    EventThreadWatch() {
        Toolkit.getDefaultToolkit().getSystemEventQueue().push(queue);
        watcher.setDaemon(true);
        watcher.start();
    }

    /** Processor time of the longest event so far, ms, events inside a dialog counted apart. */
    long longestMs() {
        return queue.longestNs / 1_000_000;
    }

    /** What the longest event was. */
    String longest() {
        return queue.longest;
    }

    /** Forgets what was so far. */
    void begin() {
        queue.longestNs = 0;
        queue.longest = "";
    }

    /** Code seen on the event thread that has no place there. */
    Set<String> misplaced() {
        return new TreeSet<>(seen);
    }

    private void watch() {
        while (!ended) {
            Thread thread = eventThread;
            if (thread != null) {
                for (StackTraceElement each : thread.getStackTrace()) {
                    if (ELSEWHERE.contains(each.getClassName())) {
                        seen.add(each.toString());
                    }
                }
            }
            try {
                Thread.sleep(3);
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    @Override
    public void close() {
        ended = true;
        watcher.interrupt();
        queue.end();
    }

    private final class Queue extends EventQueue {
        private volatile long longestNs;
        private volatile String longest = "";
        private long insideNs;

        @Override
        protected void dispatchEvent(AWTEvent event) {
            eventThread = Thread.currentThread();
            long startNs = THREADS.getCurrentThreadCpuTime();
            long outer = insideNs;
            insideNs = 0;
            try {
                super.dispatchEvent(event);
            } finally {
                long whole = THREADS.getCurrentThreadCpuTime() - startNs;
                long own = whole - insideNs;
                insideNs = outer + whole;
                if (own > longestNs) {
                    longestNs = own;
                    longest = event.toString();
                }
            }
        }

        private void end() {
            pop();
        }
    }
}
