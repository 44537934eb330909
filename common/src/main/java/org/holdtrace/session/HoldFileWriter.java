package org.holdtrace.session;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.TreeMap;

/**
 * Writes a session frame by frame, always at the end of what is there; nothing once written is touched again. One thread
 * at a time, and not the one that samples: writing and forcing wait for the disk.
 *
 * <p>The header is written at once and again every {@value #HEADER_EVERY} frames, so that a damaged beginning does not
 * cost the session. A session whose writer was closed without {@link #end} is one that was cut short.
 */
public final class HoldFileWriter implements Closeable {
    /** Frames from one header to the next: about a minute of blocks at four a second. */
    public static final int HEADER_EVERY = 256;

    private static final ByteBuffer ZERO = ByteBuffer.wrap(new byte[1]).asReadOnlyBuffer();

    private final WritableByteChannel out;
    private final SessionHeader header;
    private final FrameEncoder frames = new FrameEncoder();
    private final PayloadWriter payload = new PayloadWriter();
    private final Map<Integer, Progress> progress = new TreeMap<>();
    private long sequence;
    private boolean torn;

    /** How far a channel has come. */
    private static final class Progress {
        private long lastNs;
        private long samples;
    }

    private HoldFileWriter(WritableByteChannel out, SessionHeader header) throws IOException {
        this(out, header, 0);
        headerWhereDue();
    }

    private HoldFileWriter(WritableByteChannel out, SessionHeader header, long sequence) {
        this.out = out;
        this.header = header;
        this.sequence = sequence;
        for (Channel channel : header.channels()) {
            progress.put(channel.id(), new Progress());
        }
    }

    /**
     * Begins a session in a new file and forces its header to disk.
     *
     * @throws java.nio.file.FileAlreadyExistsException where there is such a file: a recording is never written over
     */
    public static HoldFileWriter create(Path file, SessionHeader header) throws IOException {
        FileChannel channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        try {
            HoldFileWriter writer = new HoldFileWriter(channel, header);
            channel.force(true);
            forceFolder(file);
            return writer;
        } catch (IOException | RuntimeException e) {
            channel.close();
            throw e;
        }
    }

    /**
     * Goes on with a session that was cut short.
     *
     * @param out takes what comes behind the last byte that is there
     * @param header the session's
     * @param sequence number of the next frame: one that was never used, not even by a frame that is torn
     * @param samples how many samples of each channel there are
     * @param torn whether the last byte there is not the zero byte that ends a frame
     */
    public static HoldFileWriter resume(
            WritableByteChannel out, SessionHeader header, long sequence, Map<Integer, Long> samples, boolean torn) {
        HoldFileWriter writer = new HoldFileWriter(out, header, sequence);
        writer.torn = torn;
        samples.forEach((id, count) -> {
            Progress channel = writer.progress.get(id);
            if (channel != null) {
                channel.samples = count;
            }
        });
        return writer;
    }

    /** Begins a session on {@code out}, which the writer closes at the end. */
    public static HoldFileWriter to(WritableByteChannel out, SessionHeader header) throws IOException {
        return new HoldFileWriter(out, header);
    }

    /** The name of a new file must reach the disk too. Not every system can open a folder; then it sees to it itself. */
    private static void forceFolder(Path file) {
        Path folder = file.toAbsolutePath().getParent();
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            // The file itself is safe; only its name may be lost, and only if power fails within seconds of the start.
        }
    }

    /**
     * Appends samples of one channel as one block.
     *
     * @param channelId a channel of the header
     * @param timeNs times, ns since the session began, at least 0 and never decreasing, also against the block
     *     before
     * @param counts raw counts, one for each time
     * @param from index of the first
     * @param to index behind the last; nothing is written where there is none
     */
    public void samples(int channelId, long[] timeNs, int[] counts, int from, int to) throws IOException {
        Progress channel = progress.get(channelId);
        if (channel == null) {
            throw new IllegalArgumentException("the session has no channel " + channelId);
        }
        long lastNs = channel.lastNs;
        for (int i = from; i < to; i++) {
            if (timeNs[i] < lastNs) {
                throw new IllegalArgumentException(
                        "channel " + channelId + ": time goes back from " + lastNs + " ns to " + timeNs[i] + " ns");
            }
            lastNs = timeNs[i];
        }
        if (from >= to) {
            return;
        }
        headerWhereDue();
        payload.samples(channelId, timeNs, counts, from, to);
        write(FrameType.SAMPLES);
        channel.lastNs = lastNs; // only now: where writing failed they were not recorded and may be handed in again
        channel.samples += to - from;
    }

    /** Appends an event. */
    public void event(SessionEvent event) throws IOException {
        headerWhereDue();
        payload.event(event);
        write(FrameType.EVENT);
    }

    /** Appends what a simulated session was made with; refused where the header does not say simulated. */
    public void truth(Truth truth) throws IOException {
        if (!header.simulated()) {
            throw new IllegalArgumentException("only a simulated session has a known truth");
        }
        headerWhereDue();
        payload.truth(truth);
        write(FrameType.TRUTH);
    }

    /** Forces all that was appended to disk, where it goes to a file. */
    public void force() throws IOException {
        if (out instanceof FileChannel file) {
            file.force(false);
        }
    }

    /** Ends the session on purpose and forces it to disk; nothing may be appended after that. */
    public void end(String reason) throws IOException {
        headerWhereDue();
        Map<Integer, Long> samples = new TreeMap<>();
        progress.forEach((id, channel) -> samples.put(id, channel.samples));
        payload.end(new EndMark(reason, sequence + 1, samples));
        write(FrameType.END);
        force();
    }

    private void headerWhereDue() throws IOException {
        if (sequence % HEADER_EVERY == 0) {
            payload.header(header);
            write(FrameType.HEADER);
        }
    }

    private void write(FrameType type) throws IOException {
        ByteBuffer frame = frames.encode(type.code(), sequence, payload.array(), payload.length());
        sequence++; // also where writing fails: the reader shall see that a frame is missing
        if (torn) {
            writeAll(ZERO.duplicate()); // ends what a failed write left, so that it costs this frame nothing
        }
        torn = true;
        writeAll(frame);
        torn = false;
    }

    private void writeAll(ByteBuffer bytes) throws IOException {
        while (bytes.hasRemaining()) {
            out.write(bytes);
        }
    }

    /** Closes the file. Without an {@link #end} before, the session reads as cut short. */
    @Override
    public void close() throws IOException {
        out.close();
    }
}
