package org.holdtrace.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdtrace.link.Ask;
import org.holdtrace.link.LinkClient;
import org.holdtrace.link.LinkException;
import org.holdtrace.link.LinkMessage;
import org.holdtrace.link.TcpWire;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.holdtrace.session.SessionEvent;

/**
 * What the logger costs and how punctual it is: the shipped jar records a simulated line while a client that asked for
 * live samples never reads one and other processes keep the processor busy. Called with the jar, a folder, seconds, the
 * rate in Hz, how many busy processes, and whether sampling has real-time priority.
 */
public final class LoggerLoad {
    private static final int CLOCK_TICKS_PER_S = 100;

    private static final String RIG = """
            { "note": "Invented.", "trappedVolume": "200 cm3", "pump": { "stroke": "0.6 cm3" },
              "transducer": { "upTo": "250 bar", "samplesPerSecond": "%s", "whiteNoise": "0.03 bar" },
              "tests": [ { "rest": "5 s", "target": "80 bar", "hold": "%s s" } ] }
            """;

    private LoggerLoad() {}

    /** Runs it. */
    public static void main(String[] args) throws IOException, InterruptedException {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        Path jar = Path.of(args[0]).toAbsolutePath();
        Path folder = Files.createDirectories(Path.of(args[1]).toAbsolutePath());
        int seconds = Integer.parseInt(args[2]);
        String rate = args[3];
        int busy = Integer.parseInt(args[4]);
        boolean realTime = Boolean.parseBoolean(args[5]);
        Path data = Files.createTempDirectory(folder, "data");
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
        List<String> command = new ArrayList<>();
        if (realTime) {
            command.addAll(List.of("chrt", "-f", "50"));
        }
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        command.addAll(List.of(
                java,
                "-XX:+UseSerialGC",
                "-Xmx48m",
                "-jar",
                jar.toString(),
                "run",
                "--simulate",
                rig.toString(),
                "--config",
                configuration.toString(),
                "--data",
                data.toString(),
                "--panel",
                "none",
                "--tcp",
                String.valueOf(port)));
        List<Process> started = new ArrayList<>();
        Process logger = new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(data.resolve("said.txt").toFile())
                .start();
        started.add(logger);
        for (int i = 0; i < busy; i++) {
            started.add(new ProcessBuilder("sh", "-c", "while :; do :; done").start());
        }
        try {
            Thread.sleep(5000);
            try (LinkClient slow = follower(port)) {
                if (slow.welcome() == null) {
                    throw new IOException("nobody welcomes a client");
                }
                long cpuBefore = cpuTicks(logger.pid());
                long fromNs = System.nanoTime();
                Thread.sleep(TimeUnit.SECONDS.toMillis(seconds));
                double tookS = (System.nanoTime() - fromNs) / 1e9;
                double cpu = (cpuTicks(logger.pid()) - cpuBefore) / (double) CLOCK_TICKS_PER_S / tookS;
                long rssKb = status(logger.pid(), "VmHWM:");
                logger.destroy();
                logger.waitFor(20, TimeUnit.SECONDS);
                report(out, data, rate, busy, realTime, tookS, cpu, rssKb);
            }
        } finally {
            started.forEach(Process::destroyForcibly);
        }
    }

    /** A client that asks for every sample and takes a second over each message. */
    private static LinkClient follower(int port) throws IOException {
        LinkClient client =
                LinkClient.open(TcpWire.connect("127.0.0.1", port, 5000), "benchmark", Optional.empty(), false);
        client.listen(new LinkClient.Listener() {
            @Override
            public void live(LinkMessage message) {
                try {
                    Thread.sleep(1000);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                }
            }

            @Override
            public void ended(LinkException why) {
                // A logger may give up who does not read; what is measured is whether it goes on.
            }
        });
        if (client.ask(new Ask.Follow(true, 100)) == null) {
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

    private static void report(
            PrintStream out, Path data, String rate, int busy, boolean realTime, double tookS, double cpu, long rssKb)
            throws IOException {
        Path file;
        try (Stream<Path> files = Files.list(data)) {
            file = files.filter(f -> f.toString().endsWith(".hold")).findFirst().orElseThrow();
        }
        Session session = HoldFileReader.read(file);
        long missed = 0;
        long samples = 0;
        List<Long> p50 = new ArrayList<>();
        List<Long> p99 = new ArrayList<>();
        long worst = 0;
        for (SessionEvent event : session.events()) {
            if (event instanceof SessionEvent.Jitter jitter) {
                missed += jitter.missed();
                samples += jitter.samples();
                p50.add(jitter.p50Ns());
                p99.add(jitter.p99Ns());
                worst = Math.max(worst, jitter.maxNs());
            }
        }
        out.printf(
                Locale.ROOT,
                "%s Hz, %d busy, real time %s, %.0f s: late by p50 %.0f us, p99 %.0f us (medians of 10 s), at most %.1f ms;"
                        + " missed %d of %d ticks; %.1f %% of a core; peak resident %.0f MB; losses in the file %d%n",
                rate,
                busy,
                realTime,
                tookS,
                median(p50) / 1e3,
                median(p99) / 1e3,
                worst / 1e6,
                missed,
                samples + missed,
                100 * cpu,
                rssKb / 1024.0,
                session.losses().size());
    }

    private static double median(List<Long> values) {
        List<Long> sorted = new ArrayList<>(values);
        Collections.sort(sorted);
        return sorted.isEmpty() ? Double.NaN : sorted.get(sorted.size() / 2);
    }
}
