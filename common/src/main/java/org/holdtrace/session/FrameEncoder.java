package org.holdtrace.session;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.zip.CRC32C;

/**
 * Makes frames of payloads. One thread at a time; the buffers are kept, so that a frame costs no garbage.
 *
 * <pre>
 * COBS of:  type 1 byte | sequence number 4 bytes | payload | CRC-32C 4 bytes     then one byte 00
 *                         little-endian                       little-endian, of all before it
 * </pre>
 */
public final class FrameEncoder {
    static final int BEFORE_PAYLOAD = 5;
    static final int AFTER_PAYLOAD = 4;

    private final CRC32C crc = new CRC32C();
    private ByteBuffer plain = ByteBuffer.allocate(1 << 12).order(ByteOrder.LITTLE_ENDIAN);
    private ByteBuffer frame = ByteBuffer.allocate(1 << 13);

    /**
     * The frame of {@code payload[0 … length-1]}, its closing zero included, ready to be written. Valid until the next
     * call.
     *
     * @param type 1 to 255, see {@link FrameType}
     * @param sequence 0 to 2^32 - 1
     */
    public ByteBuffer encode(int type, long sequence, byte[] payload, int length) {
        int plainLength = BEFORE_PAYLOAD + length + AFTER_PAYLOAD;
        int longest = Cobs.encodedLengthAtMost(plainLength) + 1;
        if (plain.capacity() < plainLength) {
            plain = ByteBuffer.allocate(plainLength * 2).order(ByteOrder.LITTLE_ENDIAN);
        }
        if (frame.capacity() < longest) {
            frame = ByteBuffer.allocate(longest * 2);
        }
        plain.clear();
        plain.put((byte) type).putInt((int) sequence).put(payload, 0, length);
        crc.reset();
        crc.update(plain.array(), 0, BEFORE_PAYLOAD + length);
        plain.putInt((int) crc.getValue());
        int encoded = Cobs.encode(plain.array(), plainLength, frame.array());
        frame.clear();
        frame.put(encoded, (byte) 0);
        frame.limit(encoded + 1);
        return frame;
    }
}
