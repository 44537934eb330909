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
 * while a client that asked for live samples reads too slowly and other processes keep the processor busy. For each missed
 * sample {@link GapCauses} tells who is to blame. Called with the jar, the service's file, a folder, and then the rate in Hz,
 * seconds, the number of busy processes, {@code fifo} (the service's own real-time priority), {@code niced} (the nearest to it
 * where that must not be) or {@code ordinary}, and, where wanted, how many further clients follow every sample.
 */
public final class LoggerLoad {
    private static final int CLOCK_TICKS_PER_S = 100;

    /** What a probe is started with, so that nothing that is measured keeps it waiting. */
    private static final Map<String, List<String>> ABOVE = Map.of(
            "fifo", List.of("chrt", "-f", "60"),
            "niced", List.of("nice", "-n", "-20"),
            "ordinary", List.of());

    private static final List<String> NICED = List.of("nice", "-n", "-15");

    /** The thread that samples, as the logger calls it. */
    private static final String SAMPLING = "sampler";

    private static final String THREAD = "thread.txt";
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
                    args[6],
                    args.length > 7 ? Integer.parseInt(args[7]) : 0);
        } finally {
            load.started.forEach(Process::destroyForcibly);
        }
    }

    private void run(Path jar, Path service, String rate, int seconds, int busy, String priority, int further)
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
        for (int i = 0; i < processors; i++) {
            List<String> tied = new ArrayList<>(ABOVE.get(priority));
            tied.addAll(List.of("taskset", "-c", String.valueOf(i)));
            probes.add(probe(stalls(i), tied, StallProbe.class, String.valueOf(seconds + 15)));
        }
        List<String> command = new ArrayList<>();
        if (priority.equals("fifo")) {
            command.addAll(List.of("chrt", "-f", word(service, "CPUSchedulingPriority=")));
        } else if (priority.equals("niced")) {
            command.addAll(NICED);
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
        probes.add(probe(
                THREAD,
                ABOVE.get(priority),
                ThreadProbe.class,
                String.valueOf(logger.pid()),
                SAMPLING,
                String.valueOf(seconds + 15)));
        for (int i = 0; i < busy; i++) {
            start("busy.txt", List.of("nice", "-n", "19", "sh", "-c", "while :; do :; done"));
        }
        Thread.sleep(5000);
        long stolenBefore = stolenTicks();
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
            double stolen = (stolenTicks() - stolenBefore) / (double) CLOCK_TICKS_PER_S / tookS / processors;
            for (Process probe : probes) {
                probe.waitFor();
            }
            GapCauses causes = new GapCauses(1e9 / Double.parseDouble(rate));
            for (int i = 0; i < processors; i++) {
                causes.addStalls(data.resolve(stalls(i)));
            }
            causes.addThread(data.resolve(THREAD));
            PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
            out.printf(
                    Locale.ROOT,
                    "%s Hz, %.0f s, %d busy, priority %s: %.1f %% of a core; peak resident %.0f MB; the host took %.2f %% of the"
                            + " processors%n",
                    rate,
                    tookS,
                    busy,
                    priority,
                    100 * cpu,
                    rssKb / 1024.0,
                    100 * stolen);
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
            report(out, causes, Double.parseDouble(rate));
        }
    }

    /** What stands behind {@code key} in the service's file, its continued lines joined. */
    private static String word(Path service, String key) throws IOException {
        String text = Files.readString(service).replace("\\\n", " ");
        int at = text.indexOf("\n" + key);
        return text.substring(at + 1 + key.length(), text.indexOf('\n', at + 1));
    }

    private static String stalls(int processor) {
        return "stalls" + processor + ".txt";
    }

    private Process probe(String output, List<String> prefix, Class<?> main, String... args) throws IOException {
        List<String> command = new ArrayList<>(prefix);
        command.addAll(List.of(JAVA, "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-XX:-UsePerfData", "-Xmx80m"));
        command.addAll(List.of("-cp", CLASS_PATH, main.getName()));
        command.addAll(List.of(args));
        return start(output, command);
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

    /** What the host has taken from all processors (proc(5), /proc/stat, "steal"). */
    private static long stolenTicks() throws IOException {
        return Long.parseLong(
                Files.readAllLines(Path.of("/proc/stat")).get(0).trim().split(" +", -1)[8]);
    }

    private static long status(long pid, String key) throws IOException {
        for (String line : Files.readAllLines(Path.of("/proc", String.valueOf(pid), "status"))) {
            if (line.startsWith(key)) {
                return Long.parseLong(line.replaceAll("[^0-9]", ""));
            }
        }
        throw new IOException("no " + key);
    }

    private void report(PrintStream out, GapCauses causes, double rateHz) throws IOException {
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
                "missed %d of %d ticks, in %d gaps%n",
                grid.missed(),
                grid.missed() + timesNs.length,
                grid.gaps().size());
        causes.print(
                out,
                grid,
                clocks.offsetNs(session),
                timesNs[timesNs.length - 1] - timesNs[0],
                new Safepoints(data.resolve("safepoints.txt")));
    }
}
