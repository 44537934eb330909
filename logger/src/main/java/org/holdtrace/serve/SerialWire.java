package org.holdtrace.serve;

import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdtrace.link.PortStreams;
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
    private final PortStreams streams;

    private SerialWire(String path, SerialPort port) {
        this.path = path;
        this.port = port;
        this.streams = new PortStreams(new LibraryPort(port), path + ": the other end has gone");
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
        return streams.in();
    }

    @Override
    public OutputStream out() {
        return streams.out();
    }

    @Override
    public void close() {
        streams.close();
        port.closePort();
    }

    private record LibraryPort(SerialPort port) implements PortStreams.Port {
        @Override
        public int read(byte[] into, int length, int offset) {
            return port.readBytes(into, length, offset);
        }

        @Override
        public int write(byte[] from, int length, int offset) {
            return port.writeBytes(from, length, offset);
        }
    }
}
