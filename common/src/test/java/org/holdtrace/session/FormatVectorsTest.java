package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import com.fasterxml.jackson.dataformat.cbor.CBORGenerator;
import com.fasterxml.jackson.dataformat.cbor.CBORParser;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.zip.CRC32C;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The building blocks of a frame against the published values of their standards. */
class FormatVectorsTest {
    private static long crc32c(byte[] bytes) {
        CRC32C crc = new CRC32C();
        crc.update(bytes);
        return crc.getValue();
    }

    @Test
    void theChecksumIsTheOneOfTheCatalogue() {
        // DF-01: CRC-32/ISCSI over "123456789", CRC catalogue copies [verified]
        assertEquals(0xE3069283L, crc32c("123456789".getBytes(StandardCharsets.US_ASCII)));
        // DF-02: RFC 3720 B.4 [memory], recomputed
        assertEquals(0x8A9136AAL, crc32c(new byte[32]));
        byte[] ones = new byte[32];
        Arrays.fill(ones, (byte) 0xFF);
        assertEquals(0x62A8AB43L, crc32c(ones));
    }

    @Test
    void aFrameEndsInItsOwnChecksum() {
        byte[] payload = {1, 0, 2};
        ByteBuffer frame = new FrameEncoder().encode(2, 70_000, payload, payload.length);
        byte[] encoded = new byte[frame.remaining()];
        frame.get(encoded);
        byte[] plain = new byte[encoded.length];
        int length = Cobs.decode(encoded, encoded.length - 1, plain);
        assertEquals(5 + 3 + 4, length);
        assertArrayEquals(HexFormat.of().parseHex("0270110100010002"), Arrays.copyOf(plain, 8));
        // DF-01: the residue of CRC-32/ISCSI is B798B438, before the final inversion [verified]
        assertEquals(~0xB798B438, (int) crc32c(Arrays.copyOf(plain, length)));
        assertEquals(0, encoded[encoded.length - 1]);
    }

    private interface Writing {
        void to(CBORGenerator cbor) throws IOException;
    }

    private static String cbor(Writing writing) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (CBORGenerator generator = new CBORFactory().createGenerator(out)) {
            writing.to(generator);
        }
        return HexFormat.of().formatHex(out.toByteArray());
    }

    @ParameterizedTest
    @CsvSource({
        "0, 00",
        "23, 17",
        "24, 1818",
        "100, 1864",
        "1000, 1903e8",
        "1000000, 1a000f4240",
        "-1, 20",
        "-100, 3863",
        "-1000, 3903e7"
    })
    void integersAreWrittenAsTheStandardSays(long number, String hex) throws IOException {
        // DF-05: RFC 8949 appendix A, CBOR working-group test vectors [verified]
        assertEquals(hex, cbor(out -> out.writeNumber(number)));
    }

    @Test
    void otherItemsAreWrittenAsTheStandardSays() throws IOException {
        // DF-05
        assertEquals("fb3ff199999999999a", cbor(out -> out.writeNumber(1.1)));
        assertEquals("fbc010666666666666", cbor(out -> out.writeNumber(-4.1)));
        assertEquals("fb7e37e43c8800759c", cbor(out -> out.writeNumber(1e300)));
        assertEquals("f5", cbor(out -> out.writeBoolean(true)));
        assertEquals("6449455446", cbor(out -> out.writeString("IETF")));
        assertEquals("4401020304", cbor(out -> out.writeBinary(new byte[] {1, 2, 3, 4})));
        assertEquals("83010203", cbor(out -> out.writeArray(new int[] {1, 2, 3}, 0, 3)));
        assertEquals("a26161016162820203", cbor(out -> {
            out.writeStartObject(null, 2);
            out.writeNumberField("a", 1);
            out.writeFieldName("b");
            out.writeArray(new int[] {2, 3}, 0, 2);
            out.writeEndObject();
        }));
    }

    private static TypedArray typedArray(String hex) throws IOException {
        try (CBORParser parser = new CBORFactory().createParser(HexFormat.of().parseHex(hex))) {
            assertEquals(JsonToken.VALUE_EMBEDDED_OBJECT, parser.nextToken());
            return TypedArray.of(parser.getCurrentTag(), parser.getBinaryValue());
        }
    }

    private static void assertArray(String hex, long... numbers) throws IOException {
        assertArrayEquals(numbers, typedArray(hex).numbers(), hex);
    }

    @Test
    void typedArraysOfEveryIntegerTypeAreRead() throws IOException {
        // DF-08: uint16 BE [1,2,3], sint16 LE [−1,256], from the tag list of RFC 8746 [calc]
        assertArray("d84146000100020003", 1, 2, 3);
        assertArray("d84d44ffff0001", -1, 256);
        // DF-07: 64 uint8, 65 to 67 uint16/32/64 BE, 69 to 71 the same LE, 72 sint8, 73 to 75 BE, 77 to 79 LE
        assertArray("d84042ff01", 255, 1);
        assertArray("d84244fffffffe", 4_294_967_294L);
        assertArray("d843480000000100000000", 1L << 32);
        assertArray("d84542feff", 65_534);
        assertArray("d84644feffffff", 4_294_967_294L);
        assertArray("d847480000000001000000", 1L << 32);
        assertArray("d84842ff01", -1, 1);
        assertArray("d84944ffff0100", -1, 256);
        assertArray("d84a44fffffffe", -2);
        assertArray("d84b48fffffffffffffffe", -2);
        assertArray("d84e44feffffff", -2);
        assertArray("d84f48feffffffffffffff", -2);
    }

    @Test
    void typedArraysOfOtherThingsAreRefused() {
        // DF-08: float64 BE pair [verified]; DF-07: 68 is a clamped uint8, 76 is reserved
        for (String hex : new String[] {
            "d85250ffefffffffffffff7fefffffffffffff",
            "d8554800 00803f00002040".replace(" ", ""),
            "d84442ff01",
            "d84c42ff01",
            "d84d43ffff00",
            "4401020304"
        }) {
            assertThrows(IllegalArgumentException.class, () -> typedArray(hex), hex);
        }
    }
}
