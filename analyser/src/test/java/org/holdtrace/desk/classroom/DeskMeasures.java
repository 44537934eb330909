package org.holdtrace.desk.classroom;

import com.sun.management.OperatingSystemMXBean;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.locks.LockSupport;
import javax.swing.JFrame;
import javax.swing.SwingUtilities;
import org.holdtrace.desk.FollowMeasure;
import org.holdtrace.desk.Measured;
import org.holdtrace.desk.look.Theme;
import org.holdtrace.desk.view.PanMeasure;
import org.holdtrace.remote.FolderLogger;
import org.holdtrace.remote.LoggerAddress;
import org.holdtrace.serve.LinkServer;
import org.holdtrace.serve.TcpPort;

/**
 * Measures the desk on the display in {@code DISPLAY}: start to usable window, panning ten million samples, from a key to
 * the result that follows, and from a sample to its picture. Words: seconds of live samples (60), runs of the start (5),
 * and which of {@code start pan follow live} (all). See {@code docs/benchmarks.md}.
 */
final class DeskMeasures {
    private static final double RATE_HZ = 860;
    /** The logger hands on what it measured this often (its own loop). */
    private static final long LOOK_NS = 20_000_000;

    private static final List<String> ALL = List.of("start", "pan", "follow", "live");

    private DeskMeasures() {}

    public static void main(String[] words) throws Exception {
        int seconds = words.length > 0 ? Integer.parseInt(words[0]) : 60;
        int starts = words.length > 1 ? Integer.parseInt(words[1]) : 5;
        List<String> which = words.length > 2 ? List.of(words).subList(2, words.length) : ALL;
        if (which.contains("start")) {
            start(starts);
        }
        if (which.contains("pan")) {
            PanMeasure.run();
        }
        if (which.contains("follow")) {
            FollowMeasure.run();
        }
        if (which.contains("live")) {
            live(seconds);
        }
        System.exit(0);
    }

    private static void start(int runs) throws IOException, InterruptedException {
        List<Double> ms = new ArrayList<>();
        Path home = Files.createTempDirectory("desk");
        for (int i = 0; i < runs; i++) {
            Process process = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-cp",
                            System.getProperty("java.class.path"),
                            "org.holdtrace.desk.StartMeasure",
                            home.toString())
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            try (BufferedReader out =
                    new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
                ms.add(Double.valueOf(out.readLine()));
            }
            process.waitFor();
        }
        Measured.print("start to usable window", ms);
    }

    private static void live(int seconds) throws Exception {
        FolderLogger logger = new FolderLogger(Files.createTempDirectory("live"));
        ConcurrentLinkedQueue<Long> waiting = new ConcurrentLinkedQueue<>();
        List<Double> ms = new ArrayList<>();
        try (LinkServer server = new LinkServer(logger, "Holdtrace logger measure", line -> {});
                TcpPort port = TcpPort.open(server, InetAddress.getLoopbackAddress(), 0, Optional.empty())) {
            LoggerAddress address = LoggerAddress.parse("127.0.0.1:" + port.port(), 115_200);
            JFrame[] frame = new JFrame[1];
            SwingUtilities.invokeAndWait(() -> {
                ClassView view = new ClassView(Theme.usual());
                frame[0] = new JFrame();
                frame[0].setContentPane(view);
                frame[0].setSize(1280, 720);
                frame[0].setVisible(true);
                view.show(List.of(new LoggerSource("measure", () -> address.open("measure", Optional.empty()))));
                view.views().get(0).strip().onPainted(newestS -> {
                    long nowNs = System.nanoTime();
                    while (!waiting.isEmpty() && waiting.peek() / 1e9 <= newestS + 1e-7) {
                        ms.add((nowNs - waiting.remove()) / 1e6);
                    }
                });
            });
            while (logger.followers() == 0) {
                Thread.sleep(10);
            }
            OperatingSystemMXBean system = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
            feed(logger, waiting, 5);
            Thread.sleep(200);
            SwingUtilities.invokeAndWait(ms::clear);
            long cpuNs = system.getProcessCpuTime();
            long startNs = System.nanoTime();
            feed(logger, waiting, seconds);
            double load = (system.getProcessCpuTime() - cpuNs) / (double) (System.nanoTime() - startNs);
            Thread.sleep(300);
            SwingUtilities.invokeAndWait(() -> {
                Measured.print("from a sample at 860 Hz to its picture", ms);
                frame[0].dispose();
            });
            System.out.printf(
                    Locale.ROOT, "processor, logger's end and measuring included: %.0f %% of a core%n", 100 * load);
        }
    }

    private static void feed(FolderLogger logger, ConcurrentLinkedQueue<Long> waiting, int seconds) {
        long startNs = System.nanoTime();
        long step = (long) (1e9 / RATE_HZ);
        long[] timeNs = new long[1000];
        int[] counts = new int[1000];
        long next = startNs;
        while (next < startNs + seconds * 1_000_000_000L) {
            LockSupport.parkNanos(LOOK_NS);
            int size = 0;
            for (; next <= System.nanoTime() && size < timeNs.length; next += step) {
                timeNs[size] = next;
                counts[size++] = 15_000 + (int) (200 * Math.sin(next / 1e9));
                waiting.add(next);
            }
            logger.measured(timeNs, counts, size);
        }
    }
}
