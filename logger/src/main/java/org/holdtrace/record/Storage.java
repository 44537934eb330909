package org.holdtrace.record;

import java.io.IOException;
import java.nio.channels.WritableByteChannel;

/** Where sessions are kept, as far as recording needs it; tests put one that fails here. */
public interface Storage {
    /**
     * A new file, empty, for appending.
     *
     * @throws java.nio.file.FileAlreadyExistsException where there is such a file: nothing is ever written over
     */
    WritableByteChannel create(String name) throws IOException;

    /** Forces what was written to {@code channel} to the disk; the name of the file too where {@code name}. */
    void force(WritableByteChannel channel, boolean name) throws IOException;

    /** Takes away a file in which no sample has been written yet. */
    void discard(String name) throws IOException;

    /** Room that is left, bytes. */
    long usableBytes() throws IOException;
}
