package org.holdtrace.session;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Reads a session, also a damaged one: whatever frames are whole are used, whatever is missing is told by
 * {@link Session#losses()}. The file is never changed.
 */
public final class HoldFileReader {
    private static final int BUFFER = 1 << 16;

    private HoldFileReader() {}

    /**
     * Reads the session in {@code file}.
     *
     * @throws InputException where it holds no header that can be read, or one of a later major version
     * @throws IOException where the file cannot be read at all
     */
    public static Session read(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return read(in, file.toString());
        }
    }

    /** Reads a session from {@code in}; {@code name} stands for the file in messages. */
    public static Session read(InputStream in, String name) throws IOException {
        SessionAssembler session = new SessionAssembler(name);
        byte[] buffer = new byte[BUFFER];
        for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
            session.accept(buffer, 0, n);
        }
        return session.finish();
    }
}
