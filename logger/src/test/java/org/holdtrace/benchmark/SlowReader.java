package org.holdtrace.benchmark;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.TcpWire;
import org.holdtrace.link.Wire;

/**
 * A client that asks for every sample and takes a few kilobytes a second, less than a fast logger sends; the system holds
 * next to nothing for it. Where the link ends, since answers come too late over it, a new one is opened.
 */
final class SlowReader implements AutoCloseable {
    private static final int BUFFER_BYTES = 4096;
    private static final int BYTES_AT_A_TIME = 300;
    private static final long BETWEEN_MS = 100;

    private final int port;
    private final AtomicLong opened = new AtomicLong();
    private final AtomicLong read = new AtomicLong();
    private final Thread thread = new Thread(this::run, "slow-reader");
    private volatile boolean closed;

    SlowReader(int port) {
        this.port = port;
        thread.setDaemon(true);
        thread.start();
    }

    /** How many links were opened so far. */
    long opened() {
        return opened.get();
    }

    /** Bytes read so far over all of them. */
    long read() {
        return read.get();
    }

    private void run() {
        while (!closed) {
            Ended ended = new Ended();
            try (LinkClient client = LinkClient.open(new Slow(connect()), "slow reader", Optional.empty(), false)) {
                opened.incrementAndGet();
                client.listen(ended);
                client.ask(new Ask.Follow(true, 100));
                ended.await();
            } catch (IOException e) {
                // The next try may find it.
            } catch (InterruptedException e) {
                return;
            }
            try {
                Thread.sleep(BETWEEN_MS);
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    private Socket connect() throws IOException {
        Socket socket = new Socket();
        socket.setReceiveBufferSize(BUFFER_BYTES);
        socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 5000);
        return socket;
    }

    @Override
    public void close() {
        closed = true;
        thread.interrupt();
    }

    private static final class Ended implements LinkClient.Listener {
        private boolean over;

        synchronized void await() throws InterruptedException {
            while (!over) {
                wait();
            }
        }

        @Override
        public void live(LinkMessage message) {
            // Only how fast it is taken matters.
        }

        @Override
        public synchronized void ended(LinkException why) {
            over = true;
            notifyAll();
        }
    }

    private final class Slow implements Wire {
        private final Wire wire;
        private final InputStream in;

        Slow(Socket socket) throws IOException {
            wire = new TcpWire(socket);
            in = new FilterInputStream(wire.in()) {
                @Override
                public int read(byte[] bytes, int offset, int length) throws IOException {
                    try {
                        Thread.sleep(BETWEEN_MS);
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                    int got = super.read(bytes, offset, Math.min(length, BYTES_AT_A_TIME));
                    read.addAndGet(Math.max(0, got));
                    return got;
                }
            };
        }

        @Override
        public String name() {
            return wire.name();
        }

        @Override
        public InputStream in() {
            return in;
        }

        @Override
        public OutputStream out() {
            return wire.out();
        }

        @Override
        public void close() throws IOException {
            wire.close();
        }
    }
}
