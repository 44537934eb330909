package org.holdtrace.session;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;

/** Puts a session together from its frames as they are found, and keeps account of what is missing. */
final class SessionAssembler implements FrameSplitter.Handler {
    /** Remarks beyond these say nothing new; a file of junk must not fill the memory with them. */
    private static final int MOST_REMARKS = 200;

    private final String file;
    private final FrameSplitter splitter = new FrameSplitter(this);
    private final Remarks remarks = new Remarks();
    private final PayloadReader reader = new PayloadReader(remarks);
    private final Map<Integer, List<SampleBlock>> blocks = new TreeMap<>();
    private final Map<Integer, Long> sampleCounts = new TreeMap<>();
    private final boolean keep;
    private final List<SessionEvent> events = new ArrayList<>();
    private final List<Truth> truth = new ArrayList<>();
    private final List<Loss> losses = new ArrayList<>();
    private SessionHeader header;
    private byte[] headerBytes = {};
    private EndMark end;
    private long expected;
    private long goodFrames;
    private long goodEnd;
    private boolean damaged;
    private OptionalLong lastNs = OptionalLong.empty();
    private boolean afterLoss;

    SessionAssembler(String file) {
        this(file, true);
    }

    /** @param keep whether samples and events are kept: without them a session of any length takes little memory */
    SessionAssembler(String file, boolean keep) {
        this.file = file;
        this.keep = keep;
    }

    /** Each remark once, in order. */
    private static final class Remarks implements Consumer<String> {
        private final Set<String> texts = new LinkedHashSet<>();

        @Override
        public void accept(String text) {
            if (texts.size() < MOST_REMARKS) {
                texts.add(text);
            }
        }
    }

    /** Takes the next bytes of the session. */
    void accept(byte[] bytes, int offset, int length) throws IOException {
        splitter.accept(bytes, offset, length);
    }

    @Override
    public void damage(long firstByte, long endByte) {
        damaged = true;
    }

    @Override
    public void frame(int type, long sequence, byte[] frame, int offset, int length, long firstByte, long endByte)
            throws IOException {
        if (sequence < expected) {
            losses.add(new Loss(
                    Loss.Kind.OUT_OF_ORDER,
                    firstByte,
                    endByte,
                    sequence,
                    OptionalLong.empty(),
                    lastNs,
                    OptionalLong.empty()));
            return;
        }
        if (damaged || sequence > expected) {
            lost(Loss.Kind.DAMAGE, firstByte, OptionalLong.of(sequence - expected));
        }
        expected = sequence + 1;
        goodFrames++;
        goodEnd = endByte;
        damaged = false;
        try {
            payload(FrameType.of(type), type, frame, offset, length);
        } catch (InputException e) {
            throw e;
        } catch (IOException | IllegalArgumentException | ArithmeticException e) {
            // The CRC was right: these bytes are what was written, and the writer wrote something else than we know.
            remarks.accept("skipped frame " + sequence + ", which cannot be read: " + e.getMessage());
        }
    }

    private void lost(Loss.Kind kind, long endByte, OptionalLong frames) {
        losses.add(new Loss(kind, goodEnd, endByte, expected, frames, lastNs, OptionalLong.empty()));
        afterLoss = true;
    }

    private void payload(FrameType type, int code, byte[] frame, int offset, int length) throws IOException {
        if (type == null) {
            remarks.accept("skipped frames of type " + code + ", which this version does not know");
            return;
        }
        switch (type) {
            case HEADER -> header(frame, offset, length);
            case SAMPLES -> samples(reader.samples(frame, offset, length));
            case EVENT -> {
                SessionEvent event = reader.event(frame, offset, length);
                if (event != null && keep) {
                    events.add(event);
                }
            }
            case TRUTH -> truth.add(reader.truth(frame, offset, length));
            case END -> end = reader.end(frame, offset, length);
        }
    }

    /** A header may come again, byte for byte the same; that is all that long sessions have of it. */
    private void header(byte[] frame, int offset, int length) throws IOException {
        if (header != null && Arrays.equals(headerBytes, 0, headerBytes.length, frame, offset, offset + length)) {
            return;
        }
        SessionHeader read = reader.header(frame, offset, length, file);
        if (header == null) {
            header = read;
            headerBytes = Arrays.copyOfRange(frame, offset, offset + length);
        } else if (!header.equals(read)) {
            remarks.accept("skipped a second header that differs from the first");
        }
    }

    private void samples(SampleBlock block) {
        List<SampleBlock> channel = blocks.get(block.channelId());
        if (channel == null) {
            channel = new ArrayList<>();
            blocks.put(block.channelId(), channel);
        }
        if (!channel.isEmpty()
                && block.firstNs() < channel.get(channel.size() - 1).lastNs()) {
            throw new IllegalArgumentException("channel " + block.channelId() + " goes back in time");
        }
        if (!keep) {
            channel.clear();
        }
        channel.add(block);
        // Not merge with a method reference: the first one a process makes costs it some 15 ms.
        long before = sampleCounts.getOrDefault(block.channelId(), 0L);
        sampleCounts.put(block.channelId(), before + block.size());
        if (afterLoss) {
            closeLosses(block.firstNs());
        }
        lastNs = OptionalLong.of(lastNs.isPresent() ? Math.max(lastNs.getAsLong(), block.lastNs()) : block.lastNs());
    }

    /** What was lost before these samples was lost before this instant. */
    private void closeLosses(long firstNs) {
        for (int i = losses.size() - 1; i >= 0 && losses.get(i).toNs().isEmpty(); i--) {
            Loss loss = losses.get(i);
            losses.set(
                    i,
                    new Loss(
                            loss.kind(),
                            loss.firstByte(),
                            loss.endByte(),
                            loss.firstSequence(),
                            loss.frames(),
                            loss.fromNs(),
                            OptionalLong.of(firstNs)));
        }
        afterLoss = false;
    }

    /**
     * All bytes have come; how far the session goes.
     *
     * @throws InputException where no header was among them
     */
    SessionScan scan() throws IOException {
        boolean open = splitter.openBytes() > 0;
        if (open) {
            splitter.accept(new byte[1], 0, 1); // a frame that lacks nothing but its closing zero is whole
        }
        boolean tornFrame = open && damaged;
        Session session = finish();
        return new SessionScan(
                session.header(),
                sampleCounts,
                lastNs,
                expected + (tornFrame ? 1 : 0),
                open,
                tornFrame,
                session.losses(),
                session.remarks(),
                session.end());
    }

    /**
     * All bytes have come.
     *
     * @throws InputException where no header was among them
     */
    Session finish() throws InputException {
        if (header == null) {
            throw new InputException(
                    file,
                    "",
                    goodFrames == 0
                            ? "no whole frame"
                            : "its header is lost (" + goodFrames + " other frames are whole)",
                    "a session recorded or simulated by Holdtrace");
        }
        if (splitter.openBytes() > 0) {
            lost(Loss.Kind.TORN_TAIL, splitter.position(), OptionalLong.empty());
        } else if (damaged) {
            lost(Loss.Kind.DAMAGE, splitter.position(), OptionalLong.empty());
        }
        if (end == null) {
            remarks.accept("the recording was not ended on purpose: there is no end frame");
        }
        for (int id : blocks.keySet()) {
            if (header.channel(id).isEmpty()) {
                remarks.accept("skipped samples of channel " + id + ", which the header does not name");
            }
        }
        return new Session(header, blocks, events, truth, losses, List.copyOf(remarks.texts), Optional.ofNullable(end));
    }
}
