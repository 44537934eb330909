package org.holdtrace.firmware;

import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.function.Consumer;
import org.holdtrace.link.SessionNames;
import org.holdtrace.serve.LiveListener;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.SessionEvent;

/**
 * Tells faults that come and go, and sessions that begin and end, a line each, for who looks at the service's journal.
 * Where lines are taken too slowly some are left out: measuring does not wait for them.
 */
final class Journal implements LiveListener, AutoCloseable {
    private static final int MOST_WAITING = 200;
    private static final long TO_WRITE_MS = 1000;

    private final Consumer<String> lines;
    private final BlockingQueue<String> waiting = new ArrayBlockingQueue<>(MOST_WAITING);
    private final Thread writer = new Thread(this::write, "journal");
    private boolean first = true;
    private boolean faultHeard;
    private Optional<String> session = Optional.empty();
    private volatile boolean closed;

    Journal(Consumer<String> lines) {
        this.lines = lines;
        writer.setDaemon(true);
        writer.start();
    }

    private void write() {
        try {
            while (!closed || !waiting.isEmpty()) {
                lines.accept(waiting.take());
            }
        } catch (InterruptedException e) {
            for (String line = waiting.poll(); line != null; line = waiting.poll()) {
                lines.accept(line);
            }
        }
    }

    private void tell(String line) {
        boolean unused = waiting.offer(line);
    }

    @Override
    public void samples(int channelId, long[] timeNs, int[] counts, int from, int to) {
        // A journal is for people.
    }

    @Override
    public void event(SessionEvent event) {
        if (event instanceof SessionEvent.Fault fault) {
            faultHeard = true;
            tell("fault " + fault.name() + ": " + fault.text());
        } else if (event instanceof SessionEvent.Note note) {
            tell(note.text());
        }
    }

    @Override
    public void state(LoggerState state) {
        if (first && !faultHeard) {
            // Those that came before anybody listened.
            state.status().faults().forEach(fault -> tell("fault: " + fault));
        }
        first = false;
        // Until a session has its file its name is not known.
        Optional<String> now = state.status().session().filter(SessionNames::isPlain);
        if (!now.equals(session)) {
            session.ifPresent(name -> tell("session " + name + " has ended"));
            now.ifPresent(name -> tell("session " + name + " has begun"));
            session = now;
        }
    }

    /** Writes what is left, for a second at the most. */
    @Override
    public void close() {
        closed = true;
        writer.interrupt();
        try {
            writer.join(TO_WRITE_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
