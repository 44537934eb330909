package org.holdtrace.link;

import java.io.IOException;
import java.io.InputStream;
import java.util.concurrent.atomic.AtomicLong;
import org.holdtrace.session.FrameSplitter;

/**
 * Reads messages off a wire. One thread runs it; what it has counted may be asked for from any. Damaged bytes cost the
 * frame they stand in and are counted, nothing more.
 */
public final class LinkInput {
    private static final int BUFFER_BYTES = 1 << 13;

    /** Takes what was read, on the reading thread. What it throws ends the reading. */
    public interface Handler {
        /** A message. */
        void message(LinkMessage message) throws IOException;

        /** A whole frame that makes no sense. */
        void bad(LinkReader.BadMessage bad) throws IOException;
    }

    private final InputStream in;
    private final Handler handler;
    private final LinkReader reader = new LinkReader();
    private volatile long lastByteNs = System.nanoTime();
    private final AtomicLong damaged = new AtomicLong();
    private final AtomicLong missing = new AtomicLong();
    private long expected;

    public LinkInput(InputStream in, Handler handler) {
        this.in = in;
        this.handler = handler;
    }

    /** Reads until the other end has gone or the wire was closed; a wire that fails then is an ordinary end. */
    public void run() throws IOException {
        FrameSplitter splitter = new FrameSplitter(new Frames(), LinkLimits.LONGEST_FRAME);
        byte[] buffer = new byte[BUFFER_BYTES];
        for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
            lastByteNs = System.nanoTime();
            splitter.accept(buffer, 0, n);
        }
    }

    /** When the last byte came, or the input was made; on the clock of {@link System#nanoTime}. */
    public long lastByteNs() {
        return lastByteNs;
    }

    /** How many stretches of bytes were no frame. */
    public long damaged() {
        return damaged.get();
    }

    /** How many frames the numbers say are missing. */
    public long missing() {
        return missing.get();
    }

    private final class Frames implements FrameSplitter.Handler {
        @Override
        public void frame(int type, long sequence, byte[] frame, int offset, int length, long firstByte, long endByte)
                throws IOException {
            if (sequence > expected) {
                missing.addAndGet(sequence - expected);
            }
            expected = sequence + 1; // a lower one: the other end began anew
            try {
                LinkMessage message = reader.read(type, frame, offset, length);
                if (message != null) {
                    handler.message(message);
                }
            } catch (LinkReader.BadMessage e) {
                handler.bad(e);
            }
        }

        @Override
        public void damage(long firstByte, long endByte) {
            damaged.incrementAndGet();
        }
    }
}
