package org.holdtrace.remote;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicLong;

/** A TCP connection that can be cut, at once or after so many bytes from the logger. */
public final class Cable implements AutoCloseable {
    private final ServerSocket here = new ServerSocket(0, 8, InetAddress.getLoopbackAddress());
    private final List<Socket> ends = new CopyOnWriteArrayList<>();
    private final int there;
    private final AtomicLong cutAfterBytes = new AtomicLong(Long.MAX_VALUE);
    private volatile boolean refusing;

    /** A cable to the logger at that port. */
    public Cable(int there) throws IOException {
        this.there = there;
        start(this::accept);
    }

    /** Where to connect to. */
    public String address() {
        return "127.0.0.1:" + here.getLocalPort();
    }

    /** Cuts once, when so many bytes more have come from the logger. */
    public void cutAfter(long bytes) {
        cutAfterBytes.set(bytes);
    }

    /** Cuts now and lets nobody connect until {@link #mend}. */
    public void pull() {
        refusing = true;
        cut();
    }

    /** Puts the cable back in. */
    public void mend() {
        refusing = false;
        cutAfterBytes.set(Long.MAX_VALUE);
    }

    private void cut() {
        for (Socket end : ends) {
            quietly(end);
        }
        ends.clear();
    }

    private static void quietly(Socket socket) {
        try {
            socket.close();
        } catch (IOException e) {
            // It is gone, which is what was wanted.
        }
    }

    private static void start(Runnable work) {
        Thread thread = new Thread(work, "cable");
        thread.setDaemon(true);
        thread.start();
    }

    private void accept() {
        while (!here.isClosed()) {
            try {
                Socket client = here.accept();
                if (refusing) {
                    client.close();
                    continue;
                }
                Socket logger = new Socket(InetAddress.getLoopbackAddress(), there);
                ends.add(client);
                ends.add(logger);
                start(() -> pump(client, logger, false));
                start(() -> pump(logger, client, true));
            } catch (IOException e) {
                // The next one may do better.
            }
        }
    }

    private void pump(Socket from, Socket to, boolean counted) {
        byte[] buffer = new byte[1024];
        try {
            InputStream in = from.getInputStream();
            OutputStream out = to.getOutputStream();
            for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
                if (counted && cutAfterBytes.get() < n) {
                    out.write(buffer, 0, cutAfterBytes.intValue()); // in the middle of a frame
                    out.flush();
                    cutAfterBytes.set(Long.MAX_VALUE);
                    cut();
                    return;
                }
                if (counted && cutAfterBytes.get() != Long.MAX_VALUE) {
                    cutAfterBytes.addAndGet(-n);
                }
                out.write(buffer, 0, n);
            }
        } catch (IOException e) {
            // One end has gone; the other shall follow.
        }
        quietly(from);
        quietly(to);
    }

    @Override
    public void close() throws IOException {
        here.close();
        cut();
    }
}
