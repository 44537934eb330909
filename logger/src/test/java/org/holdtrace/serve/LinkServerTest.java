package org.holdtrace.serve;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CopyOnWriteArrayList;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.Reply;
import org.holdtrace.link.Status;
import org.holdtrace.link.StoredFile;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Both ends of a link, joined by a pipe in memory. */
@Timeout(60)
class LinkServerTest {
    @TempDir
    Path folder;

    private Served served;

    @BeforeEach
    void serve() {
        served = new Served(folder);
    }

    @AfterEach
    void end() {
        served.close();
    }

    private static class Heard implements LinkClient.Listener {
        private final List<LinkMessage> live = new CopyOnWriteArrayList<>();
        private volatile LinkException ended;

        @Override
        public void live(LinkMessage message) {
            live.add(message);
        }

        @Override
        public void ended(LinkException why) {
            ended = why;
        }

        private <T extends LinkMessage> List<T> of(Class<T> kind) {
            return live.stream().filter(kind::isInstance).map(kind::cast).toList();
        }
    }

    @Test
    void theStateTravelsWhole() throws IOException {
        try (LinkClient client = served.client()) {
            assertEquals("Invented logger 7", client.welcome().instrument());
            assertEquals("Holdtrace logger test", client.welcome().program());
            Status status = client.state();
            assertEquals(5_000_000_000L, status.timeNs());
            assertEquals(120e5, status.pressurePa());
            assertEquals(Optional.of(Phase.HOLD), status.phase());
            assertEquals(12, status.strokes());
            assertEquals(1.3e-7, status.leakM3PerS());
            assertTrue(Double.isNaN(status.leakUncertaintyM3PerS()));
            assertEquals("holding, wait", status.advice());
            assertEquals(List.of("input.wire: the sensor's wire is broken"), status.faults());
            assertEquals(7_000_000L, status.freeBytes());
            assertEquals(Optional.empty(), status.session());
        }
    }

    @Test
    void whatIsAskedOfTheLoggerIsDone() throws IOException {
        try (LinkClient client = served.client()) {
            assertEquals("2026-001.hold", client.start());
            assertEquals(Optional.of("2026-001.hold"), client.state().session());
            client.ask(new Ask.Stop());
            TestSetup plan = TestSetup.unknown().withLineCompliance(new Quantity(9e-14, 5e-15));
            client.ask(new Ask.Plan(plan));
            assertEquals(plan, served.logger.plan());
            client.ask(new Ask.Clock(Instant.parse("2026-03-01T12:00:00Z")));
            served.logger.pressurePa(0);
            client.ask(new Ask.Zero());
            client.ask(new Ask.Ping());
            assertEquals(List.of("start", "stop", "plan", "clock 2026-03-01T12:00:00Z", "zero"), served.logger.done());
        }
    }

    @Test
    void whatTheLoggerRefusesIsToldInItsWords() throws IOException {
        try (LinkClient client = served.client()) {
            LinkException refused = assertThrows(LinkException.class, () -> client.ask(new Ask.Zero()));
            assertEquals(LinkException.REFUSED, refused.code());
            assertTrue(refused.getMessage().contains("the line is not at rest: 120 bar"), refused.getMessage());
            assertEquals(12, client.state().strokes(), "the link lives on");
        }
    }

    @Test
    void aLongListComesWhole() throws IOException {
        for (int i = 0; i < 300; i++) {
            served.logger.record(String.format(Locale.ROOT, "2026-%03d.hold", i), new byte[i]);
        }
        try (LinkClient client = served.client()) {
            List<StoredFile> files = client.sessions();
            assertEquals(300, files.size());
            assertEquals(new StoredFile("2026-299.hold", 299, false), files.get(299));
        }
    }

    @Test
    void aFileIsFetchedInPiecesAndItsDigestAgrees() throws Exception {
        byte[] whole = new byte[100_000];
        new Random(3).nextBytes(whole);
        served.logger.record("a.hold", whole);
        try (LinkClient client = served.client()) {
            ByteArrayOutputStream copy = new ByteArrayOutputStream();
            for (int at = 0; at < whole.length; at += LinkLimits.LONGEST_CHUNK) {
                Reply.Chunk chunk = (Reply.Chunk) client.ask(new Ask.Fetch("a.hold", at, LinkLimits.LONGEST_CHUNK));
                assertEquals(at, chunk.offset());
                copy.write(chunk.bytes());
            }
            assertArrayEquals(whole, copy.toByteArray());
            Reply.Digest digest = client.digest("a.hold", 10, LinkLimits.LONGEST_DIGEST);
            assertEquals(whole.length - 10, digest.length());
            assertArrayEquals(
                    MessageDigest.getInstance("SHA-256").digest(Arrays.copyOfRange(whole, 10, whole.length)),
                    digest.sha256());
            assertEquals(0, ((Reply.Chunk) client.ask(new Ask.Fetch("a.hold", 100_000, 5))).bytes().length);
        }
    }

    @Test
    void aNameThatLeadsOutOfTheFolderIsNoSession() throws IOException {
        try (LinkClient client = served.client()) {
            for (String name : List.of("../a.hold", "/etc/passwd", "a/b.hold", "nowhere.hold", ".hold", "..hold")) {
                LinkException no = assertThrows(LinkException.class, () -> client.ask(new Ask.Fetch(name, 0, 10)));
                assertEquals(LinkException.NO_SESSION, no.code(), name);
            }
        }
    }

    @Test
    void whoFollowsHearsHeaderSamplesEventsAndStates() throws Exception {
        try (LinkClient client = served.client()) {
            Heard heard = new Heard();
            client.listen(heard);
            client.ask(new Ask.Follow(true, 100));
            served.logger.samples(new long[] {10, 4_000_010, 8_000_013}, new int[] {5000, -3, 70_000});
            served.logger.event(new SessionEvent.StrokeMark(7, 9));
            Served.eventually(
                    "event", () -> !heard.of(LinkMessage.LiveEvent.class).isEmpty());
            Served.eventually(
                    "states", () -> heard.of(LinkMessage.LiveStatus.class).size() > 2);
            assertEquals(1, heard.of(LinkMessage.LiveHeader.class).size(), "once, as nothing in it changed");
            LinkMessage.LiveSamples samples =
                    heard.of(LinkMessage.LiveSamples.class).get(0);
            assertArrayEquals(
                    new long[] {10, 4_000_010, 8_000_013}, samples.block().timesNs());
            assertArrayEquals(new long[] {5000, -3, 70_000}, samples.block().counts());
            assertEquals(
                    new SessionEvent.StrokeMark(7, 9),
                    heard.of(LinkMessage.LiveEvent.class).get(0).event());
            client.ask(new Ask.Unfollow());
            assertEquals(0, served.logger.listeners());
        }
        Served.eventually("closed", () -> served.server.connections() == 0);
    }

    @Test
    void whoFollowsIsToldThatTheLinkHasEnded() throws Exception {
        try (LinkClient client = served.client()) {
            Heard heard = new Heard();
            client.listen(heard);
            client.ask(new Ask.Follow(false, 100));
            served.server.close();
            Served.eventually("told", () -> heard.ended != null);
            assertEquals(LinkException.CLOSED, heard.ended.code());
            assertThrows(LinkException.class, client::state);
        }
    }

    @Test
    void aReaderThatStopsCostsOldLiveDataOnlyAndIsToldHowMuch() throws Exception {
        try (LinkClient client = served.client()) {
            Object gate = new Object();
            Heard heard = new Heard() {
                @Override
                public void live(LinkMessage message) {
                    synchronized (gate) {
                        super.live(message);
                    }
                }
            };
            client.listen(heard);
            client.ask(new Ask.Follow(true, 100));
            int sent = 0;
            synchronized (gate) { // the client does not read any more
                long worstNs = 0;
                for (int block = 0; block < 600; block++) {
                    long[] times = new long[200];
                    int[] counts = new int[200];
                    for (int i = 0; i < times.length; i++) {
                        times[i] = sent * 1_000_000L;
                        counts[i] = sent++;
                    }
                    long beforeNs = System.nanoTime();
                    served.logger.samples(times, counts);
                    worstNs = Math.max(worstNs, System.nanoTime() - beforeNs);
                    if (block % 10 == 9) {
                        Thread.sleep(2); // the server begins to send while more is being dropped
                    }
                }
                assertTrue(worstNs < 500_000_000, "whoever samples was kept for " + worstNs / 1e6 + " ms");
            }
            int all = sent;
            Served.eventually("the last sample", () -> lastCount(heard) == all - 1);
            // What was dropped while a block of samples was on its way is told behind it.
            Served.eventually("an account of all samples", () -> got(heard) + dropped(heard) >= all);
            assertTrue(dropped(heard) > 0, "nothing was dropped");
            assertEquals(all, got(heard) + dropped(heard), "what is neither sent nor told");
        }
    }

    private static long got(Heard heard) {
        return heard.of(LinkMessage.LiveSamples.class).stream()
                .mapToLong(block -> block.block().size())
                .sum();
    }

    private static long dropped(Heard heard) {
        return heard.of(LinkMessage.Dropped.class).stream()
                .mapToLong(LinkMessage.Dropped::samples)
                .sum();
    }

    private static long lastCount(Heard heard) {
        List<LinkMessage.LiveSamples> blocks = heard.of(LinkMessage.LiveSamples.class);
        if (blocks.isEmpty()) {
            return -1;
        }
        long[] counts = blocks.get(blocks.size() - 1).block().counts();
        return counts[counts.length - 1];
    }

    @Test
    void requestsUnderWayAreAnsweredInOrderWhileFollowing() throws IOException {
        byte[] whole = new byte[60_000];
        new Random(5).nextBytes(whole);
        served.logger.record("b.hold", whole);
        try (LinkClient client = served.client()) {
            client.ask(new Ask.Follow(true, 100));
            List<CompletableFuture<Reply>> answers = new ArrayList<>();
            for (int i = 0; i < LinkLimits.MOST_REQUESTS; i++) {
                answers.add(client.askLater(new Ask.Fetch("b.hold", i * 7000L, 7000)));
            }
            for (int i = 0; i < answers.size(); i++) {
                Reply.Chunk chunk = (Reply.Chunk) client.await(answers.get(i));
                assertArrayEquals(
                        Arrays.copyOfRange(whole, i * 7000, Math.min(60_000, i * 7000 + 7000)), chunk.bytes());
            }
        }
    }

    @Test
    void aBadLineCostsTimeButNothingElse() throws IOException {
        byte[] whole = new byte[40_000];
        new Random(9).nextBytes(whole);
        served.logger.record("c.hold", whole);
        PipeWire wire = served.wire(Optional.empty());
        try (LinkClient client = LinkClient.open(wire, "test", Optional.empty(), false)) {
            wire.spoilIncoming(number -> number % 9973 == 9972 ? 0x20 : 0); // about one frame in twenty
            ByteArrayOutputStream copy = new ByteArrayOutputStream();
            for (int at = 0; at < whole.length; at += 500) {
                CompletableFuture<Reply> chunk = client.askLater(new Ask.Fetch("c.hold", at, 500));
                CompletableFuture<Reply> ping = client.askLater(new Ask.Ping());
                copy.write(((Reply.Chunk) client.await(chunk)).bytes());
                client.await(ping);
            }
            assertArrayEquals(whole, copy.toByteArray());
            assertTrue(client.lostOnTheWay() > 0, "the line was not bad at all");
        }
    }

    @Test
    void onlyWhoHasTheKeyGetsInAndTheKeyIsNeverOnTheWire() throws IOException {
        LinkKey key = LinkKey.of("a secret of our own making".getBytes(StandardCharsets.UTF_8));
        try (LinkClient client = LinkClient.open(served.wire(Optional.of(key)), "test", Optional.of(key), true)) {
            assertEquals(12, client.state().strokes());
        }
        LinkKey other = LinkKey.of("a secret of someone else's".getBytes(StandardCharsets.UTF_8));
        LinkException wrong = assertThrows(
                LinkException.class,
                () -> LinkClient.open(served.wire(Optional.of(key)), "test", Optional.of(other), true));
        assertEquals(LinkException.KEY, wrong.code());
        LinkException none = assertThrows(
                LinkException.class,
                () -> LinkClient.open(served.wire(Optional.of(key)), "test", Optional.empty(), false));
        assertEquals(LinkException.KEY, none.code());
    }

    @Test
    void aLoggerThatAsksForNoKeyIsNotBelievedWhereOneIsInsistedOn() {
        LinkKey key = LinkKey.of(new byte[16]);
        LinkException stranger = assertThrows(
                LinkException.class,
                () -> LinkClient.open(served.wire(Optional.empty()), "test", Optional.of(key), true));
        assertEquals(LinkException.KEY, stranger.code());
    }
}
