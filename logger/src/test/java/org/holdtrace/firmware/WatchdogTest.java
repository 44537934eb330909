package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.sun.jna.Library;
import com.sun.jna.Native;
import com.sun.jna.NativeLong;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** Against a real socket, as the service manager has one. Messages: sd_notify(3). */
@EnabledOnOs(OS.LINUX)
class WatchdogTest {
    interface Receiver extends Library {
        int socket(int domain, int type, int protocol);

        int bind(int socket, byte[] address, int length);

        NativeLong recv(int socket, byte[] into, NativeLong length, int flags);

        int close(int file);
    }

    private static final int DONT_WAIT = 0x40;
    private static final Receiver C = Native.load("c", Receiver.class);

    private static String next(int socket) {
        byte[] bytes = new byte[100];
        int length =
                C.recv(socket, bytes, new NativeLong(bytes.length), DONT_WAIT).intValue();
        return length < 0 ? "nothing" : new String(bytes, 0, length, StandardCharsets.UTF_8);
    }

    private static void hears(String path) throws InterruptedException {
        int socket = C.socket(1, 2, 0);
        byte[] address = Watchdog.address(path);
        assertEquals(0, C.bind(socket, address, address.length), path);
        try (Watchdog watchdog = Watchdog.of(path, "400000")) {
            watchdog.ready();
            assertEquals("READY=1", next(socket));
            watchdog.alive();
            watchdog.alive();
            assertEquals("WATCHDOG=1", next(socket));
            assertEquals("nothing", next(socket), "a quarter of its time has not passed");
            Thread.sleep(110);
            watchdog.alive();
            assertEquals("WATCHDOG=1", next(socket));
        }
        assertEquals("STOPPING=1", next(socket));
        C.close(socket);
    }

    @Test
    void theServiceManagerHearsThatTheLoggerLives(@TempDir Path folder) throws InterruptedException {
        hears(folder.resolve("notify").toString());
    }

    @Test
    void aSocketWithoutAFileIsSpokenToAsWell() throws InterruptedException {
        hears("@holdtrace-test-" + ProcessHandle.current().pid());
    }

    @Test
    void withoutAServiceManagerNothingHappens() {
        try (Watchdog watchdog = Watchdog.of(null, null)) {
            watchdog.ready();
            watchdog.alive();
        }
    }

    @Test
    void nobodyAtTheSocketIsNoError(@TempDir Path folder) {
        try (Watchdog watchdog = Watchdog.of(folder.resolve("gone").toString(), "nonsense")) {
            watchdog.ready();
            watchdog.alive();
        }
    }
}
