package org.holdtrace.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.remote.Cable;
import org.holdtrace.remote.FolderLogger;
import org.holdtrace.serve.LinkServer;
import org.holdtrace.serve.TcpPort;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;
import org.holdtrace.session.ChannelKind;
import org.holdtrace.session.HoldFileWriter;
import org.holdtrace.session.SessionHeader;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** {@code live} and {@code fetch} against a logger's own server, over TCP through a cable that can be pulled. */
@Timeout(120)
class LinkCommandsTest {
    @TempDir
    Path there;

    @TempDir
    Path here;

    private FolderLogger logger;
    private LinkServer server;
    private TcpPort tcp;
    private Cable cable;

    @BeforeEach
    void serve() throws IOException {
        logger = new FolderLogger(there);
        server = new LinkServer(logger, "Holdtrace logger test", line -> {});
        tcp = TcpPort.open(server, InetAddress.getLoopbackAddress(), 0, Optional.empty());
        cable = new Cable(tcp.port());
    }

    @AfterEach
    void end() throws IOException {
        cable.close();
        tcp.close();
        server.close();
    }

    private record Ended(int code, String out, String err) {}

    private Ended call(Command command, boolean terminal, Object... words) {
        return call(new ByteArrayOutputStream(), command, terminal, words);
    }

    private static Ended call(ByteArrayOutputStream out, Command command, boolean terminal, Object... words) {
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code;
        try (PrintStream outStream = new PrintStream(out, true, StandardCharsets.UTF_8);
                PrintStream errStream = new PrintStream(err, true, StandardCharsets.UTF_8)) {
            List<String> texts = new ArrayList<>();
            for (Object word : words) {
                texts.add(word.toString());
            }
            code = command.run(
                    Arguments.parse(texts, command.options()), new Streams(outStream, errStream, terminal, terminal));
        } catch (UsageException e) {
            return new Ended(ExitCode.WRONG_CALL, "", e.getMessage());
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        String nl = System.lineSeparator();
        return new Ended(
                code,
                out.toString(StandardCharsets.UTF_8).replace(nl, "\n"),
                err.toString(StandardCharsets.UTF_8).replace(nl, "\n"));
    }

    private Ended fetch() {
        return call(new FetchCommand(50), false, cable.address(), "--out", here);
    }

    /** A session of so many samples; nothing in it was ever measured. */
    private byte[] session(String name, int samples, boolean ended) throws IOException {
        Calibration calibration =
                Calibration.line(1e-4, new Calibration.Point(0.5, 0), new Calibration.Point(4.5, 250e5));
        SessionHeader header = new SessionHeader(
                "Invented logger 7",
                "test",
                Optional.empty(),
                true,
                List.of(new Channel(0, ChannelKind.PRESSURE, "port", 250, calibration)),
                TestSetup.unknown());
        Path file = there.resolve(name);
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(Files.newOutputStream(file)), header)) {
            long[] timeNs = new long[samples];
            int[] counts = new int[samples];
            for (int i = 0; i < samples; i++) {
                timeNs[i] = i * 4_000_000L;
                counts[i] = 5000 + (i * 7919) % 251;
            }
            for (int at = 0; at < samples; at += 250) {
                writer.samples(0, timeNs, counts, at, Math.min(samples, at + 250));
            }
            if (ended) {
                writer.end("a test");
            }
        }
        return Files.readAllBytes(file);
    }

    @Test
    void everySessionIsCopiedOnceAndSkippedTheSecondTime() throws IOException {
        byte[] a = session("2026-03-01-0001.hold", 1000, true);
        byte[] b = session("2026-03-01-0002.hold", 200_000, true);
        Ended first = fetch();
        assertEquals(0, first.code(), first.err());
        assertEquals("", first.err());
        assertArrayEquals(a, Files.readAllBytes(here.resolve("2026-03-01-0001.hold")));
        assertArrayEquals(b, Files.readAllBytes(here.resolve("2026-03-01-0002.hold")));
        assertTrue(first.out().contains("2 sessions on the logger: 2 copied, 0 here already\n"), first.out());
        Ended second = fetch();
        assertEquals(0, second.code(), second.err());
        assertTrue(second.out().contains("2 sessions on the logger: 0 copied, 2 here already\n"), second.out());
    }

    @Test
    void aCableThatIsCutMidFetchCostsNothingThatHadCome() throws IOException {
        byte[] whole = session("long.hold", 200_000, true);
        cable.cutAfter(whole.length / 2);
        Ended once = fetch();
        assertEquals(0, once.code(), once.err());
        assertTrue(once.err().contains("trying again"), once.err());
        assertTrue(once.out().contains("completed and compared"), once.out());
        assertArrayEquals(whole, Files.readAllBytes(here.resolve("long.hold")));
        assertFalse(Files.exists(here.resolve("long.hold.part")));
    }

    @Test
    void aCableThatStaysOutEndsInExit1AndTheNextFetchGoesOn() throws IOException {
        byte[] whole = session("long.hold", 200_000, true);
        byte[] part = Arrays.copyOf(whole, whole.length / 3);
        part[part.length - 1] ^= 1; // what came last was not all on the disk when the power failed, say
        Files.write(here.resolve("long.hold.part"), part);
        cable.pull();
        Ended nobody = fetch();
        assertEquals(1, nobody.code());
        assertTrue(nobody.err().startsWith("holdtrace: "), nobody.err());
        cable.mend();
        Ended next = fetch();
        assertEquals(0, next.code(), next.err());
        assertArrayEquals(whole, Files.readAllBytes(here.resolve("long.hold")));
    }

    @Test
    void aSessionStillBeingRecordedIsCopiedAsFarAsItGoesAndCompletedLater() throws IOException {
        byte[] whole = session("now.hold", 50_000, true);
        Files.write(there.resolve("now.hold"), Arrays.copyOf(whole, 40_011));
        logger.running("now.hold");
        Ended now = fetch();
        assertEquals(0, now.code(), now.err());
        assertEquals("", now.err());
        assertTrue(now.out().contains("still being recorded"), now.out());
        assertEquals(40_011, Files.size(here.resolve("now.hold")));
        Files.write(there.resolve("now.hold"), whole);
        logger.running(null);
        Ended later = fetch();
        assertEquals(0, later.code(), later.err());
        assertTrue(later.out().contains("completed and compared"), later.out());
        assertArrayEquals(whole, Files.readAllBytes(here.resolve("now.hold")));
    }

    @Test
    void aFileThatIsHereWithAnotherContentIsLeftAloneAndNamed() throws IOException {
        session("a.hold", 1000, true);
        byte[] b = session("b.hold", 1000, true);
        Files.write(here.resolve("a.hold"), new byte[] {1, 2, 3});
        Ended call = fetch();
        assertEquals(1, call.code());
        assertTrue(call.err().contains("a.hold: a file of this name is here with another content"), call.err());
        assertArrayEquals(new byte[] {1, 2, 3}, Files.readAllBytes(here.resolve("a.hold")));
        assertArrayEquals(b, Files.readAllBytes(here.resolve("b.hold")), "the others are still copied");
    }

    @Test
    void aSessionThatIsDamagedOnTheLoggerIsCopiedAsItIsAndSaidToBe() throws IOException {
        byte[] whole = session("torn.hold", 10_000, true);
        whole[whole.length / 2] ^= 4;
        Files.write(there.resolve("torn.hold"), whole);
        Files.write(there.resolve("junk.hold"), "no session at all".getBytes(StandardCharsets.US_ASCII));
        Ended call = fetch();
        assertEquals(1, call.code());
        assertArrayEquals(whole, Files.readAllBytes(here.resolve("torn.hold")));
        assertTrue(call.err().contains("torn.hold: frame"), call.err());
        assertTrue(call.err().contains("junk.hold"), call.err());
    }

    @Test
    void aBarIsDrawnForAPersonOnly() throws IOException {
        session("long.hold", 2_000_000, true);
        Ended person = call(new FetchCommand(50), true, cable.address(), "--out", here);
        assertEquals(0, person.code(), person.err());
        assertTrue(person.err().contains("] long.hold, "), person.err());
        assertTrue(person.err().endsWith("\r"), "the bar is wiped at the end");
    }

    @Test
    void whereNobodyListensTheCallEndsAndSaysSo() throws IOException {
        int free = tcp.port();
        tcp.close();
        Ended call = call(new FetchCommand(50), false, "127.0.0.1:" + free, "--out", here);
        assertEquals(1, call.code(), call.out() + call.err() + free);
        assertTrue(call.err().contains("nobody answers at 127.0.0.1 port " + free), call.err());
    }

    @Test
    void aWrongCallIsExit2() {
        for (String words : List.of(
                "host",
                "--out x",
                "a b --out x",
                "host:99999 --out x",
                "host --out x --baud fast",
                "host --out x --key no")) {
            assertEquals(
                    2,
                    call(new FetchCommand(50), false, (Object[]) words.split(" "))
                            .code(),
                    words);
        }
        for (String words : List.of("", "a b", "host --for 0s", "host --for soon", "host --for 5bar")) {
            Object[] split = words.isEmpty() ? new Object[0] : words.split(" ");
            assertEquals(2, call(new LiveCommand(50, 0), false, split).code(), words);
        }
    }

    @Test
    void aPipeGetsALineAtEachChangeAndEachSecond() throws InterruptedException {
        logger.tell(Phase.REST, Double.NaN);
        Thread story = new Thread(() -> {
            try {
                while (logger.followers() == 0) {
                    Thread.sleep(5);
                }
                Thread.sleep(300);
                logger.running("2026-03-01-0003.hold");
                logger.tell(Phase.HOLD, 8e-6 / 60, "input.wire: the sensor's wire\u001b[2J is broken");
                Thread.sleep(300);
                logger.tell(Phase.HOLD, 8e-6 / 60);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        story.start();
        Ended live = call(new LiveCommand(50, 0), false, cable.address(), "--for", "3 s");
        story.join();
        assertEquals(0, live.code(), live.err());
        List<String> lines = live.out().lines().toList();
        assertEquals("    0.0 s     0.2 bar | rest      |   0 strokes | no leak rate yet       | ready", lines.get(0));
        assertTrue(lines.contains("recording: 2026-03-01-0003.hold"), live.out());
        assertTrue(lines.contains("fault: input.wire: the sensor's wire?[2J is broken"), live.out());
        assertTrue(lines.contains("no longer: input.wire: the sensor's wire?[2J is broken"), live.out());
        assertTrue(
                lines.stream()
                        .anyMatch(line -> line.endsWith(
                                "120.2 bar | hold      |  12 strokes | 8.00 ± 0.40 cm³/min    | holding, wait")),
                live.out());
        long states = lines.stream().filter(line -> line.contains(" bar | ")).count();
        assertTrue(states >= 4 && states <= 6, live.out());
    }

    @Test
    void aTerminalGetsOneLineThatIsDrawnOverAndTheCautionFirst() throws InterruptedException {
        logger.tell(Phase.HOLD, 8e-6 / 60);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        Thread looking = Thread.currentThread();
        Thread enough = new Thread(() -> {
            try {
                while (out.toString(StandardCharsets.UTF_8).split("\r", -1).length <= 4) {
                    Thread.sleep(20);
                }
                looking.interrupt(); // as long as it takes on a busy computer
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        enough.start();
        Ended live = call(out, new LiveCommand(50, 0), true, cable.address());
        // Cleared before the join, which would be interrupted too.
        assertTrue(Thread.interrupted(), "it ended because it was told to");
        enough.interrupt();
        enough.join();
        assertEquals(0, live.code(), live.err());
        assertTrue(live.err().contains("Before any fitting is loosened"), live.err());
        assertTrue(live.out().startsWith("  > holding, wait\n\r  120.2 bar | hold"), live.out());
        assertTrue(live.out().split("\r", -1).length > 4, "drawn over a few times a second");
        assertEquals(2, live.out().chars().filter(c -> c == '\n').count());
        assertTrue(live.out().endsWith("\n"), "the line stands at the end");
    }

    @Test
    void aFaultWhoseFiguresChangeIsToldOnceAndNotCalledOverBeforeItIs() {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8)) {
            LiveView view = new LiveView(new Streams(stream, stream, true, true));
            logger.tell(Phase.REST, Double.NaN, "disk.low: little room on the disk: 480 MB left");
            view.show(logger.state().status());
            logger.tell(Phase.REST, Double.NaN, "disk.low: little room on the disk: 40 MB left", "disk.full: no room");
            view.show(logger.state().status());
            logger.tell(Phase.REST, Double.NaN, "disk.low: little room on the disk: 470 MB left");
            view.show(logger.state().status());
            logger.tell(Phase.REST, Double.NaN);
            view.show(logger.state().status());
        }
        assertEquals(
                List.of(
                        "fault: disk.low: little room on the disk: 480 MB left",
                        "fault: disk.full: no room",
                        "no longer: disk.full: no room",
                        "no longer: disk.low: little room on the disk: 470 MB left"),
                Arrays.stream(out.toString(StandardCharsets.UTF_8).split("[\\r\\n]+"))
                        .filter(line -> line.contains("disk."))
                        .toList());
    }

    @Test
    void aFolderThatIsAFileIsAWrongCallAndOneThatCannotBeMadeIsAFailure() throws IOException {
        Path file = Files.createFile(here.resolve("f"));
        Ended isFile = call(new FetchCommand(50), false, cable.address(), "--out", file);
        assertEquals(2, isFile.code());
        assertEquals("--out: " + file + " is a file; expected a folder", isFile.err());
        assertEquals(
                2,
                call(new FetchCommand(50), false, cable.address(), "--out", file.resolve("x"))
                        .code());
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        int code = new Main(new FileSteps())
                .run(
                        new String[] {"fetch", cable.address(), "--out", "/proc/none/such"},
                        new Streams(
                                new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8),
                                new PrintStream(err, true, StandardCharsets.UTF_8),
                                false,
                                false));
        assertEquals(1, code, err.toString(StandardCharsets.UTF_8));
        assertEquals(
                "holdtrace: /proc/none: there is no such file or folder" + System.lineSeparator(),
                err.toString(StandardCharsets.UTF_8));
    }

    @Test
    void whatIsAskedOfTheLoggerIsAskedOnceInTheOrderInWhichItMakesSense() throws IOException {
        Path plan = Files.writeString(here.resolve("next.setup.json"), "{ \"pumpStroke\": \"0.45 ± 0.01 cm3\" }");
        Ended live = call(
                new LiveCommand(50, 0),
                false,
                cable.address(),
                "--start",
                "--zero",
                "--stop",
                "--clock",
                "--plan",
                plan,
                "--for",
                "0.5 s");
        assertEquals(0, live.code(), live.err());
        assertEquals(
                List.of("clock", "plan, stroke " + new Quantity(0.45e-6, 0.01e-6), "stop", "zero", "start"),
                logger.asked());
        assertTrue(live.out().startsWith("""
                the logger's clock is set
                the plan is with the logger
                the session is ended
                the present pressure is zero from now on
                a session is being recorded
                """), live.out());
    }

    @Test
    void aZeroThatTheLoggerRefusesEndsTheCallAndNothingBehindItIsAsked() {
        logger.refuseZero("no zero is taken unless the line has been at rest for 2 s");
        Ended live = call(new LiveCommand(50, 0), false, cable.address(), "--zero", "--start", "--for", "0.5 s");
        assertEquals(1, live.code());
        assertTrue(live.err().contains("no zero is taken unless the line has been at rest for 2 s"), live.err());
        assertEquals(List.of(), logger.asked());
    }

    @Test
    void aPlanThatCannotBeReadIsAWrongCall() throws IOException {
        Path plan = Files.writeString(here.resolve("next.setup.json"), "{ \"pumpStrokes\": \"0.45 cm3\" }");
        Ended live = call(new LiveCommand(50, 0), false, cable.address(), "--plan", plan);
        assertEquals(2, live.code());
        assertTrue(live.err().startsWith("--plan: " + plan), live.err());
        assertTrue(live.err().contains("\"pumpStroke\""), live.err());
    }

    @Test
    void aPulledCableIsWaitedFor() throws InterruptedException {
        logger.tell(Phase.HOLD, 8e-6 / 60);
        List<String> seen = new CopyOnWriteArrayList<>();
        Thread story = new Thread(() -> {
            try {
                while (logger.followers() == 0) {
                    Thread.sleep(5);
                }
                cable.pull();
                Thread.sleep(400);
                cable.mend();
                while (logger.followers() == 0) {
                    Thread.sleep(5);
                }
                seen.add("followed again");
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        });
        story.start();
        Ended live = call(new LiveCommand(50, 20_000_000_000L), false, cable.address(), "--for", "4 s");
        story.interrupt();
        story.join();
        assertEquals(0, live.code(), live.err());
        assertEquals(List.of("followed again"), seen, live.err());
        assertTrue(live.err().contains("waiting for it"), live.err());
    }
}
