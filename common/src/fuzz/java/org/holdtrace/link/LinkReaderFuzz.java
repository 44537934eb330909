package org.holdtrace.link;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Arrays;

/** Guided fuzzing of what reads a link: whatever comes is a message, is refused or is skipped. */
class LinkReaderFuzz {
    /** The bytes of a line. */
    @FuzzTest(maxDuration = "60s")
    void aLine(byte[] bytes) throws IOException {
        new LinkInput(new ByteArrayInputStream(bytes), new LinkInput.Handler() {
                    @Override
                    public void message(LinkMessage message) {}

                    @Override
                    public void bad(LinkReader.BadMessage bad) {}
                })
                .run();
    }

    /** A payload with a right checksum around it; the first byte is the type. What is read can be written again. */
    @FuzzTest(maxDuration = "60s")
    void aPayload(byte[] bytes) {
        if (bytes.length == 0) {
            return;
        }
        byte[] payload = Arrays.copyOfRange(bytes, 1, bytes.length);
        LinkMessage message;
        try {
            message = new LinkReader().read((bytes[0] & 0xFF) | 0x80, payload, 0, payload.length);
        } catch (LinkReader.BadMessage e) {
            return;
        }
        if (message != null && payload.length < LinkLimits.LONGEST_CHUNK) {
            new LinkWriter().frame(message);
        }
    }
}
