package org.holdtrace.remote;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.TcpWire;

/** Where a logger is: at a serial port or at a host. */
public sealed interface LoggerAddress {
    /** Longest wait for a TCP connection, ms. */
    int CONNECT_MS = 5000;

    /**
     * A serial port.
     *
     * @param port such as {@code /dev/ttyACM0} or {@code COM3}
     * @param baud bits a second; meaningless over USB
     */
    record Serial(String port, int baud) implements LoggerAddress {}

    /**
     * A host.
     *
     * @param host name or number
     * @param port TCP port
     */
    record Tcp(String host, int port) implements LoggerAddress {}

    /**
     * A serial port of this computer that a logger may be at.
     *
     * @param port its path or name
     * @param description what the system calls it; may be empty
     */
    record Found(String port, String description) {}

    /** The serial ports there are. Asking may take a while: not on the event thread. */
    static List<Found> serialPorts() {
        return SerialWire.ports();
    }

    /**
     * Understands what a person types: a path (it has a slash) or {@code COM3} is a serial port, anything else a host,
     * {@code HOST}, {@code HOST:PORT}, {@code [IPv6]} or {@code [IPv6]:PORT}.
     *
     * @param baud speed, should it be a serial port
     * @throws IllegalArgumentException where it is none of these, and why
     */
    static LoggerAddress parse(String text, int baud) {
        String port = text.startsWith("\\\\.\\") ? text.substring(4) : text;
        if (text.indexOf('/') >= 0 || isComPort(port)) {
            return new Serial(isComPort(port) ? port.toUpperCase(Locale.ROOT) : text, baud);
        }
        if (text.startsWith("[")) {
            int end = text.indexOf(']');
            if (end < 0) {
                throw new IllegalArgumentException("\"" + text + "\" has a [ without its ]");
            }
            return tcp(text, text.substring(1, end), text.substring(end + 1));
        }
        int colon = text.indexOf(':');
        if (colon >= 0 && text.indexOf(':', colon + 1) >= 0) {
            return tcp(text, text, ""); // several colons and no bracket: an IPv6 number
        }
        return colon < 0 ? tcp(text, text, "") : tcp(text, text.substring(0, colon), text.substring(colon));
    }

    private static boolean isComPort(String text) {
        if (text.length() < 4 || text.length() > 6 || !text.regionMatches(true, 0, "COM", 0, 3)) {
            return false;
        }
        return text.substring(3).chars().allMatch(c -> c >= '0' && c <= '9');
    }

    private static Tcp tcp(String text, String host, String portPart) {
        if (host.isBlank() || host.chars().anyMatch(Character::isWhitespace)) {
            throw new IllegalArgumentException("\"" + text + "\" names no host");
        }
        if (portPart.isEmpty()) {
            return new Tcp(host, LinkLimits.DEFAULT_PORT);
        }
        int port;
        try {
            port = portPart.startsWith(":") ? Integer.parseInt(portPart.substring(1)) : -1;
        } catch (NumberFormatException e) {
            port = -1;
        }
        if (port < 1 || port > 0xFFFF) {
            throw new IllegalArgumentException(
                    "\"" + text + "\" has no TCP port from 1 to 65535 behind its colon; expected HOST:PORT");
        }
        return new Tcp(host, port);
    }

    /**
     * Opens a link.
     *
     * @param program name and version, told to the logger
     * @param key to prove, where the logger asks for it
     * @throws IOException where no logger is reached, and why
     */
    default LinkClient open(String program, Optional<LinkKey> key) throws IOException {
        if (this instanceof Serial serial) {
            return LinkClient.open(SerialWire.open(serial.port(), serial.baud()), program, key, false);
        }
        Tcp tcp = (Tcp) this;
        TcpWire wire;
        try {
            wire = TcpWire.connect(tcp.host(), tcp.port(), CONNECT_MS);
        } catch (IOException e) {
            throw new LinkException(LinkException.CLOSED, e.getMessage() + hint(tcp.host()), e);
        }
        return LinkClient.open(wire, program, key, !wire.isLoopback());
    }

    /** Somebody who types {@code ttyACM0} means a port. */
    private static String hint(String host) {
        Path device = Path.of("/dev").resolve(host);
        return Files.exists(device) ? "; is the serial port " + device + " meant?" : "";
    }
}
