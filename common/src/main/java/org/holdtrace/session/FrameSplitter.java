package org.holdtrace.session;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.zip.CRC32C;

/**
 * Finds the frames in a stream of bytes, as they come in. What is damaged is told and skipped up to the next zero byte;
 * a frame is handed on only where its CRC-32C is right. Zero bytes in a row (a file system may leave them after a power
 * cut) are nothing. One thread at a time.
 */
public final class FrameSplitter {
    /** Longest frame that is believed: a damaged file must not make the reader collect without end. */
    public static final int LONGEST_FRAME = 1 << 22;

    /** Takes what was found. Positions are bytes from the start of the stream. */
    public interface Handler {
        /**
         * A whole frame. The payload is {@code frame[offset … offset+length-1]}, valid until the method returns.
         *
         * @param firstByte where the frame begins
         * @param endByte where the next one can begin
         */
        void frame(int type, long sequence, byte[] frame, int offset, int length, long firstByte, long endByte)
                throws IOException;

        /** Bytes up to a zero byte that are no frame. */
        void damage(long firstByte, long endByte);
    }

    private final Handler handler;
    private final int longestFrame;
    private final CRC32C crc = new CRC32C();
    private byte[] segment = new byte[1 << 13];
    private int used;
    private boolean tooLong;
    private long firstByte;
    private long position;

    public FrameSplitter(Handler handler) {
        this(handler, LONGEST_FRAME);
    }

    /**
     * As the other, with a limit of its own: a link takes short frames only, so that a stranger cannot make it collect
     * much.
     *
     * @param longestFrame most bytes of an encoded frame, its closing zero not counted
     */
    public FrameSplitter(Handler handler, int longestFrame) {
        this.handler = handler;
        this.longestFrame = longestFrame;
    }

    /** Takes the next bytes of the stream. */
    public void accept(byte[] bytes, int offset, int length) throws IOException {
        int from = offset;
        int end = offset + length;
        for (int i = offset; i < end; i++) {
            if (bytes[i] == 0) {
                append(bytes, from, i);
                position++;
                endSegment();
                from = i + 1;
            }
        }
        append(bytes, from, end);
    }

    /** Bytes that came behind the last zero byte: the start of a frame whose end has not come. */
    public long openBytes() {
        return position - firstByte;
    }

    /** Bytes taken so far. */
    public long position() {
        return position;
    }

    private void append(byte[] bytes, int from, int to) {
        int length = to - from;
        position += length;
        if (tooLong || used + length > longestFrame) {
            tooLong = true;
            return;
        }
        if (used + length > segment.length) {
            segment = Arrays.copyOf(segment, Math.max(segment.length * 2, used + length));
        }
        System.arraycopy(bytes, from, segment, used, length);
        used += length;
    }

    private void endSegment() throws IOException {
        int length = used;
        long first = firstByte;
        boolean believable = !tooLong;
        used = 0;
        tooLong = false;
        firstByte = position;
        if (length == 0 && believable) {
            return;
        }
        int plain = believable ? Cobs.decode(segment, length, segment) : -1;
        int payload = plain - FrameEncoder.BEFORE_PAYLOAD - FrameEncoder.AFTER_PAYLOAD;
        if (payload < 0) {
            handler.damage(first, position);
            return;
        }
        ByteBuffer fields = ByteBuffer.wrap(segment, 0, plain).order(ByteOrder.LITTLE_ENDIAN);
        crc.reset();
        crc.update(segment, 0, plain - FrameEncoder.AFTER_PAYLOAD);
        if ((int) crc.getValue() != fields.getInt(plain - FrameEncoder.AFTER_PAYLOAD)) {
            handler.damage(first, position);
            return;
        }
        handler.frame(
                segment[0] & 0xFF,
                Integer.toUnsignedLong(fields.getInt(1)),
                segment,
                FrameEncoder.BEFORE_PAYLOAD,
                payload,
                first,
                position);
    }
}
