package org.holdtrace.serve;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayDeque;
import java.util.concurrent.TimeUnit;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.LinkWriter;
import org.holdtrace.link.Wire;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;

/**
 * All that is written to a wire, on a thread of its own. Answers wait for their turn and for a slow reader; what is sent
 * live waits only so long and is then dropped, oldest first. Between two answers live things have their turn.
 */
final class Outbox {
    /** Samples are sent in blocks of at least so much time: 20 frames a second. */
    private static final long LIVE_EVERY_NS = TimeUnit.MILLISECONDS.toNanos(50);
    /** Frames sent live in one turn at most, so that answers have theirs. */
    private static final int MOST_FRAMES_A_TURN = 16;
    /** Bytes written at a time: at 1200 baud these take 9 s, so that a slow line is told from a reader that is dead. */
    private static final int SLICE_BYTES = 1 << 10;

    private final Wire wire;
    private final LinkServer server;
    private final LinkWriter frames = new LinkWriter();
    private final LiveBuffer.Taken taken = new LiveBuffer.Taken();
    private final Object lock = new Object();
    private final ArrayDeque<LinkMessage> replies = new ArrayDeque<>();
    private byte[] bytes = new byte[1 << 10];
    private volatile long writingSinceNs;
    private volatile boolean writing;
    private volatile long lastReplyNs = System.nanoTime();

    // Guarded by lock.
    private boolean closed;
    private LiveBuffer live;
    private long everyNs;

    // The writing thread's own.
    private LiveBuffer sending;
    private SessionHeader sentHeader;
    private long nextLiveNs = System.nanoTime();
    private long nextStatusNs;

    Outbox(Wire wire, LinkServer server) {
        this.wire = wire;
        this.server = server;
    }

    /** Forgets all that was still to be sent and begins a conversation with {@code welcome}, or with a refusal. */
    void begin(LinkMessage welcome) throws IOException {
        unfollow();
        synchronized (lock) {
            replies.clear();
        }
        reply(welcome);
    }

    /** Sends an answer after those before it; waits while too many are waiting. */
    void reply(LinkMessage message) throws IOException {
        synchronized (lock) {
            while (replies.size() >= LinkLimits.MOST_REQUESTS && !closed) {
                try {
                    lock.wait();
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    throw new IOException("interrupted", e);
                }
            }
            if (closed) {
                throw new IOException("closed");
            }
            replies.addLast(message);
            lock.notifyAll();
        }
    }

    /** From now on what happens is sent. */
    void follow(boolean samples, int everyMs) {
        unfollow();
        LiveBuffer buffer = new LiveBuffer(samples);
        synchronized (lock) {
            if (closed) {
                return;
            }
            live = buffer;
            everyNs = TimeUnit.MILLISECONDS.toNanos(everyMs);
            lock.notifyAll();
        }
        server.control().follow(buffer);
        synchronized (lock) {
            if (live == buffer) {
                return;
            }
        }
        server.control().forget(buffer); // closed in between
    }

    /** Nothing is sent live any more. */
    void unfollow() {
        LiveBuffer buffer;
        synchronized (lock) {
            buffer = live;
            live = null;
        }
        if (buffer != null) {
            server.control().forget(buffer);
        }
    }

    /** Ends it; true for the first call. */
    boolean close() {
        synchronized (lock) {
            if (closed) {
                return false;
            }
            closed = true;
            lock.notifyAll();
        }
        unfollow();
        return true;
    }

    /** For how long a write has been waiting, ms; 0 where none is. */
    long waitsForMs(long nowNs) {
        return writing ? TimeUnit.NANOSECONDS.toMillis(nowNs - writingSinceNs) : 0;
    }

    /** When part of an answer was last taken by the wire: a client that waits for a long one has no need to speak. */
    long lastReplyNs() {
        return lastReplyNs;
    }

    /** Writes until closed. */
    void run() throws IOException {
        try {
            while (turn()) {
                // One answer and what is due live each time.
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        }
    }

    private boolean turn() throws IOException, InterruptedException {
        LinkMessage reply;
        LiveBuffer now;
        synchronized (lock) {
            while (replies.isEmpty() && !closed && !liveIsDue()) {
                lock.wait(untilLiveMs());
            }
            if (closed) {
                return false;
            }
            reply = replies.pollFirst();
            now = live;
            lock.notifyAll();
        }
        if (reply != null) {
            reply(reply, true);
        }
        if (now != null && System.nanoTime() - nextLiveNs >= 0) {
            sendLive(now);
            nextLiveNs = System.nanoTime() + LIVE_EVERY_NS;
        }
        return true;
    }

    private boolean liveIsDue() {
        return live != null && System.nanoTime() - nextLiveNs >= 0;
    }

    /** Time to wait; 0, which is for ever, where nothing is sent live. */
    private long untilLiveMs() {
        return live == null ? 0 : Math.max(1, TimeUnit.NANOSECONDS.toMillis(nextLiveNs - System.nanoTime()));
    }

    private void reply(LinkMessage message, boolean firstTry) throws IOException {
        if (message instanceof LinkMessage.Welcome || message instanceof LinkMessage.Refused) {
            frames.restart();
        }
        try {
            write(frames.frame(message), true);
        } catch (IllegalArgumentException e) {
            if (firstTry && message instanceof LinkMessage.Answer answer) {
                reply(new LinkMessage.Failure(answer.id(), LinkException.INTERNAL, e.getMessage()), false);
            } else {
                throw e;
            }
        }
    }

    private void sendLive(LiveBuffer buffer) throws IOException {
        long nowNs = System.nanoTime();
        if (buffer != sending) {
            sending = buffer;
            sentHeader = null;
            nextStatusNs = nowNs;
        }
        LiveBuffer.Left left = buffer.takeLeft();
        if (left.any()) {
            write(frames.frame(new LinkMessage.Dropped(left.samples(), left.events())));
        }
        boolean due = buffer.takeStateChanged() || nowNs - nextStatusNs >= 0;
        LoggerState state = due ? state() : null;
        if (state != null && !state.header().equals(sentHeader)) {
            sentHeader = state.header();
            header(sentHeader);
        }
        int turns = 0;
        while (turns < MOST_FRAMES_A_TURN && buffer.take(taken)) {
            write(frames.samples(taken.channelId, taken.timeNs, taken.counts, 0, taken.size));
            turns++;
        }
        turns = 0;
        for (SessionEvent event = buffer.takeEvent(); event != null; event = buffer.takeEvent()) {
            write(frames.frame(new LinkMessage.LiveEvent(event)));
            if (++turns == MOST_FRAMES_A_TURN) {
                break;
            }
        }
        if (state != null) {
            write(frames.frame(new LinkMessage.LiveStatus(Answers.status(state))));
            long everyNow;
            synchronized (lock) {
                everyNow = everyNs;
            }
            nextStatusNs = nowNs + everyNow;
        }
    }

    private LoggerState state() {
        try {
            return server.control().state();
        } catch (RuntimeException e) {
            server.note("link: the state is not to be had: " + e);
            return null;
        }
    }

    /** A plan with texts without end makes a header that does not fit; the samples are worth sending all the same. */
    private void header(SessionHeader header) throws IOException {
        ByteBuffer frame;
        try {
            frame = frames.frame(new LinkMessage.LiveHeader(header));
        } catch (IllegalArgumentException e) {
            server.note("link: the header is not sent live: " + e.getMessage());
            return;
        }
        write(frame);
    }

    private void write(ByteBuffer frame) throws IOException {
        write(frame, false);
    }

    private void write(ByteBuffer frame, boolean isReply) throws IOException {
        int length = frame.remaining();
        if (bytes.length < length) {
            bytes = new byte[length * 2];
        }
        frame.get(bytes, 0, length);
        for (int at = 0; at < length; at += SLICE_BYTES) {
            writingSinceNs = System.nanoTime();
            writing = true;
            wire.out().write(bytes, at, Math.min(SLICE_BYTES, length - at));
            writing = false;
            if (isReply) {
                lastReplyNs = System.nanoTime();
            }
        }
        wire.out().flush();
    }
}
