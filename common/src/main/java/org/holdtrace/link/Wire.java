package org.holdtrace.link;

import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;

/**
 * What a link runs over, as two streams: a serial port, a TCP connection, a pipe in memory. One thread reads, another
 * writes.
 */
public interface Wire extends Closeable {
    /** What and where, such as {@code /dev/ttyACM0} or {@code 127.0.0.1:40112}: for messages. */
    String name();

    /**
     * What comes from the other end. A read waits for one byte at least; it gives -1 or throws where the other end has
     * gone or the wire was closed.
     */
    InputStream in();

    /** What goes to the other end. A write may wait as long as the other end does not read, until the wire is closed. */
    OutputStream out();

    /** Closes it; frees a thread that waits in a read or a write. May be called from any thread, and more than once. */
    @Override
    void close() throws IOException;
}
