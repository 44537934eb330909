package org.holdtrace.firmware;

import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Tells the service manager that the logger is at work: its watchdog starts the logger anew where that does not come. The
 * protocol is one datagram for each message to the socket named in the environment (sd_notify(3)). Java 17 knows no such
 * sockets, so the C library is called. Does nothing where no service manager asks for it.
 */
final class Watchdog implements AutoCloseable {
    private static final int AF_UNIX = 1;
    private static final int SOCK_DGRAM_CLOEXEC = 2 | 0x80000;
    private static final int MSG_DONTWAIT_NOSIGNAL = 0x40 | 0x4000;
    /** Length of the path in a socket address on Linux. */
    private static final int LONGEST_PATH = 108;

    private static final int NOT_OPEN = -1;
    private static final long USUAL_NS = 2_000_000_000;

    /** The few calls needed. */
    interface LibC extends Library {
        int socket(int domain, int type, int protocol);

        NativeLong sendto(int socket, byte[] bytes, NativeLong length, int flags, byte[] address, int addressLength);

        int close(int file);
    }

    private final LibC c;
    private final int socket;
    private final byte[] address;
    private final long everyNs;
    private long toldNs;
    private boolean told;

    private Watchdog(LibC c, int socket, byte[] address, long everyNs) {
        this.c = c;
        this.socket = socket;
        this.address = address;
        this.everyNs = everyNs;
    }

    /** The one this process was started under; one that does nothing where there is none. */
    static Watchdog ofSystemd() {
        return of(System.getenv("NOTIFY_SOCKET"), System.getenv("WATCHDOG_USEC"));
    }

    /**
     * The one at {@code path}.
     *
     * @param path of its socket, with {@code @} in front for one without a file; null for none
     * @param microseconds after which it strikes, as text; null where it never does
     */
    static Watchdog of(String path, String microseconds) {
        if (path == null || path.isEmpty()) {
            return new Watchdog(null, NOT_OPEN, new byte[0], USUAL_NS);
        }
        try {
            LibC c = Native.load("c", LibC.class);
            int socket = c.socket(AF_UNIX, SOCK_DGRAM_CLOEXEC, 0);
            return new Watchdog(c, socket, address(path), everyNs(microseconds));
        } catch (LinkageError e) {
            // Better a logger without a watchdog than none.
            return new Watchdog(null, NOT_OPEN, new byte[0], USUAL_NS);
        }
    }

    /** A quarter of the time after which it strikes: three may be lost. */
    private static long everyNs(String microseconds) {
        try {
            return microseconds == null ? USUAL_NS : Math.max(1, Long.parseLong(microseconds) * 1000 / 4);
        } catch (NumberFormatException e) {
            return USUAL_NS;
        }
    }

    /** {@code struct sockaddr_un}: the family in the computer's byte order, the path, a 0 in the place of {@code @}. */
    static byte[] address(String path) {
        byte[] name = path.getBytes(StandardCharsets.UTF_8);
        byte[] address = new byte[2 + Math.min(LONGEST_PATH, name.length)];
        boolean little = ByteOrder.nativeOrder() == ByteOrder.LITTLE_ENDIAN;
        address[little ? 0 : 1] = AF_UNIX;
        System.arraycopy(name, 0, address, 2, address.length - 2);
        if (name[0] == '@') {
            address[2] = 0;
            return address;
        }
        return Arrays.copyOf(address, address.length + 1);
    }

    /** The logger is at work: sampling, recording, reachable. */
    void ready() {
        send("READY=1");
    }

    /** All is well; may be called as often as one likes, and is told now and then. */
    void alive() {
        long now = System.nanoTime();
        if (socket != NOT_OPEN && (!told || now - toldNs >= everyNs)) {
            told = true;
            toldNs = now;
            send("WATCHDOG=1");
        }
    }

    /** The logger ends because it was told to. */
    @Override
    public void close() {
        if (socket != NOT_OPEN) {
            send("STOPPING=1");
            c.close(socket);
        }
    }

    private void send(String message) {
        if (socket == NOT_OPEN) {
            return;
        }
        byte[] bytes = message.getBytes(StandardCharsets.UTF_8);
        // What cannot be sent now is sent the next time.
        c.sendto(socket, bytes, new NativeLong(bytes.length), MSG_DONTWAIT_NOSIGNAL, address, address.length);
    }
}
