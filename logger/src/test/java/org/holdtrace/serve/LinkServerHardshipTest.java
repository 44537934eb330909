package org.holdtrace.serve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkInput;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.LinkReader;
import org.holdtrace.link.LinkWriter;
import org.holdtrace.link.Reply;
import org.holdtrace.link.TcpWire;
import org.holdtrace.link.Versions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Strangers, dead readers, other versions. */
@Timeout(60)
class LinkServerHardshipTest {
    private static final LinkKey KEY = LinkKey.of("a secret of our own making".getBytes(StandardCharsets.UTF_8));

    @TempDir
    Path folder;

    private static void send(PipeWire wire, LinkWriter writer, LinkMessage message) throws IOException {
        ByteBuffer frame = writer.frame(message);
        byte[] bytes = new byte[frame.remaining()];
        frame.get(bytes);
        wire.out().write(bytes);
    }

    private static LinkMessage.Hello hello(Versions versions) {
        return new LinkMessage.Hello(versions, "test", new byte[16]);
    }

    /** Hears what comes until one of a kind is there. */
    private static final class Ear implements LinkInput.Handler {
        private final List<LinkMessage> heard = new ArrayList<>();

        private Ear(PipeWire wire) {
            Thread thread = new Thread(() -> {
                try {
                    new LinkInput(wire.in(), this).run();
                } catch (IOException e) {
                    // The wire has ended.
                }
            });
            thread.setDaemon(true);
            thread.start();
        }

        @Override
        public synchronized void message(LinkMessage message) {
            heard.add(message);
        }

        @Override
        public void bad(LinkReader.BadMessage bad) {
            throw new AssertionError(bad);
        }

        private synchronized <T extends LinkMessage> List<T> of(Class<T> kind) {
            return heard.stream().filter(kind::isInstance).map(kind::cast).toList();
        }
    }

    @Test
    void aNewLoggerSpeaksTheNewestVersionBothKnow() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, new Versions(1, 4))) {
            PipeWire wire = served.wire(Optional.empty());
            Ear ear = new Ear(wire);
            send(wire, new LinkWriter(), hello(new Versions(2, 3)));
            Served.eventually(
                    "welcome", () -> !ear.of(LinkMessage.Welcome.class).isEmpty());
            assertEquals(3, ear.of(LinkMessage.Welcome.class).get(0).version());
            try (LinkClient client = served.client()) {
                assertEquals(1, client.welcome().version());
                assertEquals(12, client.state().strokes());
            }
        }
    }

    @Test
    void aNewerLoggerThatNoLongerSpeaksOursSaysSoAndWhichProgramToBringUpToDate() {
        try (Served served = new Served(folder, Served.SHORT, new Versions(2, 3))) {
            LinkException e = assertThrows(LinkException.class, served::client);
            assertEquals(LinkException.VERSION, e.code());
            assertEquals(
                    "client end: the logger speaks link version 2 to 3, this program 1; bring this program up to date",
                    e.getMessage());
        }
    }

    @Test
    void anOlderLoggerThatIsAskedForANewerVersionSaysWhatItSpeaks() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS)) {
            PipeWire wire = served.wire(Optional.empty());
            Ear ear = new Ear(wire);
            LinkWriter writer = new LinkWriter();
            send(wire, writer, hello(new Versions(7, 9)));
            Served.eventually(
                    "refusal", () -> !ear.of(LinkMessage.Refused.class).isEmpty());
            LinkMessage.Refused refused = ear.of(LinkMessage.Refused.class).get(0);
            assertEquals(LinkException.VERSION, refused.code());
            assertEquals(Versions.OURS, refused.versions());
            send(wire, writer, hello(new Versions(1, 9)));
            Served.eventually(
                    "welcome", () -> !ear.of(LinkMessage.Welcome.class).isEmpty());
        }
    }

    @Test
    void whoHasNotProvenTheKeyGetsNothingAndIsClosedInTheEnd() throws Exception {
        try (Served served = new Served(folder, new LinkServer.Patience(3000, 3000, 3000, 50), Versions.OURS)) {
            PipeWire wire = served.wire(Optional.of(KEY));
            Ear ear = new Ear(wire);
            LinkWriter writer = new LinkWriter();
            send(wire, writer, new LinkMessage.Request(1, new Ask.State()));
            Served.eventually(
                    "first no", () -> ear.of(LinkMessage.Failure.class).size() == 1);
            send(wire, writer, hello(Versions.OURS));
            send(wire, writer, new LinkMessage.Request(2, new Ask.Start()));
            Served.eventually(
                    "second no", () -> ear.of(LinkMessage.Failure.class).size() == 2);
            send(wire, writer, new LinkMessage.Proof(new byte[32]));
            send(wire, writer, new LinkMessage.Request(3, new Ask.Stop()));
            Served.eventually(
                    "third no", () -> ear.of(LinkMessage.Failure.class).size() == 3);
            for (LinkMessage.Failure failure : ear.of(LinkMessage.Failure.class)) {
                assertEquals(LinkException.NOT_OPEN, failure.code());
            }
            assertEquals(
                    LinkException.KEY, ear.of(LinkMessage.Refused.class).get(0).code());
            assertEquals(List.of(), served.logger.done());
            Served.eventually("closed", () -> served.server.connections() == 0);
        }
    }

    @Test
    void aProofIsGoodForItsOwnChallengeOnly() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS)) {
            PipeWire wire = served.wire(Optional.of(KEY));
            Ear ear = new Ear(wire);
            LinkWriter writer = new LinkWriter();
            send(wire, writer, hello(Versions.OURS));
            Served.eventually(
                    "welcome", () -> !ear.of(LinkMessage.Welcome.class).isEmpty());
            byte[] challenge =
                    ear.of(LinkMessage.Welcome.class).get(0).challenge().orElseThrow();
            send(wire, writer, hello(Versions.OURS));
            send(wire, writer, new LinkMessage.Proof(KEY.clientProof(new byte[16], challenge)));
            Served.eventually(
                    "refusal", () -> !ear.of(LinkMessage.Refused.class).isEmpty());
        }
    }

    @Test
    void aClientThatFallsSilentIsForgotten() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS)) {
            PipeWire wire = served.wire(Optional.empty());
            Ear ear = new Ear(wire);
            LinkWriter writer = new LinkWriter();
            send(wire, writer, hello(Versions.OURS));
            send(wire, writer, new LinkMessage.Request(1, new Ask.Follow(true, 100)));
            Served.eventually(
                    "follows", () -> !ear.of(LinkMessage.LiveStatus.class).isEmpty());
            Served.eventually("forgotten", () -> served.server.connections() == 0 && served.logger.listeners() == 0);
        }
    }

    @Test
    void aStandingWireOutlivesItsClientsAndWhatTheyLeaveOnIt() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS)) {
            PipeWire[] ends = PipeWire.pair(Served.CAPACITY);
            Thread keeper = new Thread(() -> {
                try {
                    served.server.serveStanding(ends[1]);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            });
            keeper.start();
            LinkWriter writer = new LinkWriter();
            send(ends[0], writer, hello(Versions.OURS));
            send(ends[0], writer, new LinkMessage.Request(1, new Ask.Follow(true, 100)));
            Served.eventually("follows", () -> served.logger.listeners() == 1);
            ends[0].out().write(new byte[] {3, 7}); // a frame that was begun when the program was killed
            Served.eventually("forgotten", () -> served.logger.listeners() == 0);
            assertEquals(1, served.server.connections(), "the wire is still served");
            try (LinkClient client = LinkClient.open(ends[0], "the next", Optional.empty(), false)) {
                assertEquals(12, client.state().strokes());
            }
            keeper.join();
        }
    }

    @Test
    void aReaderThatIsDeadFreesTheWireAndNobodyWaitsForIt() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS)) {
            PipeWire wire = served.wire(Optional.empty());
            LinkWriter writer = new LinkWriter();
            send(wire, writer, hello(Versions.OURS));
            send(wire, writer, new LinkMessage.Request(1, new Ask.Follow(true, 100)));
            Served.eventually("follows", () -> served.logger.listeners() == 1);
            Thread speaks = new Thread(
                    () -> { // so that it is its not reading that ends it, and not its silence
                        try {
                            for (int i = 0; i < 10_000; i++) {
                                send(wire, writer, new LinkMessage.Request(2 + i, new Ask.Ping()));
                                Thread.sleep(20);
                            }
                        } catch (IOException | InterruptedException e) {
                            // Closed, as it should be.
                        }
                    });
            speaks.start();
            long[] times = new long[500];
            long worstNs = 0;
            while (served.server.connections() > 0) {
                long beforeNs = System.nanoTime();
                served.logger.samples(times, new int[500]);
                worstNs = Math.max(worstNs, System.nanoTime() - beforeNs);
                Thread.sleep(2);
            }
            speaks.join();
            assertTrue(served.journal.toString().contains("does not read"), served.journal.toString());
            assertEquals(0, served.logger.listeners());
            assertTrue(worstNs < 500_000_000L, "whoever samples was kept for " + worstNs / 1e6 + " ms");
        }
    }

    @Test
    void aLineOnWhichAnAnswerTakesLongerThanAnyPatienceIsNotTakenForADeadOne() throws Exception {
        byte[] whole = new byte[40_000];
        new Random(17).nextBytes(whole);
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS)) {
            served.logger.record("a.hold", whole);
            PipeWire wire = served.wire(Optional.empty());
            try (LinkClient client = LinkClient.open(wire, "test", Optional.empty(), false)) {
                wire.slowIncoming(100); // ten thousand bytes a second: 1.6 s an answer, the server's patience is 0.7 s
                List<CompletableFuture<Reply>> answers = new ArrayList<>();
                for (int at = 0; at < whole.length; at += 16_000) {
                    answers.add(client.askLater(new Ask.Fetch("a.hold", at, 16_000)));
                }
                int at = 0;
                for (CompletableFuture<Reply> answer : answers) {
                    byte[] bytes = ((Reply.Chunk) client.await(answer)).bytes();
                    assertArrayEquals(Arrays.copyOfRange(whole, at, at + bytes.length), bytes);
                    at += bytes.length;
                }
                assertEquals(whole.length, at);
            }
        }
    }

    @Test
    void junkCostsNothingButItself() throws Exception {
        try (Served served = new Served(folder)) {
            PipeWire wire = served.wire(Optional.empty());
            Random random = new Random(11);
            byte[] junk = new byte[300_000];
            random.nextBytes(junk);
            wire.out().write(junk);
            try (LinkClient client = LinkClient.open(wire, "test", Optional.empty(), false)) {
                assertEquals(12, client.state().strokes());
            }
        }
    }

    @Test
    void tcpListensBeyondLoopbackWithAKeyOnly() throws Exception {
        try (Served served = new Served(folder)) {
            InetAddress everywhere = new InetSocketAddress("0.0.0.0", 0).getAddress();
            IOException e =
                    assertThrows(IOException.class, () -> TcpPort.open(served.server, everywhere, 0, Optional.empty()));
            assertTrue(e.getMessage().contains("needs a key"), e.getMessage());
            try (TcpPort tcp = TcpPort.open(served.server, everywhere, 0, Optional.of(KEY));
                    LinkClient client = LinkClient.open(
                            TcpWire.connect("127.0.0.1", tcp.port(), 5000), "test", Optional.of(KEY), true)) {
                assertEquals(12, client.state().strokes());
            }
        }
    }

    @Test
    void oneClientTooManyIsToldSoAndTheOthersStay() throws Exception {
        List<LinkClient> clients = new ArrayList<>();
        try (Served served = new Served(folder);
                TcpPort tcp = TcpPort.open(served.server, InetAddress.getLoopbackAddress(), 0, Optional.empty())) {
            for (int i = 0; i < TcpPort.MOST_CLIENTS; i++) {
                clients.add(LinkClient.open(
                        TcpWire.connect("127.0.0.1", tcp.port(), 5000), "test", Optional.empty(), false));
            }
            LinkException busy = assertThrows(
                    LinkException.class,
                    () -> LinkClient.open(
                            TcpWire.connect("127.0.0.1", tcp.port(), 5000), "test", Optional.empty(), false));
            assertEquals(LinkException.BUSY, busy.code());
            for (LinkClient client : clients) {
                assertEquals(12, client.state().strokes());
            }
            clients.get(0).close();
            Served.eventually("one has gone", () -> served.server.connections(Connection.Manner.ONE_CLIENT) == 3);
            try (LinkClient next =
                    LinkClient.open(TcpWire.connect("127.0.0.1", tcp.port(), 5000), "test", Optional.empty(), false)) {
                assertEquals(12, next.state().strokes());
            }
        } finally {
            clients.forEach(LinkClient::close);
        }
    }

    @Test
    void connectionsThatNeverSayAnythingAreClosed() throws Exception {
        try (Served served = new Served(folder, Served.SHORT, Versions.OURS);
                TcpPort tcp = TcpPort.open(served.server, InetAddress.getLoopbackAddress(), 0, Optional.empty())) {
            List<Socket> silent = new ArrayList<>();
            for (int i = 0; i < 20; i++) {
                silent.add(new Socket(InetAddress.getLoopbackAddress(), tcp.port()));
            }
            // On a busy machine some of them may be accepted only when others have been closed already.
            Served.eventually("a program that speaks gets through", () -> isServed(tcp.port()));
            Served.eventually("all closed", () -> served.server.connections() == 0);
            for (Socket socket : silent) {
                socket.close();
            }
        }
    }

    private static boolean isServed(int port) {
        try (LinkClient client =
                LinkClient.open(TcpWire.connect("127.0.0.1", port, 5000), "test", Optional.empty(), false)) {
            return client.state().strokes() == 12;
        } catch (IOException e) {
            return false;
        }
    }
}
