package org.holdtrace.link;

import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import org.holdtrace.session.FrameEncoder;
import org.holdtrace.session.PayloadWriter;
import org.holdtrace.session.SampleBlock;
import org.holdtrace.session.SetupWriter;

/**
 * Makes frames of messages, numbered one after another. One thread at a time. Every key is in {@code docs/link.md}.
 */
public final class LinkWriter {
    private static final int INSTANT_TAG = 0;

    private final FrameEncoder frames = new FrameEncoder();
    private final PayloadWriter session = new PayloadWriter();
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final CBORGenerator cbor;
    private long sequence;

    /** A writer whose first frame has the number 0. */
    public LinkWriter() {
        try {
            cbor = new CBORFactory().createGenerator(out);
        } catch (IOException e) {
            throw new IllegalStateException("a generator that writes to memory cannot fail", e);
        }
    }

    /** The next frame has the number 0 again: a conversation begins. */
    public void restart() {
        sequence = 0;
    }

    /**
     * The message as a frame, its closing zero included. Valid until the next call.
     *
     * @throws IllegalArgumentException where it is longer than {@link LinkLimits#LONGEST_FRAME}
     */
    public ByteBuffer frame(LinkMessage message) {
        try {
            return encode(message);
        } catch (IOException e) {
            throw new IllegalStateException("a generator that writes to memory cannot fail", e);
        }
    }

    /** Samples {@code from … to-1} of a channel, at least one, as a frame. Times, ns, never decrease. */
    public ByteBuffer samples(int channelId, long[] timeNs, int[] counts, int from, int to) {
        try {
            session.samples(channelId, timeNs, counts, from, to);
            return frame(LinkType.LIVE_SAMPLES, session.array(), session.length());
        } catch (IOException e) {
            throw new IllegalStateException("a generator that writes to memory cannot fail", e);
        }
    }

    private ByteBuffer encode(LinkMessage message) throws IOException {
        if (message instanceof LinkMessage.LiveSamples samples) {
            SampleBlock block = samples.block();
            int[] counts = new int[block.size()];
            long[] wide = block.counts();
            for (int i = 0; i < counts.length; i++) {
                counts[i] = (int) wide[i];
            }
            return samples(block.channelId(), block.timesNs(), counts, 0, counts.length);
        }
        if (message instanceof LinkMessage.LiveEvent event) {
            session.event(event.event());
            return frame(LinkType.LIVE_EVENT, session.array(), session.length());
        }
        if (message instanceof LinkMessage.LiveHeader header) {
            session.header(header.header());
            return frame(LinkType.LIVE_HEADER, session.array(), session.length());
        }
        out.reset();
        cbor.writeStartObject();
        int type = keys(message);
        cbor.writeEndObject();
        cbor.flush();
        return frame(type, out.toByteArray(), out.size());
    }

    private ByteBuffer frame(int type, byte[] payload, int length) {
        ByteBuffer frame = frames.encode(type, sequence, payload, length);
        if (frame.remaining() > LinkLimits.LONGEST_FRAME) {
            throw new IllegalArgumentException("a message of " + frame.remaining() + " bytes");
        }
        sequence = (sequence + 1) & 0xFFFF_FFFFL;
        return frame;
    }

    /** Writes the keys of a message that is the link's own and returns its type. */
    private int keys(LinkMessage message) throws IOException {
        if (message instanceof LinkMessage.Hello hello) {
            versions(hello.versions());
            text("program", hello.program());
            cbor.writeBinaryField("nonce", hello.nonce());
            return LinkType.HELLO;
        } else if (message instanceof LinkMessage.Welcome welcome) {
            cbor.writeNumberField("version", welcome.version());
            versions(welcome.versions());
            text("program", welcome.program());
            text("instrument", welcome.instrument());
            cbor.writeBinaryField("nonce", welcome.nonce());
            if (welcome.challenge().isPresent()) {
                cbor.writeBinaryField("challenge", welcome.challenge().get());
            }
            return LinkType.WELCOME;
        } else if (message instanceof LinkMessage.Refused refused) {
            versions(refused.versions());
            cbor.writeBinaryField("nonce", refused.nonce());
            text("code", refused.code());
            text("text", refused.text());
            return LinkType.REFUSED;
        } else if (message instanceof LinkMessage.Proof proof) {
            cbor.writeBinaryField("proof", proof.proof());
            return LinkType.PROOF;
        } else if (message instanceof LinkMessage.Opened opened) {
            cbor.writeBinaryField("proof", opened.proof());
            return LinkType.OPENED;
        } else if (message instanceof LinkMessage.Request request) {
            cbor.writeNumberField("id", request.id());
            ask(request.ask());
            return LinkType.REQUEST;
        } else if (message instanceof LinkMessage.Answer answer) {
            cbor.writeNumberField("id", answer.id());
            reply(answer.reply());
            return LinkType.ANSWER;
        } else if (message instanceof LinkMessage.Failure failure) {
            cbor.writeNumberField("id", failure.id());
            text("code", failure.code());
            text("text", failure.text());
            return LinkType.FAILURE;
        } else if (message instanceof LinkMessage.LiveStatus status) {
            status(status.status());
            return LinkType.LIVE_STATUS;
        } else if (message instanceof LinkMessage.Dropped dropped) {
            cbor.writeNumberField("samples", dropped.samples());
            cbor.writeNumberField("events", dropped.events());
            return LinkType.DROPPED;
        }
        throw new IllegalArgumentException("a message without a type: " + message);
    }

    private void versions(Versions versions) throws IOException {
        cbor.writeNumberField("lowest", versions.lowest());
        cbor.writeNumberField("highest", versions.highest());
    }

    private void text(String key, String text) throws IOException {
        cbor.writeStringField(key, LinkLimits.clip(text));
    }

    private void ask(Ask ask) throws IOException {
        cbor.writeStringField("ask", AskNames.of(ask));
        if (ask instanceof Ask.Sessions sessions) {
            cbor.writeNumberField("from", sessions.from());
        } else if (ask instanceof Ask.Fetch fetch) {
            range(fetch.name(), fetch.offset(), fetch.length());
        } else if (ask instanceof Ask.Digest digest) {
            range(digest.name(), digest.offset(), digest.length());
        } else if (ask instanceof Ask.Plan plan) {
            cbor.writeFieldName("setup");
            SetupWriter.write(plan.setup(), cbor);
        } else if (ask instanceof Ask.Clock clock) {
            cbor.writeFieldName("now");
            cbor.writeTag(INSTANT_TAG);
            cbor.writeString(clock.now().toString());
        } else if (ask instanceof Ask.Follow follow) {
            cbor.writeBooleanField("samples", follow.samples());
            cbor.writeNumberField("everyMs", follow.everyMs());
        }
    }

    private void range(String name, long offset, int length) throws IOException {
        text("name", name);
        cbor.writeNumberField("offset", offset);
        cbor.writeNumberField("length", length);
    }

    private void reply(Reply reply) throws IOException {
        if (reply instanceof Reply.Done) {
            cbor.writeStringField("answer", "done");
        } else if (reply instanceof Reply.StatusNow now) {
            cbor.writeStringField("answer", "state");
            cbor.writeObjectFieldStart("state");
            status(now.status());
            cbor.writeEndObject();
        } else if (reply instanceof Reply.Sessions sessions) {
            cbor.writeStringField("answer", "sessions");
            cbor.writeNumberField("from", sessions.from());
            cbor.writeNumberField("total", sessions.total());
            cbor.writeArrayFieldStart("files");
            for (StoredFile file : sessions.files()) {
                cbor.writeStartObject();
                text("name", file.name());
                cbor.writeNumberField("bytes", file.bytes());
                cbor.writeBooleanField("open", file.open());
                cbor.writeEndObject();
            }
            cbor.writeEndArray();
        } else if (reply instanceof Reply.Chunk chunk) {
            cbor.writeStringField("answer", "chunk");
            cbor.writeNumberField("offset", chunk.offset());
            cbor.writeBinaryField("bytes", chunk.bytes());
        } else if (reply instanceof Reply.Digest digest) {
            cbor.writeStringField("answer", "digest");
            cbor.writeNumberField("offset", digest.offset());
            cbor.writeNumberField("length", digest.length());
            cbor.writeBinaryField("sha256", digest.sha256());
        } else if (reply instanceof Reply.Started started) {
            cbor.writeStringField("answer", "started");
            text("session", started.session());
        }
    }

    private void status(Status status) throws IOException {
        cbor.writeNumberField("t", status.timeNs());
        if (status.session().isPresent()) {
            text("session", status.session().get());
        }
        numberIfKnown("pressurePa", status.pressurePa());
        if (status.phase().isPresent()) {
            text("phase", status.phase().get().label());
        }
        cbor.writeNumberField("strokes", status.strokes());
        numberIfKnown("leakM3PerS", status.leakM3PerS());
        numberIfKnown("leakUncertaintyM3PerS", status.leakUncertaintyM3PerS());
        text("advice", status.advice());
        cbor.writeBooleanField("enough", status.enough());
        cbor.writeArrayFieldStart("faults");
        for (String fault : status.faults()) {
            cbor.writeString(LinkLimits.clip(fault));
        }
        cbor.writeEndArray();
        cbor.writeNumberField("freeBytes", status.freeBytes());
    }

    private void numberIfKnown(String key, double value) throws IOException {
        if (Double.isFinite(value)) {
            cbor.writeNumberField(key, value);
        }
    }
}
