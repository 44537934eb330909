package org.holdtrace.session;

/**
 * Consistent Overhead Byte Stuffing: takes every zero byte out of a block at the price of at most one byte in 254, so
 * that a zero byte can mark the end of a frame and nothing else.
 *
 * <pre>
 * 11 22 00 33   becomes   03 11 22 02 33     each code byte counts up to the next zero, itself included;
 *                                            FF: 254 bytes and no zero behind them
 * </pre>
 *
 * <p>S. Cheshire and M. Baker, <i>Consistent overhead byte stuffing</i>, IEEE/ACM Transactions on Networking 7 (1999),
 * doi 10.1109/90.769765. The encoder writes the shortest form; the decoder also takes the one with 01 behind a final FF
 * run.
 */
public final class Cobs {
    private static final int FULL_RUN = 0xFF;

    private Cobs() {}

    /** Bytes that {@code length} bytes need at most once encoded. */
    public static int encodedLengthAtMost(int length) {
        return length + length / 254 + 1;
    }

    /** Encodes {@code in[0 … length-1]} to {@code out} from index 0 on, without a closing zero; returns the length. */
    public static int encode(byte[] in, int length, byte[] out) {
        int codeAt = 0;
        int at = 1;
        int code = 1;
        boolean open = true; // a code byte is owed for the run that ends the block
        for (int i = 0; i < length; i++) {
            if (!open) {
                codeAt = at++;
                code = 1;
                open = true;
            }
            if (in[i] == 0) {
                out[codeAt] = (byte) code;
                codeAt = at++;
                code = 1;
            } else {
                out[at++] = in[i];
                if (++code == FULL_RUN) {
                    out[codeAt] = (byte) code;
                    open = false;
                }
            }
        }
        if (open) {
            out[codeAt] = (byte) code;
        }
        return at;
    }

    /**
     * Decodes {@code in[0 … length-1]} to {@code out} from index 0 on; both may be one array. Returns the length, or -1
     * where the bytes cannot have come from the encoder (a zero among them, a run that leads beyond the end).
     */
    public static int decode(byte[] in, int length, byte[] out) {
        int at = 0;
        int i = 0;
        while (i < length) {
            int code = in[i++] & 0xFF;
            if (code == 0 || i + code - 1 > length) {
                return -1;
            }
            for (int k = 1; k < code; k++) {
                byte b = in[i++];
                if (b == 0) {
                    return -1;
                }
                out[at++] = b;
            }
            if (code < FULL_RUN && i < length) {
                out[at++] = 0;
            }
        }
        return length == 0 ? -1 : at;
    }
}
