package org.holdtrace.link;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.session.PayloadReader;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.trace.Phase;

/** Makes messages of frames whose CRC was right. What is in them may still be anything. */
public final class LinkReader {
    private static final int SHA256_BYTES = 32;
    private static final int SHORTEST_EVERY_MS = 100;
    private static final int LONGEST_EVERY_MS = 10_000;

    private final PayloadReader session = new PayloadReader(remark -> {});

    /**
     * The message; null for a type or an event of a later version.
     *
     * @throws BadMessage where it makes no sense; a request's number is kept as far as it could be read
     */
    public LinkMessage read(int type, byte[] frame, int offset, int length) throws BadMessage {
        Fields fields = null;
        try {
            switch (type) {
                case LinkType.LIVE_HEADER -> {
                    return new LinkMessage.LiveHeader(session.header(frame, offset, length, "live"));
                }
                case LinkType.LIVE_SAMPLES -> {
                    return new LinkMessage.LiveSamples(session.samples(frame, offset, length));
                }
                case LinkType.LIVE_EVENT -> {
                    SessionEvent event = session.event(frame, offset, length);
                    return event == null ? null : new LinkMessage.LiveEvent(event);
                }
                default -> {
                    String what = what(type);
                    if (what.isEmpty()) {
                        return null;
                    }
                    fields = Fields.read(what, frame, offset, length);
                    return message(type, fields);
                }
            }
        } catch (UnknownAsk e) {
            throw new BadMessage(e.id, LinkException.UNKNOWN_REQUEST, e.getMessage(), e);
        } catch (IOException | RuntimeException e) {
            // Strangers send what they like; whatever the decoders make of it ends here.
            long id = fields != null && type == LinkType.REQUEST && fields.has("id") ? idOf(fields) : -1;
            String text = e.getMessage() == null ? "a message that cannot be read" : e.getMessage();
            throw new BadMessage(id, LinkException.BAD_REQUEST, LinkLimits.clip(text), e);
        }
    }

    private static long idOf(Fields fields) {
        try {
            return fields.count("id");
        } catch (IllegalArgumentException e) {
            return -1;
        }
    }

    /** A frame that is whole but makes no sense. */
    public static final class BadMessage extends Exception {
        private static final long serialVersionUID = 1L;
        private final long id;
        private final String code;

        BadMessage(long id, String code, String text, Throwable cause) {
            super(text, cause);
            this.id = id;
            this.code = code;
        }

        /** The request's number; -1 where it has none. */
        public long id() {
            return id;
        }

        /** See {@link LinkException}. */
        public String code() {
            return code;
        }
    }

    private static final class UnknownAsk extends IllegalArgumentException {
        private static final long serialVersionUID = 1L;
        private final long id;

        UnknownAsk(long id, String ask) {
            super("\"" + ask + "\" is a request this version does not know");
            this.id = id;
        }
    }

    private static String what(int type) {
        return switch (type) {
            case LinkType.HELLO -> "a hello";
            case LinkType.WELCOME -> "a welcome";
            case LinkType.REFUSED -> "a refusal";
            case LinkType.PROOF, LinkType.OPENED -> "a proof";
            case LinkType.REQUEST -> "a request";
            case LinkType.ANSWER -> "an answer";
            case LinkType.FAILURE -> "a failure";
            case LinkType.LIVE_STATUS -> "a state";
            case LinkType.DROPPED -> "an account of what was dropped";
            default -> "";
        };
    }

    private static LinkMessage message(int type, Fields f) {
        return switch (type) {
            case LinkType.HELLO ->
                new LinkMessage.Hello(versions(f), f.text("program"), f.bytes("nonce", LinkLimits.NONCE_BYTES));
            case LinkType.WELCOME ->
                new LinkMessage.Welcome(
                        f.smallCount("version"),
                        versions(f),
                        f.text("program"),
                        f.text("instrument"),
                        f.bytes("nonce"),
                        f.has("challenge")
                                ? Optional.of(f.bytes("challenge", LinkLimits.CHALLENGE_BYTES))
                                : Optional.empty());
            case LinkType.REFUSED ->
                new LinkMessage.Refused(versions(f), f.bytes("nonce"), f.text("code"), f.text("text"));
            case LinkType.PROOF -> new LinkMessage.Proof(f.bytes("proof"));
            case LinkType.OPENED -> new LinkMessage.Opened(f.bytes("proof"));
            case LinkType.REQUEST -> new LinkMessage.Request(f.count("id"), ask(f));
            case LinkType.ANSWER -> new LinkMessage.Answer(f.count("id"), reply(f));
            case LinkType.FAILURE -> new LinkMessage.Failure(f.count("id"), f.text("code"), f.text("text"));
            case LinkType.LIVE_STATUS -> new LinkMessage.LiveStatus(status(f));
            default -> new LinkMessage.Dropped(f.count("samples"), f.count("events"));
        };
    }

    private static Versions versions(Fields f) {
        return new Versions(f.smallCount("lowest"), f.smallCount("highest"));
    }

    private static Ask ask(Fields f) {
        String ask = f.text("ask");
        return switch (ask) {
            case "state" -> new Ask.State();
            case "sessions" -> new Ask.Sessions(f.count("from"));
            case "fetch" -> new Ask.Fetch(f.text("name"), f.count("offset"), length(f, LinkLimits.LONGEST_CHUNK));
            case "digest" -> new Ask.Digest(f.text("name"), f.count("offset"), length(f, LinkLimits.LONGEST_DIGEST));
            case "start" -> new Ask.Start();
            case "stop" -> new Ask.Stop();
            case "zero" -> new Ask.Zero();
            case "plan" -> new Ask.Plan(f.setup());
            case "clock" -> new Ask.Clock(instant(f.text("now")));
            case "follow" -> new Ask.Follow(f.flag("samples"), everyMs(f));
            case "unfollow" -> new Ask.Unfollow();
            case "ping" -> new Ask.Ping();
            default -> throw new UnknownAsk(f.count("id"), ask);
        };
    }

    private static int length(Fields f, int most) {
        long length = f.count("length");
        if (length < 1 || length > most) {
            throw new IllegalArgumentException(
                    "a request for " + length + " bytes, expected 1 to " + most + " at a time");
        }
        return (int) length;
    }

    private static int everyMs(Fields f) {
        long everyMs = f.count("everyMs");
        if (everyMs < SHORTEST_EVERY_MS || everyMs > LONGEST_EVERY_MS) {
            throw new IllegalArgumentException(
                    "a state every " + everyMs + " ms, expected " + SHORTEST_EVERY_MS + " to " + LONGEST_EVERY_MS);
        }
        return (int) everyMs;
    }

    private static Instant instant(String text) {
        try {
            return Instant.parse(text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException("\"" + text + "\" is no instant such as 2026-03-01T12:00:00Z", e);
        }
    }

    private static Reply reply(Fields f) {
        String answer = f.text("answer");
        return switch (answer) {
            case "done" -> new Reply.Done();
            case "state" -> new Reply.StatusNow(status(f.map("state")));
            case "sessions" -> sessions(f);
            case "chunk" -> new Reply.Chunk(f.count("offset"), f.bytes("bytes"));
            case "digest" -> new Reply.Digest(f.count("offset"), f.count("length"), f.bytes("sha256", SHA256_BYTES));
            case "started" -> new Reply.Started(f.text("session"));
            default -> throw new IllegalArgumentException("an answer \"" + answer + "\"");
        };
    }

    private static Reply.Sessions sessions(Fields f) {
        List<StoredFile> files = new ArrayList<>();
        for (Fields file : f.maps("files")) {
            files.add(new StoredFile(file.text("name"), file.count("bytes"), file.flag("open")));
        }
        return new Reply.Sessions(f.count("from"), f.count("total"), files);
    }

    private static Status status(Fields f) {
        return new Status(
                f.number("t"),
                f.textIfAny("session"),
                f.realIfAny("pressurePa"),
                phase(f),
                f.smallCount("strokes"),
                f.realIfAny("leakM3PerS"),
                f.realIfAny("leakUncertaintyM3PerS"),
                f.text("advice"),
                f.flag("enough"),
                f.texts("faults"),
                f.count("freeBytes"));
    }

    /** A phase of a later version is one we do not see. */
    private static Optional<Phase> phase(Fields f) {
        Optional<String> label = f.textIfAny("phase");
        for (Phase phase : Phase.values()) {
            if (label.isPresent() && phase.label().equals(label.get())) {
                return Optional.of(phase);
            }
        }
        return Optional.empty();
    }
}
