package org.holdtrace.link;

/**
 * A session's file on a logger.
 *
 * @param name file name; check it with {@link SessionNames} before it names a file here
 * @param bytes its length
 * @param open whether it is still being recorded
 */
public record StoredFile(String name, long bytes, boolean open) {}
