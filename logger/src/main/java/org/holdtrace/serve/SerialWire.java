package org.holdtrace.serve;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.io.InputStream;
import java.io.InterruptedIOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdtrace.link.Wire;

/**
 * A serial port as a wire: a UART, or the gadget side of a USB cable. The only class of the logger that knows the serial
 * library.
 */
final class SerialWire implements Wire {
    /** The library's reads give up after this long, and then look whether the port was closed meanwhile. */
    private static final int READ_MS = 100;

    private static final int DATA_BITS = 8;

    private final String path;
    private final SerialPort port;
    private volatile boolean closed;

    private SerialWire(String path, SerialPort port) {
        this.path = path;
        this.port = port;
    }

    /**
     * Opens the port at {@code path}, 8 data bits, no parity, one stop bit, no flow control.
     *
     * @param baud bits a second; meaningless on a USB gadget
     * @throws IOException where there is none, it may not be used, or another program has it
     */
    static SerialWire open(String path, int baud) throws IOException {
        if (!Files.exists(Path.of(path))) {
            throw new IOException(path + ": there is no such port");
        }
        SerialPort port;
        try {
            port = SerialPort.getCommPort(path);
        } catch (RuntimeException | LinkageError e) {
            throw new IOException(path + ": no serial port can be used: " + e.getMessage(), e);
        }
        port.setComPortParameters(baud, DATA_BITS, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        // Semi-blocking: a write that nobody reads waits without using the processor, until the port is closed.
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
        if (!port.openPort()) {
            throw new IOException(path + ": cannot be opened (error " + port.getLastErrorCode()
                    + "); permitted to this user, and used by no other program such as a login prompt?");
        }
        return new SerialWire(path, port);
    }

    @Override
    public String name() {
        return path;
    }

    @Override
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
                    int n = port.readBytes(into, length, offset);
                    if (n != 0) {
                        return n < 0 ? -1 : n;
                    }
                }
                return -1;
            }
        };
    }

    @Override
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
                    int n = closed ? -1 : port.writeBytes(from, length - done, offset + done);
                    if (n <= 0) {
                        // The library answers 0 where the other end of the cable has gone.
                        InterruptedIOException gone = new InterruptedIOException(path + ": the other end has gone");
                        gone.bytesTransferred = done;
                        throw gone;
                    }
                    done += n;
                }
            }
        };
    }

    @Override
    public void close() {
        closed = true;
        port.closePort();
    }
}
