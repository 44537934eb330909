package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HexFormat;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import org.junit.jupiter.api.Test;

class CobsTest {
    private static byte[] bytes(String hex) {
        return HexFormat.of().parseHex(hex.replace(" ", ""));
    }

    /** Bytes first, first+1, … last, as the tables of the algorithm write 01…FE. */
    private static byte[] run(int first, int last) {
        byte[] run = new byte[last - first + 1];
        for (int i = 0; i < run.length; i++) {
            run[i] = (byte) (first + i);
        }
        return run;
    }

    private static byte[] join(byte[]... parts) {
        byte[] all = new byte[0];
        for (byte[] part : parts) {
            int at = all.length;
            all = Arrays.copyOf(all, at + part.length);
            System.arraycopy(part, 0, all, at, part.length);
        }
        return all;
    }

    private static byte[] encode(byte[] in) {
        byte[] out = new byte[Cobs.encodedLengthAtMost(in.length)];
        return Arrays.copyOf(out, Cobs.encode(in, in.length, out));
    }

    private static byte[] decode(byte[] in) {
        byte[] out = new byte[in.length];
        int length = Cobs.decode(in, in.length, out);
        return length < 0 ? null : Arrays.copyOf(out, length);
    }

    private static void assertBothWays(byte[] plain, byte[] encoded) {
        assertArrayEquals(encoded, encode(plain));
        assertArrayEquals(plain, decode(encoded));
    }

    @Test
    void shortBlocksAreEncodedAsThePublishedTableSays() {
        // DF-03: Cheshire & Baker, IEEE/ACM Trans. Networking 7 (1999); table [verified] in several codecs
        assertBothWays(bytes(""), bytes("01"));
        assertBothWays(bytes("00"), bytes("01 01"));
        assertBothWays(bytes("00 00"), bytes("01 01 01"));
        assertBothWays(bytes("11 22 00 33"), bytes("03 11 22 02 33"));
        assertBothWays(bytes("11 22 33 44"), bytes("05 11 22 33 44"));
        assertBothWays(bytes("11 00 00 00"), bytes("02 11 01 01 01"));
    }

    @Test
    void longRunsAreEncodedAsThePublishedTableSays() {
        // DF-04: first row [verified], the others [memory], recomputed
        byte[] ff = bytes("FF");
        assertBothWays(run(1, 254), join(ff, run(1, 254)));
        assertBothWays(run(0, 254), join(bytes("01"), ff, run(1, 254)));
        assertBothWays(run(1, 255), join(ff, run(1, 254), bytes("02 FF")));
        assertBothWays(join(run(2, 255), bytes("00")), join(ff, run(2, 255), bytes("01 01")));
        assertBothWays(join(run(3, 255), bytes("00 01")), join(bytes("FE"), run(3, 255), bytes("02 01")));
    }

    @Test
    void aFullRunAtTheEndMayCarryASuperfluousCode() {
        // Values that disagree, reference list: 255 bytes or 256 with a trailing 01; a decoder must accept both
        assertArrayEquals(run(1, 254), decode(join(bytes("FF"), run(1, 254), bytes("01"))));
    }

    @Test
    void whatNoEncoderWritesIsRefused() {
        for (String hex : new String[] {"", "00", "02", "03 11", "03 11 00", "05 11 22 33", "01 00"}) {
            assertEquals(-1, Cobs.decode(bytes(hex), bytes(hex).length, new byte[8]), hex);
        }
    }

    @Provide
    Arbitrary<byte[]> blocks() {
        Arbitrary<Byte> oftenZero =
                Arbitraries.frequencyOf(Tuple.of(300, Arbitraries.bytes()), Tuple.of(1, Arbitraries.just((byte) 0)));
        return oftenZero.array(byte[].class).ofMaxSize(1200);
    }

    @Property(tries = 300)
    void anyBlockComesBackAndHoldsNoZeroOnTheWay(@ForAll("blocks") byte[] block) {
        byte[] encoded = encode(block);
        assertArrayEquals(block, decode(encoded));
        for (byte b : encoded) {
            assertTrue(b != 0);
        }
        assertTrue(encoded.length <= block.length + block.length / 254 + 1, "at most 1 extra byte per 254, DF-03");
    }
}
