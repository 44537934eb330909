package org.holdtrace.link;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;

/** One message of each kind, and frames as bytes. */
final class Messages {
    static final byte[] NONCE = {0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15};

    private Messages() {}

    static byte[] challenge() {
        byte[] challenge = new byte[LinkLimits.CHALLENGE_BYTES];
        challenge[31] = 9;
        return challenge;
    }

    static Status status() {
        return new Status(
                -5,
                Optional.of("2026-03-01-0001.hold"),
                120.5e5,
                Optional.of(Phase.BLEED_OFF),
                26,
                1.25e-7,
                3e-9,
                "enough, let it off",
                true,
                List.of("input.wire: …", "disk.full: …"),
                1L << 40);
    }

    static SessionHeader header() {
        Calibration line = Calibration.line(1e-4, new Calibration.Point(0.5, 0), new Calibration.Point(4.5, 250e5));
        return new SessionHeader(
                "Invented logger 7",
                "test",
                Optional.of(Instant.parse("2026-03-01T12:00:00Z")),
                true,
                List.of(new Channel(0, ChannelKind.PRESSURE, "port", 250, line)),
                TestSetup.unknown());
    }

    /** Messages that are equal to themselves once they have travelled, arrays aside. */
    static List<LinkMessage> all() {
        return List.of(
                new LinkMessage.Hello(new Versions(1, 3), "a program", NONCE),
                new LinkMessage.Welcome(
                        2, new Versions(1, 2), "a program", "Invented logger 7", NONCE, Optional.of(challenge())),
                new LinkMessage.Welcome(1, Versions.OURS, "a program", "", NONCE, Optional.empty()),
                new LinkMessage.Refused(Versions.OURS, NONCE, LinkException.VERSION, "no"),
                new LinkMessage.Proof(challenge()),
                new LinkMessage.Opened(challenge()),
                new LinkMessage.Request(1, new Ask.State()),
                new LinkMessage.Request(2, new Ask.Sessions(128)),
                new LinkMessage.Request(3, new Ask.Fetch("a.hold", 1L << 33, LinkLimits.LONGEST_CHUNK)),
                new LinkMessage.Request(4, new Ask.Digest("a.hold", 0, LinkLimits.LONGEST_DIGEST)),
                new LinkMessage.Request(5, new Ask.Start()),
                new LinkMessage.Request(6, new Ask.Stop()),
                new LinkMessage.Request(7, new Ask.Zero()),
                new LinkMessage.Request(
                        8, new Ask.Plan(TestSetup.unknown().withLineCompliance(new Quantity(9e-14, 5e-15)))),
                new LinkMessage.Request(9, new Ask.Clock(Instant.parse("2026-03-01T12:00:00.123456789Z"))),
                new LinkMessage.Request(10, new Ask.Follow(true, 200)),
                new LinkMessage.Request(11, new Ask.Unfollow()),
                new LinkMessage.Request(1L << 40, new Ask.Ping()),
                new LinkMessage.Answer(1, new Reply.StatusNow(status())),
                new LinkMessage.Answer(
                        2,
                        new Reply.Sessions(
                                128,
                                130,
                                List.of(new StoredFile("a.hold", 0, true), new StoredFile("b.hold", 1L << 40, false)))),
                new LinkMessage.Answer(3, new Reply.Chunk(7, NONCE)),
                new LinkMessage.Answer(4, new Reply.Digest(0, 100, challenge())),
                new LinkMessage.Answer(5, new Reply.Started("a.hold")),
                new LinkMessage.Answer(6, new Reply.Done()),
                new LinkMessage.Failure(7, LinkException.REFUSED, "the line is not at rest: 120 bar"),
                new LinkMessage.LiveHeader(header()),
                new LinkMessage.LiveEvent(new SessionEvent.PhaseMark(-3, 1, Phase.HOLD)),
                new LinkMessage.LiveEvent(new SessionEvent.Fault(5, "adc.bus", "no answer")),
                new LinkMessage.LiveStatus(status()),
                new LinkMessage.Dropped(1L << 35, 2));
    }
}
