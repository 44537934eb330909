package org.holdtrace.link;

import java.io.IOException;
import java.io.InputStream;
import java.io.InterruptedIOException;
import java.io.OutputStream;

/**
 * The two streams of a serial port whose library gives up a read after a while: the reader then looks whether the port was
 * closed meanwhile. Knows no library: each program has the one class that does.
 */
public final class PortStreams {
    /** What a port can do. */
    public interface Port {
        /** Reads up to {@code length} bytes; how many, 0 after a while without any, below 0 where the port is gone. */
        int read(byte[] into, int length, int offset);

        /** Writes up to {@code length} bytes; how many, 0 or below where the other end of the cable is gone. */
        int write(byte[] from, int length, int offset);
    }

    private final Port port;
    private final String gone;
    private volatile boolean closed;

    /**
     * @param gone what to say where the other end of the cable has gone
     */
    public PortStreams(Port port, String gone) {
        this.port = port;
        this.gone = gone;
    }

    /** From now on reads end and writes fail; from any thread. */
    public void close() {
        closed = true;
    }

    /** What comes; its end where the port is closed or gone. */
    public InputStream in() {
        return new InputStream() {
            @Override
            public int read() throws IOException {
                byte[] one = new byte[1];
                return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
            }

            @Override
            public int read(byte[] into, int offset, int length) throws IOException {
                while (!closed) {
                    int n = port.read(into, length, offset);
                    if (n != 0) {
                        return n < 0 ? -1 : n;
                    }
                }
                return -1;
            }
        };
    }

    /** What goes; a write returns when all of it has been taken. */
    public OutputStream out() {
        return new OutputStream() {
            @Override
            public void write(int b) throws IOException {
                write(new byte[] {(byte) b}, 0, 1);
            }

            @Override
            public void write(byte[] from, int offset, int length) throws IOException {
                int done = 0;
                while (done < length) {
                    int n = closed ? -1 : port.write(from, length - done, offset + done);
                    if (n <= 0) {
                        InterruptedIOException broken = new InterruptedIOException(gone);
                        broken.bytesTransferred = done;
                        throw broken;
                    }
                    done += n;
                }
            }
        };
    }
}
