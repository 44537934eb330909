package org.holdtrace.serve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.Reply;
import org.holdtrace.link.Versions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The serial port for real: two pseudo-terminals that the program socat joins like a cable. Skipped where it is not installed. */
@Timeout(60)
class SerialLinkTest {
    @TempDir
    Path folder;

    @TempDir
    Path sessions;

    @BeforeAll
    static void socatIsInstalled() {
        boolean installed;
        try {
            installed = new ProcessBuilder("socat", "-V")
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .redirectError(ProcessBuilder.Redirect.DISCARD)
                            .start()
                            .waitFor()
                    == 0;
        } catch (IOException e) {
            installed = false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            installed = false;
        }
        assumeTrue(installed, "skipped: socat, which joins two pseudo-terminals, is not installed");
    }

    /** A cable between two serial ports. */
    private final class Cable implements AutoCloseable {
        private final Path loggerEnd = folder.resolve("logger");
        private final Path clientEnd = folder.resolve("client");
        private Process socat;

        private Cable() throws Exception {
            plug();
        }

        private void plug() throws Exception {
            socat = new ProcessBuilder("socat", "pty,raw,echo=0,link=" + loggerEnd, "pty,raw,echo=0,link=" + clientEnd)
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
            Served.eventually("pseudo-terminals", () -> Files.exists(loggerEnd) && Files.exists(clientEnd));
        }

        private void pull() {
            socat.destroy();
            socat.onExit().orTimeout(10, TimeUnit.SECONDS).join();
        }

        @Override
        public void close() {
            pull();
        }
    }

    private static LinkClient open(Cable cable) throws IOException {
        return LinkClient.open(
                SerialWire.open(cable.clientEnd.toString(), LinkLimits.USUAL_BAUD), "test", Optional.empty(), false);
    }

    @Test
    void aSessionIsFetchedOverASerialPortAlsoAfterTheCableWasPulled() throws Exception {
        byte[] whole = new byte[600_000];
        new Random(13).nextBytes(whole);
        try (Served served = new Served(sessions);
                Cable cable = new Cable();
                SerialLink link = new SerialLink(served.server, cable.loggerEnd.toString(), LinkLimits.USUAL_BAUD)) {
            served.logger.record("a.hold", whole);
            ByteArrayOutputStream copy = new ByteArrayOutputStream();
            try (LinkClient client = open(cable)) {
                assertEquals("Invented logger 7", client.welcome().instrument());
                copy(client, copy, 300_000);
                assertEquals(0, client.lostOnTheWay());
            }
            cable.pull();
            Served.eventually("the logger noticed", () -> !link.isOpen());
            cable.plug();
            Served.eventually("opened again", link::isOpen);
            try (LinkClient client = open(cable)) {
                copy(client, copy, whole.length);
            }
            assertArrayEquals(whole, copy.toByteArray());
        }
    }

    private static void copy(LinkClient client, ByteArrayOutputStream into, int upTo) throws IOException {
        while (into.size() < upTo) {
            Reply reply = client.ask(new Ask.Fetch("a.hold", into.size(), LinkLimits.LONGEST_CHUNK));
            into.write(((Reply.Chunk) reply).bytes());
        }
    }

    @Test
    void aProgramThatIsKilledLeavesThePortFitForTheNext() throws Exception {
        try (Served served = new Served(sessions, new LinkServer.Patience(600, 900, 700, 50), Versions.OURS);
                Cable cable = new Cable();
                SerialLink link = new SerialLink(served.server, cable.loggerEnd.toString(), LinkLimits.USUAL_BAUD)) {
            Served.eventually("open", link::isOpen);
            SerialWire wire = SerialWire.open(cable.clientEnd.toString(), LinkLimits.USUAL_BAUD);
            LinkClient killed = LinkClient.open(wire, "killed", Optional.empty(), false);
            killed.ask(new Ask.Follow(true, 100));
            wire.close(); // no farewell, and what the logger still sends stays on the line
            for (int i = 0; i < 50; i++) {
                served.logger.samples(new long[500], new int[500]);
                Thread.sleep(10);
            }
            Served.eventually("open", link::isOpen);
            try (LinkClient next = open(cable)) {
                assertEquals(12, next.state().strokes());
            }
            Served.eventually("nobody follows", () -> served.logger.listeners() == 0);
        }
    }

    @Test
    void aPortThatIsNotThereIsWaitedForAndToldOnce() throws Exception {
        try (Served served = new Served(sessions);
                SerialLink link =
                        new SerialLink(served.server, folder.resolve("nowhere").toString(), 9600)) {
            Served.eventually("told", () -> !served.journal.isEmpty());
            Thread.sleep(1200);
            assertTrue(!link.isOpen());
            assertEquals(1, served.journal.size(), served.journal.toString());
            assertTrue(served.journal.get(0).contains("there is no such port"), served.journal.toString());
        }
    }
}
