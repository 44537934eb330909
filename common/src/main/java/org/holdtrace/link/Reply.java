package org.holdtrace.link;

import java.util.List;

/** What a logger answers. */
public sealed interface Reply {
    /** It is done. */
    record Done() implements Reply {}

    /** How it is doing. */
    record StatusNow(Status status) implements Reply {}

    /**
     * Sessions.
     *
     * @param from number of the first in {@code files}, from 0
     * @param total how many there are in all
     */
    record Sessions(long from, long total, List<StoredFile> files) implements Reply {
        public Sessions {
            files = List.copyOf(files);
        }
    }

    /**
     * Part of a file.
     *
     * @param offset first byte
     * @param bytes none where the file has no byte there
     */
    record Chunk(long offset, byte[] bytes) implements Reply {}

    /**
     * A digest.
     *
     * @param length how many bytes it goes over, fewer than asked for where the file ends before
     * @param sha256 32 bytes
     */
    record Digest(long offset, long length, byte[] sha256) implements Reply {}

    /**
     * A session runs.
     *
     * @param session its file name
     */
    record Started(String session) implements Reply {}
}
