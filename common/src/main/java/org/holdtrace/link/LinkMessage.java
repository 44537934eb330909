package org.holdtrace.link;

import java.util.Optional;
import org.holdtrace.session.SampleBlock;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;

/** What travels over a link, one message a frame. */
public sealed interface LinkMessage {
    /**
     * A client begins. This message, {@link Welcome} and {@link Refused} are the same in all versions to come.
     *
     * @param versions of the link the client speaks
     * @param program its name and version, for people
     * @param nonce 16 random bytes; the answer repeats them, so that it is told from what an earlier client left
     */
    record Hello(Versions versions, String program, byte[] nonce) implements LinkMessage {}

    /**
     * The logger agrees. Without a challenge the link is open.
     *
     * @param version the one spoken from now on
     * @param versions all the logger speaks
     * @param program its name and version
     * @param instrument which logger it is
     * @param challenge 32 random bytes where a key is needed
     */
    record Welcome(
            int version, Versions versions, String program, String instrument, byte[] nonce, Optional<byte[]> challenge)
            implements LinkMessage {}

    /**
     * The logger does not agree, and why. It listens on for another hello.
     *
     * @param code see {@link LinkException}
     */
    record Refused(Versions versions, byte[] nonce, String code, String text) implements LinkMessage {}

    /** The client has the key. */
    record Proof(byte[] proof) implements LinkMessage {}

    /** So has the logger; the link is open. */
    record Opened(byte[] proof) implements LinkMessage {}

    /**
     * The client asks for something.
     *
     * @param id repeated in the answer; each request has a higher one than that before
     */
    record Request(long id, Ask ask) implements LinkMessage {}

    /** The logger answers; always in the order of the requests. */
    record Answer(long id, Reply reply) implements LinkMessage {}

    /**
     * The logger could not do it.
     *
     * @param code see {@link LinkException}
     */
    record Failure(long id, String code, String text) implements LinkMessage {}

    /** Channels and calibrations of the samples that follow, and the plan. */
    record LiveHeader(SessionHeader header) implements LinkMessage {}

    /** Samples; times are ns on the logger's steady clock. */
    record LiveSamples(SampleBlock block) implements LinkMessage {}

    /** Something that happened; its time is ns on the logger's steady clock. */
    record LiveEvent(SessionEvent event) implements LinkMessage {}

    /** How the logger is doing. */
    record LiveStatus(Status status) implements LinkMessage {}

    /**
     * The link was too slow: so much was left out of what is sent live since the last such message. The recording has
     * it all.
     */
    record Dropped(long samples, long events) implements LinkMessage {}
}
