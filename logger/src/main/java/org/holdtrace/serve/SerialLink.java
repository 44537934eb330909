package org.holdtrace.serve;

import java.io.IOException;

/**
 * Serves a serial port for as long as the logger runs: opens it, serves it until it fails or its reader has stalled, and
 * opens it again. A port that is not there is waited for; a USB cable is pulled and put in as people like.
 */
public final class SerialLink implements AutoCloseable {
    private static final long BEFORE_NEXT_TRY_MS = 1000;

    private final LinkServer server;
    private final String path;
    private final int baud;
    private final Thread keeper;
    private volatile boolean closed;
    private volatile SerialWire wire;

    /**
     * Begins to serve.
     *
     * @param path such as {@code /dev/ttyGS0}
     * @param baud bits a second; meaningless on a USB gadget
     */
    public SerialLink(LinkServer server, String path, int baud) {
        this.server = server;
        this.path = path;
        this.baud = baud;
        keeper = new Thread(this::keep, "link-serial " + path);
        keeper.setDaemon(true);
        keeper.start();
    }

    /** Whether the port is open now. */
    public boolean isOpen() {
        return wire != null;
    }

    private void keep() {
        String told = "";
        while (!closed) {
            try {
                SerialWire opened = SerialWire.open(path, baud);
                told = "";
                wire = opened;
                if (closed) {
                    opened.close();
                }
                server.serveStanding(opened);
            } catch (IOException e) {
                if (!told.equals(e.getMessage())) {
                    told = e.getMessage();
                    server.note(told + "; tried again each second"); // once, not each second
                }
            } catch (InterruptedException e) {
                return;
            } finally {
                wire = null;
            }
            try {
                Thread.sleep(BEFORE_NEXT_TRY_MS);
            } catch (InterruptedException e) {
                return;
            }
        }
    }

    @Override
    public void close() {
        closed = true;
        SerialWire open = wire;
        if (open != null) {
            open.close();
        }
        keeper.interrupt();
    }
}
