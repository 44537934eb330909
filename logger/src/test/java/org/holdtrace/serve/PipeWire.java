package org.holdtrace.serve;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.function.IntUnaryOperator;
import org.holdtrace.link.Wire;

/** A wire in memory with a small buffer each way, like a cable whose other end may stop reading. */
final class PipeWire implements Wire {
    private final String name;
    private final Pipe incoming;
    private final Pipe outgoing;

    private PipeWire(String name, Pipe incoming, Pipe outgoing) {
        this.name = name;
        this.incoming = incoming;
        this.outgoing = outgoing;
    }

    /** Both ends of a wire that holds {@code capacity} bytes each way. */
    static PipeWire[] pair(int capacity) {
        Pipe there = new Pipe(capacity);
        Pipe back = new Pipe(capacity);
        return new PipeWire[] {new PipeWire("client end", back, there), new PipeWire("logger end", there, back)};
    }

    /** From now on each byte that comes in here is {@code spoilt}; it is given the byte's number and gives a mask. */
    void spoilIncoming(IntUnaryOperator maskOf) {
        incoming.spoil(maskOf);
    }

    /** From now on what comes in here comes no faster than {@code bytes} every 10 ms. */
    void slowIncoming(int bytes) {
        incoming.bytesATime = bytes;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public InputStream in() {
        return incoming.in;
    }

    @Override
    public OutputStream out() {
        return outgoing.out;
    }

    @Override
    public void close() {
        incoming.close();
        outgoing.close();
    }

    private static final class Pipe {
        private final byte[] ring;
        private int first;
        private int size;
        private int passed;
        private boolean closed;
        private volatile int bytesATime;
        private IntUnaryOperator maskOf = number -> 0;

        private final InputStream in = new InputStream() {
            @Override
            public int read() {
                byte[] one = new byte[1];
                return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
            }

            @Override
            public int read(byte[] into, int offset, int length) {
                int most = bytesATime;
                if (most > 0) {
                    try {
                        Thread.sleep(10);
                    } catch (InterruptedException e) {
                        Thread.currentThread().interrupt();
                    }
                    return take(into, offset, Math.min(most, length));
                }
                return take(into, offset, length);
            }
        };

        private final OutputStream out = new OutputStream() {
            @Override
            public void write(int b) throws IOException {
                put(b);
            }
        };

        private Pipe(int capacity) {
            ring = new byte[capacity];
        }

        private synchronized void spoil(IntUnaryOperator mask) {
            maskOf = mask;
        }

        private synchronized int take(byte[] into, int offset, int length) {
            while (size == 0 && !closed) {
                waitHere();
            }
            if (size == 0) {
                return -1;
            }
            int n = Math.min(length, size);
            for (int i = 0; i < n; i++) {
                into[offset + i] = (byte) (ring[first] ^ maskOf.applyAsInt(passed++));
                first = (first + 1) % ring.length;
            }
            size -= n;
            notifyAll();
            return n;
        }

        private synchronized void put(int b) throws IOException {
            while (size == ring.length && !closed) {
                waitHere();
            }
            if (closed) {
                throw new IOException("the pipe is closed");
            }
            ring[(first + size) % ring.length] = (byte) b;
            size++;
            notifyAll();
        }

        @SuppressWarnings("WaitNotInLoop") // both callers loop
        private synchronized void waitHere() {
            try {
                wait();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                closed = true;
            }
        }

        private synchronized void close() {
            closed = true;
            notifyAll();
        }
    }
}
