package org.holdtrace.serve;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Optional;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.TcpWire;

/** Listens on TCP and hands each connection to a server. */
public final class TcpPort implements AutoCloseable {
    /** Clients at a time; one more is told that it is one too many. */
    public static final int MOST_CLIENTS = 4;

    /** So many are told so at a time; more are closed without a word. */
    private static final int MOST_TURNED_AWAY = 4;

    private static final long AFTER_FAILURE_MS = 500;
    private static final long TO_STOP_MS = 2000;

    private final ServerSocket socket;
    private final Optional<LinkKey> key;
    private final Thread acceptor;
    private LinkServer server;

    private TcpPort(ServerSocket socket, Optional<LinkKey> key) {
        this.socket = socket;
        this.key = key;
        acceptor = new Thread(this::accept, "link-tcp");
        acceptor.setDaemon(true);
    }

    /**
     * Takes a port. Whoever connects waits until {@link #serve} is called.
     *
     * @param address where; the loopback address unless somebody else's computer shall reach the logger
     * @param port 1 to 65535, or 0 for any that is free
     * @param key needed where the address is not a loopback one
     * @throws IOException where the port cannot be had, or it could be reached from outside without a key
     */
    public static TcpPort take(InetAddress address, int port, Optional<LinkKey> key) throws IOException {
        if (!address.isLoopbackAddress() && key.isEmpty()) {
            throw new IOException("listening on " + address.getHostAddress() + ", which other computers can reach,"
                    + " needs a key that clients must have; without one a logger listens on the loopback address only");
        }
        try {
            return new TcpPort(new ServerSocket(port, MOST_CLIENTS, address), key);
        } catch (IOException e) {
            throw new IOException(
                    "cannot listen on " + address.getHostAddress() + " port " + port + ": " + e.getMessage(), e);
        }
    }

    /** Takes a port, as {@link #take} does, and has {@code server} serve it at once. */
    public static TcpPort open(LinkServer server, InetAddress address, int port, Optional<LinkKey> key)
            throws IOException {
        TcpPort tcp = take(address, port, key);
        tcp.serve(server);
        return tcp;
    }

    /** Hands all who connect to {@code by} from now on; called once. */
    public void serve(LinkServer by) {
        server = by;
        acceptor.start();
    }

    /** The port it listens on. */
    public int port() {
        return socket.getLocalPort();
    }

    private void accept() {
        while (!socket.isClosed()) {
            try {
                hand(socket.accept());
            } catch (IOException | RuntimeException e) {
                if (!socket.isClosed() && !rest(e)) {
                    return;
                }
            }
        }
    }

    /** Out of file handles, say: trying on at once would only spin. */
    private boolean rest(Exception e) {
        server.note("link: a TCP connection failed: " + e.getMessage());
        try {
            Thread.sleep(AFTER_FAILURE_MS);
            return true;
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            return false;
        }
    }

    private void hand(Socket client) throws IOException {
        if (socket.isClosed()) {
            client.close(); // a connection that came while we stopped listening
        } else if (server.connections(Connection.Manner.ONE_CLIENT) < MOST_CLIENTS) {
            server.serve(new TcpWire(client), key);
        } else if (server.connections(Connection.Manner.TURNED_AWAY) < MOST_TURNED_AWAY) {
            server.turnAway(new TcpWire(client));
        } else {
            client.close();
        }
    }

    /** Listens no more; connections that stand are the server's to close. */
    @Override
    public void close() {
        try {
            socket.close();
        } catch (IOException e) {
            // It listens no more, which is what was wanted.
        }
        try {
            acceptor.join(TO_STOP_MS); // until then the system still takes connections
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
