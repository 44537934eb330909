package org.holdtrace.serve;

import java.io.IOException;
import java.security.SecureRandom;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.TimeUnit;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkInput;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.LinkReader;
import org.holdtrace.link.Wire;

/**
 * One wire being served: the handshake, and requests answered in their order on the reading thread. Writing is the
 * outbox's.
 */
final class Connection implements LinkInput.Handler {
    /** More hellos than this without an open link are no honest client's. */
    private static final int MOST_HELLOS = 32;

    private static final SecureRandom RANDOM = new SecureRandom();

    /** How a wire is served. */
    enum Manner {
        /** Closed when its client is gone. */
        ONE_CLIENT,
        /** Stays while clients come and go. */
        STANDING,
        /** Told that there are too many, then closed. */
        TURNED_AWAY
    }

    private final LinkServer server;
    private final Wire wire;
    private final Optional<LinkKey> key;
    private final Manner manner;
    private final LinkInput input;
    private final Outbox outbox;
    private final Answers answers;
    private final Thread reader;
    private final Thread writer;
    private final long startNs = System.nanoTime();
    private volatile boolean open;
    private byte[] nonce = new byte[0];
    private byte[] challenge = new byte[0];
    private String client = "";
    private int hellos;

    Connection(LinkServer server, Wire wire, Optional<LinkKey> key, Manner manner) {
        this.server = server;
        this.wire = wire;
        this.key = key;
        this.manner = manner;
        outbox = new Outbox(wire, server);
        answers = new Answers(server, outbox);
        input = new LinkInput(wire.in(), this);
        reader = new Thread(this::read, "link-read " + wire.name());
        writer = new Thread(this::write, "link-write " + wire.name());
        reader.setDaemon(true);
        writer.setDaemon(true);
    }

    Manner manner() {
        return manner;
    }

    void start() {
        writer.start();
        reader.start();
    }

    void await() throws InterruptedException {
        reader.join();
        writer.join();
    }

    private void read() {
        try {
            untilEnd(input::run, "the other end has gone");
        } finally {
            server.ended(this);
        }
    }

    private void write() {
        untilEnd(outbox::run, "closed");
    }

    /** Half of the connection's work. */
    private interface Half {
        void run() throws IOException;
    }

    /** Runs a half to its end, which is the end of the connection; {@code ordinary} is why where nothing failed. */
    private void untilEnd(Half half, String ordinary) {
        String why = ordinary;
        try {
            half.run();
        } catch (IOException e) {
            why = e.getMessage();
        } catch (RuntimeException | Error e) {
            why = "a slip of ours: " + e;
        } finally {
            close(why);
        }
    }

    /** Ends it; may be called from any thread and more than once. */
    void close(String why) {
        if (outbox.close()) {
            LinkServer.closeQuietly(wire);
            if (open) {
                server.note(wire.name() + ": link closed: " + why);
            }
            open = false;
        }
    }

    /** Looks whether the client still reads and speaks. */
    void watch(long nowNs) {
        LinkServer.Patience patience = server.patience();
        if (outbox.waitsForMs(nowNs) > patience.stallMs()) {
            close("the other end does not read");
        } else if (manner == Manner.STANDING) {
            if (open && silentMs(nowNs) > patience.silenceMs()) {
                server.note(wire.name() + ": nothing heard from " + client + ", forgotten until it says hello");
                open = false;
                outbox.unfollow();
            }
        } else if (silentMs(nowNs) > patience.silenceMs()) {
            close("nothing heard from the other end");
        } else if (!open && TimeUnit.NANOSECONDS.toMillis(nowNs - startNs) > patience.handshakeMs()) {
            close("no handshake");
        }
    }

    private long silentMs(long nowNs) {
        return TimeUnit.NANOSECONDS.toMillis(nowNs - Math.max(input.lastByteNs(), outbox.lastReplyNs()));
    }

    @Override
    public void message(LinkMessage message) throws IOException {
        if (message instanceof LinkMessage.Hello hello) {
            hello(hello);
        } else if (message instanceof LinkMessage.Proof proof) {
            proof(proof);
        } else if (message instanceof LinkMessage.Request request) {
            outbox.reply(
                    open
                            ? answers.to(request)
                            : new LinkMessage.Failure(request.id(), LinkException.NOT_OPEN, "say hello first"));
        }
        // Whatever else is whole comes from a logger: an echo, or two loggers joined by a cable.
    }

    @Override
    public void bad(LinkReader.BadMessage bad) throws IOException {
        if (open && bad.id() >= 0) {
            outbox.reply(new LinkMessage.Failure(bad.id(), bad.code(), bad.getMessage()));
        }
    }

    private void hello(LinkMessage.Hello hello) throws IOException {
        if (manner != Manner.STANDING && ++hellos > MOST_HELLOS) {
            throw new IOException("too many hellos");
        }
        boolean wasOpen = open;
        open = false;
        nonce = hello.nonce();
        challenge = new byte[0];
        client = Printable.line(hello.program());
        OptionalInt version = server.versions().newestCommon(hello.versions());
        if (manner == Manner.TURNED_AWAY) {
            refuse(LinkException.BUSY, "too many programs are connected to this logger; close one and try again");
        } else if (version.isEmpty()) {
            refuse(
                    LinkException.VERSION,
                    "this logger (" + server.program() + ") speaks link version "
                            + server.versions().describe() + ", " + client + " speaks "
                            + hello.versions().describe());
        } else {
            Optional<byte[]> asked = Optional.empty();
            if (key.isPresent()) {
                challenge = new byte[LinkLimits.CHALLENGE_BYTES];
                RANDOM.nextBytes(challenge);
                asked = Optional.of(challenge.clone());
            }
            outbox.begin(new LinkMessage.Welcome(
                    version.getAsInt(), server.versions(), server.program(), answers.instrument(), nonce, asked));
            open = key.isEmpty();
            if (open && !wasOpen) {
                server.note(wire.name() + ": link opened by " + client);
            }
        }
    }

    private void refuse(String code, String text) throws IOException {
        outbox.begin(new LinkMessage.Refused(server.versions(), nonce, code, text));
    }

    private void proof(LinkMessage.Proof proof) throws IOException {
        if (key.isEmpty() || challenge.length == 0) {
            return;
        }
        byte[] asked = challenge;
        challenge = new byte[0]; // once only
        if (LinkKey.same(key.get().clientProof(nonce, asked), proof.proof())) {
            outbox.reply(new LinkMessage.Opened(key.get().loggerProof(nonce, asked)));
            open = true;
            server.note(wire.name() + ": link opened by " + client + ", which has the key");
            return;
        }
        server.note(wire.name() + ": refused " + client + ": wrong key");
        try {
            Thread.sleep(server.patience().wrongKeyMs()); // so that guessing is slow
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        refuse(LinkException.KEY, "the key is another one than this logger's");
    }
}
