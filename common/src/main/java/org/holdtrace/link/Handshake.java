package org.holdtrace.link;

import java.security.SecureRandom;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;

/** How a client begins a conversation: hello, welcome or refusal, proof of the key. */
final class Handshake {
    /** Hellos without an answer until we give up: the first may end in what an earlier client left on the line. */
    private static final int MOST_HELLOS = 4;

    private static final int MOST_WAITING = 64;
    private static final SecureRandom RANDOM = new SecureRandom();

    /** What a handshake needs of a link. */
    interface Line {
        /** Begins a conversation. */
        void hello(LinkMessage.Hello hello) throws LinkException;

        /** Sends the proof. */
        void proof(LinkMessage.Proof proof) throws LinkException;

        /** Why the link has ended; null where it has not. */
        LinkException ended();
    }

    private final String where;
    private final Line line;
    private final LinkClient.Patience patience;
    private final BlockingQueue<LinkMessage> incoming = new ArrayBlockingQueue<>(MOST_WAITING);

    Handshake(String where, Line line, LinkClient.Patience patience) {
        this.where = where;
        this.line = line;
        this.patience = patience;
    }

    /** A message of the handshake's kind has come; more than can be waiting are left out. */
    void take(LinkMessage message) {
        incoming.offer(message);
    }

    /** Makes a handshake that waits look whether the link has ended. */
    void wake() {
        incoming.offer(new LinkMessage.Dropped(0, 0));
    }

    /**
     * Says hello and proves the key, where the logger asks for it.
     *
     * @param insist whether a logger that asks for no key is refused although there is one
     * @return what the logger said of itself
     */
    LinkMessage.Welcome run(String program, Optional<LinkKey> key, boolean insist, Versions versions)
            throws LinkException, InterruptedException {
        byte[] nonce = new byte[LinkLimits.NONCE_BYTES];
        LinkMessage.Welcome welcome = null;
        for (int i = 0; i < MOST_HELLOS && welcome == null; i++) {
            RANDOM.nextBytes(nonce); // a new one each time: a late answer to the last hello must not count
            line.hello(new LinkMessage.Hello(versions, program, nonce.clone()));
            welcome = awaitWelcome(nonce, versions);
        }
        if (welcome == null) {
            throw line.ended() != null
                    ? line.ended()
                    : new LinkException(LinkException.SILENT, where + ": no logger answers there");
        }
        if (!(welcome.version() >= versions.lowest() && welcome.version() <= versions.highest())) {
            throw versionMismatch(welcome.versions(), versions);
        }
        if (welcome.challenge().isEmpty()) {
            if (insist && key.isPresent()) {
                throw new LinkException(
                        LinkException.KEY,
                        where + ": this logger asks for no key, so it may be another than you think;"
                                + " leave the key out if that is meant so");
            }
            return welcome;
        }
        if (key.isEmpty()) {
            throw new LinkException(LinkException.KEY, where + ": this logger is open only to those with its key");
        }
        prove(key.get(), nonce, welcome.challenge().get());
        return welcome;
    }

    /** The answer to the hello with that nonce; null where none comes in time. */
    private LinkMessage.Welcome awaitWelcome(byte[] nonce, Versions versions)
            throws LinkException, InterruptedException {
        long untilNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(patience.helloMs());
        while (true) {
            LinkMessage answer = incoming.poll(Math.max(0, untilNs - System.nanoTime()), TimeUnit.NANOSECONDS);
            if (answer == null) {
                return null;
            }
            if (answer instanceof LinkMessage.Welcome found && LinkKey.same(found.nonce(), nonce)) {
                return found;
            }
            if (answer instanceof LinkMessage.Refused refused && LinkKey.same(refused.nonce(), nonce)) {
                throw refusal(refused, versions);
            }
            if (line.ended() != null) {
                throw line.ended();
            }
            if (System.nanoTime() - untilNs > 0) {
                return null; // what an earlier client left need not have an end
            }
        }
    }

    private void prove(LinkKey key, byte[] nonce, byte[] challenge) throws LinkException, InterruptedException {
        line.proof(new LinkMessage.Proof(key.clientProof(nonce, challenge)));
        long untilNs = System.nanoTime() + TimeUnit.MILLISECONDS.toNanos(patience.proofMs());
        while (true) {
            LinkMessage answer = incoming.poll(Math.max(0, untilNs - System.nanoTime()), TimeUnit.NANOSECONDS);
            if (answer instanceof LinkMessage.Opened opened) {
                if (!LinkKey.same(opened.proof(), key.loggerProof(nonce, challenge))) {
                    throw new LinkException(
                            LinkException.KEY, where + ": this logger does not have the key; it is another one");
                }
                return;
            } else if (answer instanceof LinkMessage.Refused refused && LinkKey.same(refused.nonce(), nonce)) {
                throw refusal(refused, Versions.OURS);
            } else if (line.ended() != null) {
                throw line.ended();
            } else if (answer == null || System.nanoTime() - untilNs > 0) {
                throw new LinkException(LinkException.SILENT, where + ": the logger did not answer the proof");
            }
        }
    }

    private LinkException refusal(LinkMessage.Refused refused, Versions versions) {
        if (refused.code().equals(LinkException.VERSION)) {
            return versionMismatch(refused.versions(), versions);
        }
        return new LinkException(refused.code(), where + ": " + refused.text());
    }

    /** Says which of the two is the older one. */
    private LinkException versionMismatch(Versions theirs, Versions ours) {
        String older = theirs.highest() < ours.lowest()
                ? "bring the logger's program up to date, or use an older version of this one"
                : "bring this program up to date";
        return new LinkException(
                LinkException.VERSION,
                where + ": the logger speaks link version " + theirs.describe() + ", this program " + ours.describe()
                        + "; " + older);
    }
}
