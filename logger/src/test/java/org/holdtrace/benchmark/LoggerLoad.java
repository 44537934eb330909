package org.holdtrace.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.holdtrace.acquire.LatenessHistogram;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.TcpWire;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.holdtrace.session.SessionEvent;

/**
 * What the logger costs and how punctual it is: the shipped jar, started as its service starts it, records a simulated line
 * while a client that asked for live samples reads too slowly and other processes keep the processor busy. A probe on each
 * processor tells which of the missed samples the computer is to blame for. Called with the jar, the service's file, a
 * folder, and then the rate in Hz, seconds, the number of busy processes, {@code fifo} or {@code ordinary}, and, where
 * wanted, how many further clients follow every sample.
 */
public final class LoggerLoad {
    private static final int CLOCK_TICKS_PER_S = 100;
    private static final int PROBE_PRIORITY = 60;

    /** A safepoint so near a gap may have to do with it. */
    private static final long AROUND_NS = 10_000_000;

    private static final String CLASS_PATH = System.getProperty("java.class.path");
    private static final String JAVA =
            Path.of(System.getProperty("java.home"), "bin", "java").toString();

    private static final String RIG = """
            { "note": "Invented.", "trappedVolume": "200 cm3", "pump": { "stroke": "0.6 cm3" },
              "transducer": { "upTo": "250 bar", "samplesPerSecond": "%s", "whiteNoise": "0.03 bar" },
              "tests": [ { "rest": "5 s", "target": "80 bar", "hold": "%s s" } ] }
            """;

    private final Path data;
    private final List<Process> started = new ArrayList<>();
    private final Clocks clocks = new Clocks();

    private LoggerLoad(Path data) {
        this.data = data;
    }

    /** Runs it. */
    public static void main(String[] args) throws IOException, InterruptedException {
        Path jar = Path.of(args[0]).toAbsolutePath();
        Path folder = Files.createDirectories(Path.of(args[2]).toAbsolutePath());
        LoggerLoad load = new LoggerLoad(Files.createTempDirectory(folder, "load"));
        try {
            load.run(
                    jar,
                    Path.of(args[1]),
                    args[3],
                    Integer.parseInt(args[4]),
                    Integer.parseInt(args[5]),
                    args[6].equals("fifo"),
                    args.length > 7 ? Integer.parseInt(args[7]) : 0);
        } finally {
            load.started.forEach(Process::destroyForcibly);
        }
    }

    private void run(Path jar, Path service, String rate, int seconds, int busy, boolean fifo, int further)
            throws IOException, InterruptedException {
        Path rig = data.resolve("bench.rig.json");
        Files.writeString(rig, RIG.formatted(rate, seconds + 60));
        Path configuration = data.resolve("logger.json");
        // One input: reading another costs a converter that has one conversion at a time some ticks, see
        // docs/logger.md.
        Files.writeString(
                configuration,
                "{ \"rate\": \"" + rate + " Hz\", \"inputs\": [ { \"to\": \"250 bar\" } ],"
                        + " \"supply\": { \"measured\": \"no\" } }");
        int port = freePort();
        int processors = Runtime.getRuntime().availableProcessors();
        List<Process> probes = new ArrayList<>();
        for (int i = 0; fifo && i < processors; i++) {
            probes.add(probe(i, seconds + 15));
        }
        List<String> command = new ArrayList<>();
        if (fifo) {
            command.addAll(List.of("chrt", "-f", word(service, "CPUSchedulingPriority=")));
        }
        command.add(JAVA);
        for (String flag : word(service, "ExecStart=").split(" +", -1)) {
            if (flag.startsWith("-X")) {
                command.add(flag);
            }
        }
        command.addAll(Safepoints.logTo(data.resolve("safepoints.txt")));
        command.addAll(List.of("-jar", jar.toString(), "run", "--simulate", rig.toString()));
        command.addAll(List.of("--config", configuration.toString(), "--data", data.toString()));
        command.addAll(List.of("--panel", "none", "--tcp", String.valueOf(port)));
        Process logger = start("said.txt", command);
        for (int i = 0; i < busy; i++) {
            start("busy.txt", List.of("nice", "-n", "19", "sh", "-c", "while :; do :; done"));
        }
        Thread.sleep(5000);
        try (SlowReader slow = new SlowReader(port);
                LinkClient watching = follower(port)) {
            if (watching.welcome() == null) {
                throw new IOException("nobody welcomes a client");
            }
            Counted counted = new Counted();
            List<LinkClient> others = new ArrayList<>();
            for (int i = 0; i < further; i++) {
                LinkClient other = client(port);
                other.listen(counted);
                other.ask(new Ask.Follow(true, 100));
                others.add(other);
            }
            long cpuBefore = cpuTicks(logger.pid());
            long fromNs = System.nanoTime();
            Thread.sleep(TimeUnit.SECONDS.toMillis(seconds));
            double tookS = (System.nanoTime() - fromNs) / 1e9;
            double cpu = (cpuTicks(logger.pid()) - cpuBefore) / (double) CLOCK_TICKS_PER_S / tookS;
            long rssKb = status(logger.pid(), "VmHWM:");
            long opened = slow.opened();
            double slowBytesPerS = slow.read() / tookS;
            for (LinkClient other : others) {
                other.close();
            }
            logger.destroy();
            logger.waitFor(20, TimeUnit.SECONDS);
            Stalls stalls = new Stalls(1e9 / Double.parseDouble(rate));
            for (int i = 0; i < probes.size(); i++) {
                probes.get(i).waitFor();
                stalls.add(data.resolve("stalls" + i + ".txt"));
            }
            PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
            out.printf(
                    Locale.ROOT,
                    "%s Hz, %.0f s, %d busy, %s: %.1f %% of a core; peak resident %.0f MB%n",
                    rate,
                    tookS,
                    busy,
                    fifo ? "real-time priority" : "ordinary priority",
                    100 * cpu,
                    rssKb / 1024.0);
            out.printf(
                    Locale.ROOT,
                    "the slow reader took %.0f bytes a second, over %d links one after the other%n",
                    slowBytesPerS,
                    opened);
            if (further > 0) {
                out.printf(
                        Locale.ROOT,
                        "%d further clients followed; %d samples came to them, %d were left out%n",
                        further,
                        counted.samples.get(),
                        counted.dropped.get());
            }
            report(out, stalls, probes.isEmpty(), Double.parseDouble(rate));
        }
    }

    /** What stands behind {@code key} in the service's file, its continued lines joined. */
    private static String word(Path service, String key) throws IOException {
        String text = Files.readString(service).replace("\\\n", " ");
        int at = text.indexOf("\n" + key);
        return text.substring(at + 1 + key.length(), text.indexOf('\n', at + 1));
    }

    private Process probe(int processor, int seconds) throws IOException {
        List<String> command = new ArrayList<>(List.of("chrt", "-f", String.valueOf(PROBE_PRIORITY)));
        command.addAll(List.of("taskset", "-c", String.valueOf(processor), JAVA, "-Xint", "-XX:+UseSerialGC"));
        command.addAll(List.of(
                "-XX:-UsePerfData", "-Xmx64m", "-cp", CLASS_PATH, StallProbe.class.getName(), String.valueOf(seconds)));
        return start("stalls" + processor + ".txt", command);
    }

    private Process start(String output, List<String> command) throws IOException {
        Process process = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(data.resolve(output).toFile())
                .start();
        started.add(process);
        return process;
    }

    /** Where a logger's own clock stands against this computer's, and a session's against the logger's. */
    private static final class Clocks implements LinkClient.Listener {
        private long offsetNs = Long.MAX_VALUE;
        private final Map<SessionEvent.Jitter, Long> heard = new HashMap<>();

        @Override
        public synchronized void live(LinkMessage message) {
            if (message instanceof LinkMessage.LiveStatus live) {
                // The one that travelled fastest is right to a fraction of a millisecond.
                offsetNs = Math.min(offsetNs, System.nanoTime() - live.status().timeNs());
            } else if (message instanceof LinkMessage.LiveEvent event
                    && event.event() instanceof SessionEvent.Jitter jitter) {
                heard.put(at(jitter, 0), jitter.timeNs());
            }
        }

        @Override
        public void ended(LinkException why) {
            // At the end, when the logger is told to.
        }

        private static SessionEvent.Jitter at(SessionEvent.Jitter jitter, long timeNs) {
            return new SessionEvent.Jitter(
                    timeNs, jitter.samples(), jitter.missed(), jitter.p50Ns(), jitter.p99Ns(), jitter.maxNs());
        }

        /** What to add to times of {@code session}; the same event stands in it and was heard. */
        synchronized long offsetNs(Session session) throws IOException {
            for (SessionEvent event : session.events()) {
                if (event instanceof SessionEvent.Jitter jitter && heard.containsKey(at(jitter, 0))) {
                    return offsetNs + heard.get(at(jitter, 0)) - jitter.timeNs();
                }
            }
            throw new IOException("no event of the session was heard live");
        }
    }

    /** What came to clients that keep up. */
    private static final class Counted implements LinkClient.Listener {
        private final AtomicLong samples = new AtomicLong();
        private final AtomicLong dropped = new AtomicLong();

        @Override
        public void live(LinkMessage message) {
            if (message instanceof LinkMessage.LiveSamples some) {
                samples.addAndGet(some.block().size());
            } else if (message instanceof LinkMessage.Dropped some) {
                dropped.addAndGet(some.samples());
            }
        }

        @Override
        public void ended(LinkException why) {
            // At the end, when it is told to.
        }
    }

    private static LinkClient client(int port) throws IOException {
        return LinkClient.open(TcpWire.connect("127.0.0.1", port, 5000), "benchmark", Optional.empty(), false);
    }

    /** One that listens for the time of day. */
    private LinkClient follower(int port) throws IOException {
        LinkClient client = client(port);
        client.listen(clocks);
        if (client.ask(new Ask.Follow(false, 100)) == null) {
            throw new IOException("nobody may follow");
        }
        return client;
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    private static long cpuTicks(long pid) throws IOException {
        String stat = Files.readString(Path.of("/proc", String.valueOf(pid), "stat"));
        String[] fields = stat.substring(stat.lastIndexOf(')') + 2).split(" ", -1);
        return Long.parseLong(fields[11]) + Long.parseLong(fields[12]);
    }

    private static long status(long pid, String key) throws IOException {
        for (String line : Files.readAllLines(Path.of("/proc", String.valueOf(pid), "status"))) {
            if (line.startsWith(key)) {
                return Long.parseLong(line.replaceAll("[^0-9]", ""));
            }
        }
        throw new IOException("no " + key);
    }

    private void report(PrintStream out, Stalls stalls, boolean blind, double rateHz) throws IOException {
        Path file;
        try (Stream<Path> files = Files.list(data)) {
            file = files.filter(f -> f.toString().endsWith(".hold")).findFirst().orElseThrow();
        }
        Session session = HoldFileReader.read(file);
        long[] timesNs = session.timesNs(0);
        TickGrid grid = new TickGrid(timesNs, 1e9 / rateHz);
        LatenessHistogram late = grid.lateness();
        out.printf(
                Locale.ROOT,
                "late by p50 %.0f us, p99 %.0f us, p99.9 %.0f us, at most %.1f ms; losses in the file %d%n",
                late.quantileNs(0.5) / 1e3,
                late.quantileNs(0.99) / 1e3,
                late.quantileNs(0.999) / 1e3,
                late.maxNs() / 1e6,
                session.losses().size());
        out.printf(
                Locale.ROOT,
                "missed %d of %d ticks, in %d gaps",
                grid.missed(),
                grid.missed() + timesNs.length,
                grid.gaps().size());
        if (blind) {
            out.println();
            return;
        }
        Safepoints safepoints = new Safepoints(data.resolve("safepoints.txt"));
        out.printf("; %s%n", safepoints.summary());
        long offsetNs = stalls.offsetNs(grid.gaps(), clocks.offsetNs(session));
        long machines = stalls.explained(grid.gaps(), offsetNs);
        StringBuilder each = new StringBuilder();
        for (TickGrid.Gap gap : grid.gaps()) {
            if (!stalls.explain(gap, offsetNs)) {
                each.append(String.format(
                        Locale.ROOT,
                        "  at %.3f s (%.4f s on the computer's steady clock): %.2f ms, %d ticks, %s%n",
                        gap.fromNs() / 1e9,
                        (gap.fromNs() + offsetNs) / 1e9,
                        (gap.untilNs() - gap.fromNs()) / 1e6,
                        gap.missed(),
                        safepoints.within(gap.fromNs() + offsetNs - AROUND_NS, gap.untilNs() + offsetNs + AROUND_NS)));
            }
        }
        out.printf(
                Locale.ROOT,
                "of them %d where a processor stood still (which they did for %.2f %% of the time; with clocks a second apart %d),"
                        + " %d else%n%s",
                machines,
                100 * stalls.share(timesNs[timesNs.length - 1] - timesNs[0]),
                stalls.explained(grid.gaps(), offsetNs + 1_000_000_000L),
                grid.missed() - machines,
                each);
    }
}
