package org.holdtrace.firmware;

import java.io.IOException;
import java.io.PrintStream;
import java.net.InetAddress;
import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.holdtrace.adc.AdcException;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.link.LinkKey;
import org.holdtrace.link.LinkLimits;
import org.holdtrace.panel.GpioPanel;
import org.holdtrace.panel.NoPanel;
import org.holdtrace.panel.Panel;
import org.holdtrace.panel.TerminalPanel;
import org.holdtrace.record.Mender;
import org.holdtrace.serve.LinkServer;
import org.holdtrace.serve.SerialLink;
import org.holdtrace.serve.TcpPort;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;

/** The command {@code run}: works until it is told to end. */
final class Run {
    private static final long LOOK_MS = 500;

    private final Options options;
    private final Bench bench;
    private final PrintStream err;

    Run(Options options, Bench bench, PrintStream err) {
        this.options = options;
        this.bench = bench;
        this.err = err;
    }

    /** Works; returns false where it ended by a fault of the program. */
    boolean untilEnded() throws IOException, UsageException, AdcException {
        Configuration configuration = bench.configuration();
        for (Mender.Finding finding : Mender.mend(configuration.storage().sessions())) {
            err.println(finding.text());
        }
        Configuration.Link link = configuration.link();
        int baud = baud(link);
        // Before anything says that it is ready: a port may be another's.
        try (Listening listening = listen(link)) {
            return untilEnded(configuration, listening, baud);
        }
    }

    private boolean untilEnded(Configuration configuration, Listening listening, int baud)
            throws IOException, UsageException, AdcException {
        PlanFile kept = new PlanFile(configuration.storage().state());
        TestSetup plan = plan(kept);
        CountDownLatch ended = new CountDownLatch(1);
        CountDownLatch closed = new CountDownLatch(1);
        Panel panel = panel();
        Equipment equipment = new Equipment(
                configuration,
                bench.isSimulated(),
                bench.converter(),
                bench.clock(),
                panel,
                new CalibrationStore(configuration.storage().state()));
        Thread hook = new Thread(
                () -> {
                    ended.countDown();
                    await(closed, 10_000);
                },
                "end");
        Runtime.getRuntime().addShutdownHook(hook);
        try (Watchdog watchdog = Watchdog.ofSystemd();
                Journal journal = new Journal(err::println);
                Firmware firmware = new Firmware(equipment, plan, kept, watchdog::alive);
                LinkServer server = new LinkServer(firmware, Version.SOFTWARE, err::println)) {
            firmware.follow(journal);
            Optional<String> path = options.value("--serial").or(configuration.link()::serial);
            Optional<SerialLink> serial = path.map(device -> new SerialLink(server, device, baud));
            try {
                listening.serve(server);
                announce(listening, configuration.instrument());
                watchdog.ready();
                err.println("at work; sessions are kept in "
                        + configuration.storage().sessions().toAbsolutePath());
                path.ifPresent(device -> err.println("link on " + device));
                listening.tell(err);
                while (firmware.died() == null && !await(ended, LOOK_MS)) {
                    // All is done by the threads it is made of.
                }
            } finally {
                serial.ifPresent(SerialLink::close);
                listening.close();
            }
            if (firmware.died() != null) {
                firmware.died().printStackTrace(err);
            }
            return firmware.died() == null;
        } finally {
            closed.countDown();
        }
    }

    private void announce(Listening links, String name) {
        try {
            Optional<Announcement> here = Announcement.ofSystemd();
            if (here.isPresent() && links.isReachable()) {
                here.get().write(name, links.tcp().orElseThrow().port());
            } else if (here.isPresent()) {
                here.get().clear();
            }
        } catch (IOException e) {
            err.println("the logger is not announced on the network: " + e.getMessage());
        }
    }

    private static boolean await(CountDownLatch latch, long ms) {
        try {
            return latch.await(ms, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return true;
        }
    }

    private TestSetup plan(PlanFile kept) throws IOException {
        if (options.value("--plan").isPresent()) {
            return SetupReader.read(Path.of(options.value("--plan").get()));
        }
        try {
            return kept.read();
        } catch (IOException e) {
            err.println("the plan that was kept is of no use: " + e.getMessage());
            return TestSetup.unknown();
        }
    }

    private Panel panel() throws UsageException, AdcException {
        return switch (panelKind()) {
            case GPIO -> GpioPanel.open(bench.board(), bench.configuration().pins(), err::println);
            case TERMINAL -> new TerminalPanel(System.in, err);
            case NONE -> new NoPanel();
        };
    }

    private Configuration.PanelKind panelKind() throws UsageException {
        Optional<String> word = options.value("--panel");
        if (word.isEmpty()) {
            return bench.configuration().panel();
        }
        for (Configuration.PanelKind kind : Configuration.PanelKind.values()) {
            if (kind.name().equalsIgnoreCase(word.get())) {
                return kind;
            }
        }
        throw new UsageException("--panel is terminal, gpio or none, not " + word.get());
    }

    /** Where clients can connect to, if anywhere. */
    private record Listening(Optional<TcpPort> tcp, InetAddress address) implements AutoCloseable {
        /** Whether other computers can connect. */
        boolean isReachable() {
            return tcp.isPresent() && !address.isLoopbackAddress();
        }

        void serve(LinkServer server) {
            tcp.ifPresent(port -> port.serve(server));
        }

        void tell(PrintStream to) {
            tcp.ifPresent(port -> to.println("link on " + address.getHostAddress() + " port " + port.port()));
        }

        @Override
        public void close() {
            tcp.ifPresent(TcpPort::close);
        }
    }

    private Listening listen(Configuration.Link link) throws IOException, UsageException {
        Optional<Path> keyFile = options.value("--key").map(Path::of).or(link::keyFile);
        Optional<LinkKey> key = keyFile.isPresent() ? Optional.of(LinkKey.read(keyFile.get())) : Optional.empty();
        Optional<String> address = link.tcpAddress();
        OptionalInt port = link.tcpPort();
        Optional<String> tcp = options.value("--tcp");
        if (tcp.isPresent()) {
            int colon = tcp.get().lastIndexOf(':');
            address = Optional.of(colon < 0 ? "" : tcp.get().substring(0, colon));
            port = OptionalInt.of(port(tcp.get().substring(colon + 1)));
        }
        Optional<TcpPort> listening = Optional.empty();
        InetAddress host = InetAddress.getLoopbackAddress();
        if (address.isPresent()) {
            host = address.get().isEmpty() ? host : InetAddress.getByName(address.get());
            listening = Optional.of(TcpPort.take(host, port.orElse(LinkLimits.DEFAULT_PORT), key));
        } else if (options.value("--key").isPresent()) {
            throw new UsageException("--key goes with --tcp: without it there is no listening on the network");
        }
        return new Listening(listening, host);
    }

    private int baud(Configuration.Link link) throws UsageException {
        Optional<String> word = options.value("--baud");
        if (word.isEmpty()) {
            return link.baud();
        }
        try {
            int baud = Integer.parseInt(word.get());
            if (LinkLimits.isBaud(baud)) {
                return baud;
            }
        } catch (NumberFormatException e) {
            // Told below.
        }
        throw new UsageException("--baud takes bits a second, " + LinkLimits.BAUDS + ", not " + word.get());
    }

    private static int port(String word) throws UsageException {
        try {
            int port = Integer.parseInt(word);
            if (port >= 0 && port <= 65_535) {
                return port;
            }
        } catch (NumberFormatException e) {
            // Told below.
        }
        throw new UsageException("--tcp takes a port from 0 to 65535, not " + word);
    }
}
