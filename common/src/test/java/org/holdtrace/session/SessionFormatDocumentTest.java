package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.Test;

/** What docs/session-format.md says is what the code does. */
class SessionFormatDocumentTest {
    private static String document() throws IOException {
        return Files.readString(Path.of("..", "docs", "session-format.md"));
    }

    private static byte[] exampleFrame() throws IOException {
        Matcher block = Pattern.compile("```hex\\n(.*?)```", Pattern.DOTALL).matcher(document());
        assertTrue(block.find());
        return HexFormat.of().parseHex(block.group(1).replaceAll("\\s", ""));
    }

    /** The bytes in the document were made by another program, from the document alone. */
    @Test
    void theWorkedExampleIsWhatIsWritten() throws IOException {
        PayloadWriter payload = new PayloadWriter();
        payload.samples(0, new long[] {1_000_000_000, 1_004_000_000, 1_008_000_000}, new int[] {0, 100, -1}, 0, 3);
        ByteBuffer frame = new FrameEncoder().encode(FrameType.SAMPLES.code(), 2, payload.array(), payload.length());
        byte[] written = new byte[frame.remaining()];
        frame.get(written);
        assertEquals(HexFormat.of().formatHex(exampleFrame()), HexFormat.of().formatHex(written));
    }

    @Test
    void theWorkedExampleIsRead() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(out), Sessions.header(false))) {
            writer.event(new SessionEvent.Note(0, ""));
        }
        out.writeBytes(exampleFrame());
        Session session = Sessions.read(out.toByteArray());
        assertArrayEquals(new int[] {0, 100, -1}, session.counts(0));
        assertArrayEquals(new long[] {1_000_000_000, 1_004_000_000, 1_008_000_000}, session.timesNs(0));
        assertTrue(session.losses().isEmpty());
    }

    @Test
    void everyKeyEventAndPhaseThatIsWrittenStandsInTheDocument() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(out), Sessions.header(true))) {
            Sessions.countedBlock(writer, 0);
            writer.samples(1, new long[] {0, 1000, 3000}, new int[] {1, 2, 3}, 0, 3);
            for (SessionEvent event : Sessions.events()) {
                writer.event(event);
            }
            writer.truth(Sessions.truth());
            writer.end("done");
        }
        Set<String> words = new TreeSet<>();
        for (Phase phase : Phase.values()) {
            words.add(phase.label());
        }
        for (byte[] frame : Sessions.frames(out.toByteArray())) {
            byte[] plain = new byte[frame.length];
            int length = Cobs.decode(frame, frame.length - 1, plain);
            keys(Arrays.copyOfRange(plain, 5, length - 4), words);
        }
        words.removeAll(SetupField.namesIn(""));
        words.removeAll(SetupField.namesIn("oil"));
        words.removeAll(SetupField.namesIn("transducer"));
        words.removeAll(Sessions.truth().numbers().keySet());
        words.removeAll(Sessions.truth().words().keySet());
        assertTrue(words.contains("voltsAtZeroCount") && words.contains("unit") && words.contains("clock jump"));
        String document = document();
        for (String word : words) {
            assertTrue(document.contains("`" + word + "`"), word);
        }
    }

    /** All keys of a payload and the names of events. */
    private static void keys(byte[] payload, Set<String> into) throws IOException {
        try (JsonParser parser = new CBORFactory().createParser(payload)) {
            while (parser.nextToken() != null) {
                if (parser.currentToken() == JsonToken.FIELD_NAME) {
                    into.add(parser.currentName());
                } else if ("event".equals(parser.currentName()) || "kind".equals(parser.currentName())) {
                    into.add(parser.getText());
                }
            }
        }
    }
}
