package org.holdtrace.serve;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.BooleanSupplier;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.Versions;

/** A fake logger that is being served, and clients of it. */
final class Served implements AutoCloseable {
    /** Impatient, so that tests need not be patient. */
    static final LinkServer.Patience SHORT = new LinkServer.Patience(600, 900, 700, 50);

    static final int CAPACITY = 4096;

    final FakeLogger logger;
    final List<String> journal = new CopyOnWriteArrayList<>();
    final LinkServer server;

    Served(Path folder) {
        this(folder, LinkServer.Patience.USUAL, Versions.OURS);
    }

    Served(Path folder, LinkServer.Patience patience, Versions versions) {
        logger = new FakeLogger(folder);
        server = new LinkServer(logger, "Holdtrace logger test", journal::add, patience, versions);
    }

    /** The client's end of a new wire whose other end is served. */
    PipeWire wire(Optional<LinkKey> key) {
        PipeWire[] ends = PipeWire.pair(CAPACITY);
        server.serve(ends[1], key);
        return ends[0];
    }

    LinkClient client() throws LinkException {
        return LinkClient.open(wire(Optional.empty()), "test client", Optional.empty(), false);
    }

    /** Waits until something is so, or fails after a long time. */
    static void eventually(String what, BooleanSupplier so) throws InterruptedException {
        long untilNs = System.nanoTime() + 10_000_000_000L;
        while (!so.getAsBoolean()) {
            if (System.nanoTime() > untilNs) {
                throw new AssertionError("after 10 s still not: " + what);
            }
            Thread.sleep(5);
        }
    }

    @Override
    public void close() {
        server.close();
    }
}
