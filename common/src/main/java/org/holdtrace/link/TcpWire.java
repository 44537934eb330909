package org.holdtrace.link;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.UnknownHostException;

/** A wire over TCP. */
public final class TcpWire implements Wire {
    private final Socket socket;
    private final InputStream in;
    private final OutputStream out;

    /** Takes over a socket that is connected. */
    public TcpWire(Socket socket) throws IOException {
        this.socket = socket;
        socket.setTcpNoDelay(true); // short messages that a person waits for
        in = socket.getInputStream();
        out = socket.getOutputStream();
    }

    /**
     * Connects.
     *
     * @param connectMs longest wait for an answer, ms
     * @throws IOException where there is no such host or nobody listens there; the message says which
     */
    public static TcpWire connect(String host, int port, int connectMs) throws IOException {
        InetSocketAddress address = new InetSocketAddress(host, port);
        if (address.isUnresolved()) {
            throw new UnknownHostException("there is no host \"" + host + "\"");
        }
        Socket socket = new Socket();
        try {
            socket.connect(address, connectMs);
            return new TcpWire(socket);
        } catch (IOException e) {
            socket.close();
            throw new IOException("nobody answers at " + host + " port " + port + " (" + e.getMessage() + ")", e);
        }
    }

    /** Whether the other end is this very machine. */
    public boolean isLoopback() {
        return socket.getInetAddress() != null && socket.getInetAddress().isLoopbackAddress();
    }

    @Override
    public String name() {
        return socket.getInetAddress().getHostAddress() + ":" + socket.getPort();
    }

    @Override
    public InputStream in() {
        return in;
    }

    @Override
    public OutputStream out() {
        return out;
    }

    @Override
    public void close() throws IOException {
        socket.close();
    }
}
