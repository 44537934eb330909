package org.holdtrace.session;

import com.code_intelligence.jazzer.junit.FuzzTest;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;

/** Guided fuzzing of what reads a session: it is read, with its losses told, or refused with an error that says why. */
class HoldFileReaderFuzz {
    /** The bytes of a file. */
    @FuzzTest(maxDuration = "60s")
    void aFile(byte[] bytes) throws IOException {
        read(bytes);
    }

    /** Payloads with right checksums around them: each begins with its type and its length. */
    @FuzzTest(maxDuration = "60s")
    void frames(byte[] bytes) throws IOException {
        FrameEncoder encoder = new FrameEncoder();
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        int sequence = 0;
        for (int at = 0; at + 2 < bytes.length; ) {
            int type = 1 + (bytes[at] & 0x7);
            int length = Math.min((bytes[at + 1] & 0xFF) * 4, bytes.length - at - 2);
            byte[] payload = new byte[length];
            System.arraycopy(bytes, at + 2, payload, 0, length);
            ByteBuffer frame = encoder.encode(type, sequence++, payload, length);
            byte[] copy = new byte[frame.remaining()];
            frame.get(copy);
            file.write(copy);
            at += 2 + length;
        }
        read(file.toByteArray());
    }

    private static void read(byte[] bytes) throws IOException {
        Session session;
        try {
            session = HoldFileReader.read(new ByteArrayInputStream(bytes), "fuzz.hold");
        } catch (InputException e) {
            return;
        }
        for (Loss loss : session.losses()) {
            loss.describe();
        }
        for (Channel channel : session.header().channels()) {
            session.timesNs(channel.id());
            session.counts(channel.id());
        }
    }
}
