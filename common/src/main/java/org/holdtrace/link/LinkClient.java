package org.holdtrace.link;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;

/**
 * The client's end of a link. Requests may be made from any thread; what comes live is handed on from the thread that
 * reads. A request whose answer was lost on the wire is made again; a logger that says nothing any more ends the link.
 */
public final class LinkClient implements AutoCloseable {
    private static final int MOST_TRIES = 5;
    /** Longer than four of the longest answers take at 9600 baud. */
    private static final long LONGEST_WAIT_MS = 120_000;

    /** Hears what comes live. Called on the reading thread: whoever takes long here is sent less. */
    public interface Listener {
        /** A message of the live kind: header, samples, event, status, or an account of what was dropped. */
        void live(LinkMessage message);

        /** The link has ended. */
        void ended(LinkException why);
    }

    /**
     * How long things may take.
     *
     * @param helloMs from a hello to the answer
     * @param proofMs from the proof to the answer
     * @param silenceMs with nothing heard although an answer is owed
     */
    record Patience(long helloMs, long proofMs, long silenceMs) {
        static final Patience USUAL = new Patience(1500, 5000, 6000);
    }

    /** A request that waits for its answer. */
    private static final class Waiting extends CompletableFuture<Reply> {
        private final Ask ask;
        private int tries;
        private volatile long sentNs = System.nanoTime();

        private Waiting(Ask ask) {
            this.ask = ask;
        }
    }

    private final Wire wire;
    private final Patience patience;
    private final LinkWriter frames = new LinkWriter();
    private final LinkInput input;
    private final Handshake handshake;
    private final ConcurrentSkipListMap<Long, Waiting> waiting = new ConcurrentSkipListMap<>();
    private final Object writing = new Object();
    /** Not the lock of those who write: one of them may be waiting for a reader that never comes. */
    private final Object ending = new Object();

    private final Thread reader;
    private final Thread pinger;
    private volatile boolean open;
    private volatile LinkException ended;
    private volatile Listener listener;
    private volatile long lastSentNs = System.nanoTime();
    private long lastId; // guarded by writing
    private LinkMessage.Welcome welcome;

    private LinkClient(Wire wire, Patience patience) {
        this.wire = wire;
        this.patience = patience;
        input = new LinkInput(wire.in(), new Incoming());
        handshake = new Handshake(wire.name(), new Line(), patience);
        reader = new Thread(this::read, "link-read " + wire.name());
        pinger = new Thread(this::ping, "link-ping " + wire.name());
        reader.setDaemon(true);
        pinger.setDaemon(true);
    }

    /**
     * Opens a link over {@code wire}, which is the client's to close from now on, also where this fails.
     *
     * @param program name and version of the client, told to the logger
     * @param key what to prove to a logger that asks for it
     * @param insist whether a logger that asks for no key is refused: where {@code wire} may lead to a stranger
     * @throws LinkException where no link comes about, and why
     */
    public static LinkClient open(Wire wire, String program, Optional<LinkKey> key, boolean insist)
            throws LinkException {
        return open(wire, program, key, insist, Versions.OURS, Patience.USUAL);
    }

    static LinkClient open(
            Wire wire, String program, Optional<LinkKey> key, boolean insist, Versions versions, Patience patience)
            throws LinkException {
        LinkClient client = new LinkClient(wire, patience);
        try {
            client.reader.start();
            client.welcome = client.handshake.run(program, key, insist, versions);
            client.open = true;
            client.pinger.start();
            return client;
        } catch (LinkException e) {
            client.end(e);
            throw e;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            LinkException interrupted = new LinkException(LinkException.CLOSED, "interrupted", e);
            client.end(interrupted);
            throw interrupted;
        }
    }

    /** What the logger said of itself. */
    public LinkMessage.Welcome welcome() {
        return welcome;
    }

    /** Damaged stretches and missing frames so far: how good the line is. */
    public long lostOnTheWay() {
        return input.damaged() + input.missing();
    }

    /** Who hears what comes live from now on. */
    public void listen(Listener who) {
        listener = who;
    }

    /**
     * Asks, and waits for the answer.
     *
     * @throws LinkException where the logger refused, or the link has ended
     */
    public Reply ask(Ask ask) throws LinkException {
        return await(askLater(ask));
    }

    /** Asks; the answer comes later, see {@link #await}. At most {@link LinkLimits#MOST_REQUESTS} should be under way. */
    public CompletableFuture<Reply> askLater(Ask ask) throws LinkException {
        Waiting request = new Waiting(ask);
        put(request);
        return request;
    }

    private void put(Waiting request) throws LinkException {
        synchronized (writing) {
            if (ended != null) {
                throw ended;
            }
            long id = ++lastId;
            waiting.put(id, request);
            request.tries++;
            request.sentNs = System.nanoTime();
            send(new LinkMessage.Request(id, request.ask));
        }
        if (ended != null) {
            request.completeExceptionally(ended); // it ended before the request was among those told
        }
    }

    /** Waits for an answer. */
    public Reply await(CompletableFuture<Reply> answer) throws LinkException {
        try {
            return answer.get(); // ends in any case: who pings watches over it
        } catch (ExecutionException e) {
            if (e.getCause() instanceof LinkException link) {
                throw new LinkException(link.code(), link.getMessage(), e);
            }
            throw new LinkException(LinkException.CLOSED, "the link failed: " + e.getCause(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new LinkException(LinkException.CLOSED, "interrupted", e);
        }
    }

    private <T extends Reply> T ask(Ask ask, Class<T> kind) throws LinkException {
        Reply reply = ask(ask);
        if (!kind.isInstance(reply)) {
            throw new LinkException(
                    LinkException.INTERNAL, wire.name() + ": the logger answered something else than it was asked for");
        }
        return kind.cast(reply);
    }

    /** How the logger is doing. */
    public Status state() throws LinkException {
        return ask(new Ask.State(), Reply.StatusNow.class).status();
    }

    /** All sessions on the logger, oldest first. */
    public List<StoredFile> sessions() throws LinkException {
        List<StoredFile> all = new ArrayList<>();
        while (true) {
            Reply.Sessions some = ask(new Ask.Sessions(all.size()), Reply.Sessions.class);
            all.addAll(some.files());
            if (all.size() >= some.total() || some.files().isEmpty()) {
                return all;
            }
        }
    }

    /** SHA-256 over {@code length} bytes of a session from {@code offset} on. */
    public Reply.Digest digest(String name, long offset, int length) throws LinkException {
        return ask(new Ask.Digest(name, offset, length), Reply.Digest.class);
    }

    /** Begins a session; its file name. */
    public String start() throws LinkException {
        return ask(new Ask.Start(), Reply.Started.class).session();
    }

    private void read() {
        LinkException why;
        try {
            input.run();
            why = new LinkException(LinkException.CLOSED, wire.name() + ": the logger has gone");
        } catch (IOException e) {
            why = new LinkException(LinkException.CLOSED, wire.name() + ": the link was cut: " + e.getMessage(), e);
        } catch (RuntimeException e) {
            why = new LinkException(LinkException.INTERNAL, wire.name() + ": a slip of ours: " + e, e);
        }
        end(why);
    }

    /** Keeps the logger from forgetting us, finds out what was lost on the way, and that the logger is gone. */
    private void ping() {
        CompletableFuture<Reply> ping = CompletableFuture.completedFuture(new Reply.Done());
        try {
            while (ended == null) {
                Thread.sleep(Math.min(LinkLimits.PING_MS, patience.silenceMs()) / 4);
                long nowNs = System.nanoTime();
                if (ping.isDone() && nowNs - lastSentNs > TimeUnit.MILLISECONDS.toNanos(LinkLimits.PING_MS)) {
                    ping = askLater(new Ask.Ping());
                }
                Map.Entry<Long, Waiting> oldest = waiting.firstEntry();
                if (oldest != null && tooLong(oldest.getValue(), nowNs)) {
                    end(new LinkException(LinkException.SILENT, wire.name() + ": the logger answers no more"));
                }
            }
        } catch (LinkException e) {
            // The link has ended, and whoever asks is told so.
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** An answer may be long on its way behind others over a slow line, but then bytes come. */
    private boolean tooLong(Waiting oldest, long nowNs) {
        long heardNs = Math.max(input.lastByteNs(), oldest.sentNs);
        return nowNs - heardNs > TimeUnit.MILLISECONDS.toNanos(patience.silenceMs())
                || nowNs - oldest.sentNs > TimeUnit.MILLISECONDS.toNanos(LONGEST_WAIT_MS);
    }

    private void send(LinkMessage message) throws LinkException {
        ByteBuffer frame = frames.frame(message);
        byte[] bytes = new byte[frame.remaining()];
        frame.get(bytes);
        sendBytes(bytes);
    }

    private void sendBytes(byte[] bytes) throws LinkException {
        try {
            wire.out().write(bytes);
            wire.out().flush();
            lastSentNs = System.nanoTime();
        } catch (IOException e) {
            LinkException cut =
                    new LinkException(LinkException.CLOSED, wire.name() + ": the link was cut: " + e.getMessage(), e);
            end(cut);
            throw cut;
        }
    }

    private void end(LinkException why) {
        Listener told;
        synchronized (ending) {
            if (ended != null) {
                return;
            }
            ended = why;
            told = open ? listener : null;
        }
        try {
            wire.close();
        } catch (IOException e) {
            // It is gone, which is what was wanted.
        }
        handshake.wake();
        for (Waiting request : waiting.values()) {
            request.completeExceptionally(why);
        }
        if (told != null) {
            told.ended(why);
        }
    }

    @Override
    public void close() {
        end(new LinkException(LinkException.CLOSED, wire.name() + ": closed"));
        pinger.interrupt();
    }

    private final class Line implements Handshake.Line {
        @Override
        public void hello(LinkMessage.Hello hello) throws LinkException {
            synchronized (writing) {
                frames.restart();
                sendBytes(new byte[1]); // ends whatever stands half-written on the line
                send(hello);
            }
        }

        @Override
        public void proof(LinkMessage.Proof proof) throws LinkException {
            synchronized (writing) {
                send(proof);
            }
        }

        @Override
        public LinkException ended() {
            return ended;
        }
    }

    private final class Incoming implements LinkInput.Handler {
        @Override
        public void message(LinkMessage message) throws IOException {
            if (message instanceof LinkMessage.Answer answer) {
                answered(answer.id(), answer.reply(), null);
            } else if (message instanceof LinkMessage.Failure failure) {
                answered(failure.id(), null, new LinkException(failure.code(), wire.name() + ": " + failure.text()));
            } else if (message instanceof LinkMessage.Welcome
                    || message instanceof LinkMessage.Refused
                    || message instanceof LinkMessage.Opened) {
                handshake.take(message);
            } else {
                Listener who = listener;
                if (open && who != null) {
                    who.live(message);
                }
            }
        }

        @Override
        public void bad(LinkReader.BadMessage bad) {
            // Of a later version, or of a logger with a slip: what it was an answer to is asked again.
        }

        /** Answers come in the order of the requests: those before this one that still wait were lost. */
        private void answered(long id, Reply reply, LinkException failure) throws LinkException {
            if (failure != null && failure.code().equals(LinkException.NOT_OPEN)) {
                end(new LinkException(LinkException.CLOSED, wire.name() + ": the logger has begun anew", failure));
                return;
            }
            Waiting request = waiting.remove(id);
            if (request != null) {
                if (reply != null) {
                    request.complete(reply);
                } else {
                    request.completeExceptionally(failure);
                }
            }
            for (Map.Entry<Long, Waiting> before : waiting.headMap(id).entrySet()) {
                if (waiting.remove(before.getKey(), before.getValue())) {
                    again(before.getValue());
                }
            }
        }

        private void again(Waiting request) throws LinkException {
            if (request.tries < MOST_TRIES) {
                put(request);
            } else {
                request.completeExceptionally(new LinkException(
                        LinkException.SILENT,
                        wire.name() + ": no answer to a request made " + MOST_TRIES + " times; the line is too bad"));
            }
        }
    }
}
