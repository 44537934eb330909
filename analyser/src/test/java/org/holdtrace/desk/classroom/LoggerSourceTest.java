package org.holdtrace.desk.classroom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.holdtrace.remote.Cable;
import org.holdtrace.remote.FolderLogger;
import org.holdtrace.remote.LoggerAddress;
import org.holdtrace.serve.LinkServer;
import org.holdtrace.serve.TcpPort;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A logger's own server behind a cable that can be pulled. */
@Timeout(120)
class LoggerSourceTest {
    @TempDir
    Path there;

    @Test
    void aPulledCableIsSaidAndWaitedFor() throws Exception {
        LinkServer server = new LinkServer(new FolderLogger(there), "Holdtrace logger test", line -> {});
        try (TcpPort tcp = TcpPort.open(server, InetAddress.getLoopbackAddress(), 0, Optional.empty());
                Cable cable = new Cable(tcp.port())) {
            LoggerAddress address = LoggerAddress.parse(cable.address(), 115_200);
            LoggerSource source = new LoggerSource("bench", () -> address.open("test", Optional.empty()));
            source.begin(() -> {});
            eventually("a first state", () -> !source.title().contains("being reached"));
            assertEquals("bench", source.lanes().get(0).name());
            cable.pull();
            eventually(
                    "that the logger has gone",
                    () -> source.title().contains("waiting for it")
                            || source.title().contains("tried again"));
            assertTrue(source.lanes().get(0).isSilent(), "nobody takes its last figure for what is so now");
            cable.mend();
            eventually(
                    "that it is back",
                    () -> !source.title().contains("waiting for it")
                            && !source.title().contains("tried again"));
            source.close();
            assertTrue(source.title().startsWith("live from bench · "), source.title());
        } finally {
            server.close();
        }
    }

    private static void eventually(String what, BooleanSupplier so) throws InterruptedException, IOException {
        long untilNs = System.nanoTime() + 30_000_000_000L;
        while (!so.getAsBoolean()) {
            if (System.nanoTime() > untilNs) {
                throw new AssertionError("after 30 s still not: " + what);
            }
            Thread.sleep(20);
        }
    }
}
