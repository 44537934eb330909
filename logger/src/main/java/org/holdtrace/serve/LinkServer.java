package org.holdtrace.serve;

import java.io.IOException;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.Versions;
import org.holdtrace.link.Wire;

/**
 * Serves a logger to whoever is at the other end of a wire. Each wire has a thread that reads and answers and one that
 * writes; neither is ever waited for by what is sampled and recorded. Bytes that are damaged or hostile cost their own
 * connection at most.
 *
 * <p>May be used from any thread.
 */
public final class LinkServer implements AutoCloseable {
    private static final long WATCH_MS = 250;

    private final LoggerControl control;
    private final String program;
    private final Consumer<String> journal;
    private final Patience patience;
    private final Versions versions;
    private final List<Connection> connections = new CopyOnWriteArrayList<>();
    private final Thread watch;
    private volatile boolean closed;

    /**
     * How long things may take.
     *
     * @param handshakeMs from the connection to the end of the handshake, over TCP
     * @param silenceMs with nothing heard, before a client is forgotten
     * @param stallMs that a write may wait, before the wire is closed
     * @param wrongKeyMs from a wrong proof to the answer
     */
    record Patience(long handshakeMs, long silenceMs, long stallMs, long wrongKeyMs) {
        static final Patience USUAL = new Patience(10_000, LinkLimits.SILENCE_MS, 10_000, 1000);
    }

    /**
     * A server that serves nobody yet.
     *
     * @param program name and version, told to clients
     * @param journal takes a line for whatever the logger's keeper may want to know; called from any thread
     */
    public LinkServer(LoggerControl control, String program, Consumer<String> journal) {
        this(control, program, journal, Patience.USUAL, Versions.OURS);
    }

    LinkServer(LoggerControl control, String program, Consumer<String> journal, Patience patience, Versions versions) {
        this.control = Objects.requireNonNull(control);
        this.program = Objects.requireNonNull(program);
        this.journal = Objects.requireNonNull(journal);
        this.patience = patience;
        this.versions = versions;
        watch = new Thread(this::watch, "link-watch");
        watch.setDaemon(true);
        watch.start();
    }

    /**
     * Serves a wire that one client has: it is closed when the client is gone, silent or does not read. Returns at once.
     *
     * @param key the client must prove that it has it, where there is one
     */
    public void serve(Wire wire, Optional<LinkKey> key) {
        begin(new Connection(this, wire, key, Connection.Manner.ONE_CLIENT));
    }

    /** Serves one client the words that there are too many. */
    void turnAway(Wire wire) {
        begin(new Connection(this, wire, Optional.empty(), Connection.Manner.TURNED_AWAY));
    }

    /**
     * Serves a wire that is there whether or not a client is, such as a serial port, until it fails. Returns when it
     * has.
     */
    void serveStanding(Wire wire) throws InterruptedException {
        Connection connection = new Connection(this, wire, Optional.empty(), Connection.Manner.STANDING);
        begin(connection);
        connection.await();
    }

    private void begin(Connection connection) {
        connections.add(connection);
        connection.start();
        if (closed) {
            connection.close("the logger ends");
        }
    }

    /** How many wires are being served. */
    public int connections() {
        return connections.size();
    }

    /** How many of them are open to one client each, by the way they are served. */
    int connections(Connection.Manner manner) {
        return (int) connections.stream()
                .filter(connection -> connection.manner() == manner)
                .count();
    }

    void ended(Connection connection) {
        connections.remove(connection);
    }

    LoggerControl control() {
        return control;
    }

    String program() {
        return program;
    }

    Versions versions() {
        return versions;
    }

    Patience patience() {
        return patience;
    }

    /** Writes a line; a journal that fails must not cost a connection. */
    void note(String line) {
        try {
            journal.accept(line);
        } catch (RuntimeException e) {
            // Nothing is left to tell it to.
        }
    }

    private void watch() {
        while (!closed) {
            long nowNs = System.nanoTime();
            for (Connection connection : connections) {
                connection.watch(nowNs);
            }
            try {
                Thread.sleep(WATCH_MS);
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    /** Closes every wire. */
    @Override
    public void close() {
        closed = true;
        watch.interrupt();
        for (Connection connection : connections) {
            connection.close("the logger ends");
        }
    }

    /** Closes a wire whose state no longer matters. */
    static void closeQuietly(Wire wire) {
        try {
            wire.close();
        } catch (IOException e) {
            // It is gone, which is what was wanted.
        }
    }
}
