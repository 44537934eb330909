package org.holdtrace.desk;

import java.awt.AWTEvent;
import java.awt.EventQueue;
import java.awt.Toolkit;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
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
    /** Where the event thread was seen in the event at hand, and how often. */
    private final Map<String, Integer> places = new ConcurrentHashMap<>();

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

    /** What the longest event was, and where it was seen most often. */
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
                StackTraceElement[] stack = thread.getStackTrace();
                for (StackTraceElement each : stack) {
                    if (ELSEWHERE.contains(each.getClassName())) {
                        seen.add(each.toString());
                    }
                }
                places.merge(placeOf(stack), 1, Integer::sum);
            }
            try {
                Thread.sleep(3);
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    /** The innermost of our own lines, or what there is. */
    private static String placeOf(StackTraceElement[] stack) {
        for (StackTraceElement each : stack) {
            if (each.getClassName().startsWith("org.holdtrace.")
                    && !each.getClassName().startsWith(EventThreadWatch.class.getName())) {
                return each.toString();
            }
        }
        return stack.length == 0 ? "" : stack[0].toString();
    }

    private String mostSeen() {
        return places.entrySet().stream()
                .sorted(Map.Entry.<String, Integer>comparingByValue().reversed())
                .limit(5)
                .map(each -> each.getValue() + " × " + each.getKey())
                .toList()
                .toString();
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
            places.clear();
            try {
                super.dispatchEvent(event);
            } finally {
                long whole = THREADS.getCurrentThreadCpuTime() - startNs;
                long own = whole - insideNs;
                insideNs = outer + whole;
                if (own > longestNs) {
                    longestNs = own;
                    longest = event + ", seen in " + mostSeen();
                }
            }
        }

        private void end() {
            pop();
        }
    }
}
