package org.holdtrace.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** What {@code docs/link.md} says is what is spoken. */
class LinkDocumentTest {
    private static String document() throws IOException {
        return Files.readString(Path.of("..", "docs", "link.md"));
    }

    private static String grouped(long number) {
        return String.format(Locale.ROOT, "%,d", number).replace(',', ' ');
    }

    @Test
    void theWorkedExampleIsWhatTheWriterWrites() throws IOException {
        String document = document();
        int from = document.indexOf("```hex\n") + 7;
        String bytes = document.substring(from, document.indexOf("```", from)).replaceAll("\\s", "");
        ByteBuffer frame = new LinkWriter().frame(new LinkMessage.Hello(new Versions(1, 1), "x", Messages.NONCE));
        byte[] written = new byte[frame.remaining()];
        frame.get(written);
        assertEquals(bytes, HexFormat.of().formatHex(written));
    }

    @Test
    void everyRequestCodeAndLimitIsThere() throws IOException {
        String document = document();
        for (LinkMessage message : Messages.all()) {
            if (message instanceof LinkMessage.Request request) {
                assertTrue(document.contains("| `" + AskNames.of(request.ask()) + "` |"), request.toString());
            }
        }
        for (String code : new String[] {
            LinkException.VERSION, LinkException.KEY, LinkException.BUSY, LinkException.NOT_OPEN,
            LinkException.BAD_REQUEST, LinkException.UNKNOWN_REQUEST, LinkException.NO_SESSION, LinkException.REFUSED,
            LinkException.INTERNAL
        }) {
            assertTrue(document.contains("| `" + code + "` |"), code);
        }
        for (long limit : new long[] {LinkLimits.LONGEST_FRAME, LinkLimits.LONGEST_CHUNK, LinkLimits.LONGEST_DIGEST}) {
            assertTrue(document.contains(grouped(limit)), "limit " + limit);
        }
        assertTrue(document.contains("port **" + LinkLimits.DEFAULT_PORT + "**"));
        assertTrue(document.contains("at most " + LinkLimits.LONGEST_LISTING + " maps"));
        assertTrue(document.contains("at most " + LinkLimits.LONGEST_TEXT + " characters"));
        assertTrue(document.contains("At most " + LinkLimits.MOST_REQUESTS + " should be under way"));
        assertTrue(document.contains("hears nothing for " + LinkLimits.SILENCE_MS / 1000 + " s"));
        assertTrue(document.contains("at least every " + LinkLimits.PING_MS / 1000 + " s"));
    }
}
