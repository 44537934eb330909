package org.holdtrace.remote;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import java.io.InputStream;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.PortStreams;
import org.holdtrace.link.Wire;

/** A serial port as a wire. The only class of the analyser that knows the serial library. */
final class SerialWire implements Wire {
    /** The library's reads give up after this long, and then look whether the port was closed meanwhile. */
    private static final int READ_MS = 100;

    private static final int DATA_BITS = 8;

    private final String name;
    private final SerialPort port;
    private final PortStreams streams;

    private SerialWire(String name, SerialPort port) {
        this.name = name;
        this.port = port;
        this.streams = new PortStreams(new LibraryPort(port), "the other end of the cable has gone");
    }

    /**
     * Opens a port: 8 data bits, no parity, one stop bit, no flow control.
     *
     * @throws LinkException where there is none, it may not be used, or another program has it
     */
    static SerialWire open(String name, int baud) throws LinkException {
        SerialPort port;
        try {
            port = SerialPort.getCommPort(name);
        } catch (SerialPortInvalidPortException e) {
            throw new LinkException(LinkException.CLOSED, name + ": there is no such serial port" + others(), e);
        } catch (LinkageError e) {
            throw new LinkException(LinkException.CLOSED, name + ": no serial port can be used: " + e.getMessage(), e);
        }
        port.setComPortParameters(baud, DATA_BITS, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        // Semi-blocking: a write that nobody reads waits without using the processor, until the port is closed.
        port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MS, 0);
        if (!port.openPort()) {
            throw new LinkException(
                    LinkException.CLOSED,
                    name + ": cannot be opened (error " + port.getLastErrorCode()
                            + "); is another program using it, and may this user?" + others());
        }
        return new SerialWire(name, port);
    }

    /** The ports there are, for who has mistyped one. */
    private static String others() {
        List<String> names = new ArrayList<>();
        for (LoggerAddress.Found port : ports()) {
            names.add(port.port());
        }
        return names.isEmpty() ? "" : "; ports here: " + String.join(", ", names);
    }

    /** The serial ports of this computer; none where the library does not work here. */
    static List<LoggerAddress.Found> ports() {
        List<LoggerAddress.Found> found = new ArrayList<>();
        try {
            for (SerialPort port : SerialPort.getCommPorts()) {
                found.add(new LoggerAddress.Found(port.getSystemPortPath(), port.getPortDescription()));
            }
        } catch (LinkageError e) {
            return List.of();
        }
        return found;
    }

    @Override
    public String name() {
        return name;
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
