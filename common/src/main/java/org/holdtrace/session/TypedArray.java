package org.holdtrace.session;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;

/**
 * Integers as CBOR typed arrays (RFC 8746): one tag that says type and byte order, then the numbers as a byte string.
 * Written little-endian, read in either order.
 */
final class TypedArray {
    static final int UINT16_LE = 69;
    static final int UINT32_LE = 70;
    static final int UINT64_LE = 71;
    static final int SINT16_LE = 77;
    static final int SINT32_LE = 78;

    private final int width;
    private final boolean signed;
    private final ByteBuffer bytes;

    private TypedArray(int width, boolean signed, ByteBuffer bytes) {
        this.width = width;
        this.signed = signed;
        this.bytes = bytes;
    }

    /**
     * The array that was tagged so. The bytes are kept, not copied.
     *
     * @throws IllegalArgumentException where the tag is not that of integers or the bytes do not come out even
     */
    static TypedArray of(int tag, byte[] bytes) {
        // Tag bits 010_f_s_e_ll (RFC 8746 section 2.1): f float, s signed, e little-endian, 2^ll bytes a number.
        boolean integers = tag >= 64 && tag <= 79 && (tag & 0x10) == 0 && tag != 68 && tag != 76;
        int width = 1 << (tag & 3);
        if (!integers || bytes.length % width != 0) {
            throw new IllegalArgumentException("a typed array of " + bytes.length + " bytes with tag " + tag);
        }
        ByteOrder order = (tag & 4) == 0 ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
        return new TypedArray(width, (tag & 8) != 0, ByteBuffer.wrap(bytes).order(order));
    }

    int size() {
        return bytes.capacity() / width;
    }

    /** Bytes a number takes. */
    int width() {
        return width;
    }

    /** The numbers; an unsigned one of 64 bits above the largest long comes out negative. */
    long[] numbers() {
        long[] numbers = new long[size()];
        // Copied as a whole first: one number at a time through a buffer is slow before it is compiled.
        switch (width) {
            case 1 -> {
                for (int i = 0; i < numbers.length; i++) {
                    numbers[i] = signed ? bytes.get(i) : Byte.toUnsignedInt(bytes.get(i));
                }
            }
            case 2 -> {
                short[] raw = new short[numbers.length];
                bytes.asShortBuffer().get(raw);
                for (int i = 0; i < raw.length; i++) {
                    numbers[i] = signed ? raw[i] : raw[i] & 0xFFFF;
                }
            }
            case 4 -> {
                int[] raw = new int[numbers.length];
                bytes.asIntBuffer().get(raw);
                for (int i = 0; i < raw.length; i++) {
                    numbers[i] = signed ? raw[i] : raw[i] & 0xFFFF_FFFFL;
                }
            }
            default -> bytes.asLongBuffer().get(numbers);
        }
        return numbers;
    }
}
