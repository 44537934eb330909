package org.holdtrace.virtualpi;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.holdtrace.panel.PanelSign;
import org.holdtrace.rig.RigFile;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * What is shipped, where it will run: the logger's jar in an emulated Raspberry Pi with the kernel's own I²C, SPI, GPIO
 * and serial ports, the analyser's jar at the other end of the cable. {@code logger/src/virtual-pi/verify.sh} calls it.
 */
@EnabledIfSystemProperty(
        named = "virtual-pi",
        matches = ".+",
        disabledReason = "skipped: the virtual Pi is run by logger/src/virtual-pi/verify.sh")
class VirtualPiIT {
    private static final Path LOGGER = Path.of("target", "logger.jar").toAbsolutePath();
    private static final Path DEMO = Path.of("..", "demo-data").toAbsolutePath();
    private static final String PLAYED = "02-bramble-bucket-port-a";
    private static final String STORED = "2026-01-01-0001.hold";

    /** The recording at rest and a supply of 5 V, divided by 10 and 15 kΩ; noise of some counts as every converter has. */
    private static final String AT_REST = """
            A=/sys/kernel/debug/ads1115-sim; M=/sys/kernel/debug/mcp3208-sim
            echo REST > $A/ain0; echo 3000000 > $A/ain1; echo 200 > $A/noise_uv
            echo 1500000 > $M/ain0; echo 3000000 > $M/ain1; echo 800 > $M/noise_uv
            """;

    private static final String WORKS = """
            java -jar /share/logger.jar run --config /share/logger.json --plan /share/plan.setup.json > logger.txt 2>&1
            """;

    private static final String CONFIGURATION = """
            { "instrument": "virtual logger", "rate": "100 Hz", "converter": { %s },
              "inputs": [ { "to": "250 bar", "dividerAbove": "10 kOhm", "dividerBelow": "15 kOhm" } ],
              "storage": { "state": "/data/holdtrace", "warnBelowMegabytes": 10, "stopBelowMegabytes": 5 },
              "sessions": { "endAfterRest": "5 s" },
              "link": { "serial": "/dev/ttyUSB0" } }
            """;

    private static final Pattern HOLDS = Pattern.compile("[0-9]{2}\\.[0-9] bar \\| hold ");

    private static Path folder;
    private static Path card;
    private static Recording recording;
    private static Analyser analyser;

    private static String checked;
    private static boolean ready;
    private static boolean atRest;
    /** A fault that was made: when, and when the right lamp went on, ns on the guest's steady clock. */
    private record Made(String name, long atNs, long lampNs) {}

    private static final List<Made> FAULTS = new ArrayList<>();
    private static List<PanelSign> signs;
    private static String fetchedOverPulledCable;
    private static long pulledAtBytes;
    private static List<Path> sessions;
    private static long edges;

    private static String live;
    private static double cutAtS;
    private static String mended;
    private static String checkedSpi;
    private static List<Path> sessionsAfterCut;

    @BeforeAll
    static void theMachineLivesThroughAWorkshopsDays() throws IOException, InterruptedException {
        Path built = Path.of(System.getProperty("virtual-pi"));
        folder = built.resolve("test");
        Files.createDirectories(folder);
        analyser = new Analyser(folder);
        recording = new Recording(DEMO.resolve(PLAYED + ".hold"));
        makeCard();
        try (Guest guest = Guest.boot(
                built,
                share(
                        "first",
                        true,
                        "java -jar /share/logger.jar check --config /share/logger.json > check.txt 2>&1\n"),
                card,
                Map.of("ADS", "bus_hz=400000,rdy=4"))) {
            firstDay(guest);
        }
        try (Guest guest = Guest.boot(built, share("second", false, ""), card, Map.of())) {
            secondDay(guest);
        }
        try (Guest guest = Guest.boot(
                built,
                share("third", false, "java -jar /share/logger.jar check --config /share/spi.json > check.txt 2>&1\n"),
                card,
                Map.of())) {
            thirdDay(guest);
        }
    }

    /** A card that holds a long session already. */
    private static void makeCard() throws IOException, InterruptedException {
        String rig = Files.readString(DEMO.resolve("rigs").resolve("04-bramble-lift-cylinder.rig.json"));
        Path longer = folder.resolve("long.rig.json");
        Files.writeString(longer, rig.replaceFirst("\"hold\": \"[^\"]*\"", "\"hold\": \"2 h\""));
        Path content = folder.resolve("card").resolve("holdtrace").resolve("sessions");
        Files.createDirectories(content);
        analyser.call(
                "simulate.txt",
                "simulate",
                longer.toString(),
                "--out",
                content.resolve(STORED).toString(),
                "--replace");
        card = folder.resolve("card.img");
        Files.deleteIfExists(card);
        Process make = new ProcessBuilder(
                        "mke2fs",
                        "-q",
                        "-t",
                        "ext4",
                        "-d",
                        folder.resolve("card").toString(),
                        card.toString(),
                        "64M")
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve("mke2fs.txt").toFile())
                .start();
        assertEquals(0, make.waitFor(), () -> analyser.said("mke2fs.txt"));
    }

    private static Path share(String name, boolean readyPin, String before) throws IOException {
        Path share = folder.resolve(name);
        Files.createDirectories(share);
        for (String old : List.of("logger.txt", "check.txt", "console.log")) {
            Files.deleteIfExists(share.resolve(old));
        }
        Files.copy(LOGGER, share.resolve("logger.jar"), StandardCopyOption.REPLACE_EXISTING);
        Files.copy(
                DEMO.resolve(PLAYED + ".setup.json"),
                share.resolve("plan.setup.json"),
                StandardCopyOption.REPLACE_EXISTING);
        Files.writeString(
                share.resolve("logger.json"),
                String.format(Locale.ROOT, CONFIGURATION, readyPin ? "\"readyPin\": 4" : ""));
        Files.writeString(
                share.resolve("spi.json"), String.format(Locale.ROOT, CONFIGURATION, "\"kind\": \"MCP3208\""));
        Files.writeString(share.resolve("wave.txt"), recording.wave());
        Files.writeString(
                share.resolve("run.sh"), AT_REST.replace("REST", String.valueOf(recording.restUv())) + before + WORKS);
        return share;
    }

    /** Faults while a session runs that the button began; then a hold test; then its sessions are fetched. */
    private static void firstDay(Guest guest) throws IOException, InterruptedException {
        guest.awaitLogger();
        checked = guest.said("check.txt");
        long sinceNs = guest.nowNs();
        ready = awaitSign(guest, PanelSign.READY, sinceNs);
        press(guest);
        sinceNs = guest.nowNs();
        atRest = awaitSign(guest, PanelSign.REST, sinceNs);
        fault(guest, "adc.bus", "nack", 1_000_000, 0);
        fault(guest, "adc.bus", "hang_ms", 3000, 0);
        fault(guest, "adc.bus", "brownout", 1, -1);
        fault(guest, "input.stuck", "stuck", 1, 0);
        fault(guest, "input.wire", "ain0", 0, recording.restUv());
        press(guest);
        awaitSign(guest, PanelSign.READY, guest.nowNs());
        play(guest);
        long playedNs = guest.setAtNs("play");
        long endNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(Math.round(recording.lengthS()) + 10);
        while (System.nanoTime() < endNs) {
            Thread.sleep(1000);
        }
        assertTrue(awaitSign(guest, PanelSign.READY, guest.nowNs()), "the session does not end");
        signs = guest.lamps().signs(playedNs, guest.nowNs());
        edges = Long.parseLong(guest.shell(
                        "awk '/gpio-pinsim +4 /{n=0; for(i=2;i<=NF;i++) if($i~/^[0-9]+$/) {n+=$i} else break; print n}' /proc/interrupts")
                .trim());
        fetchWhileTheCableIsPulled(guest);
        sessions = analyser.fetch(guest.usb(), "fetched");
        guest.shutDown();
    }

    private static void press(Guest guest) throws IOException, InterruptedException {
        guest.pin(Lamps.BUTTON, '0');
        Thread.sleep(500);
        guest.pin(Lamps.BUTTON, 'z');
    }

    private static boolean awaitSign(Guest guest, PanelSign sign, long sinceNs)
            throws IOException, InterruptedException {
        for (int i = 0; i < 30; i++) {
            Thread.sleep(1000);
            if (guest.lamps().showed(sign, sinceNs, guest.nowNs())) {
                return true;
            }
        }
        return false;
    }

    private static void play(Guest guest) throws IOException, InterruptedException {
        guest.shell("cat /share/wave.txt > " + Guest.ADS + "wave; echo 1 > " + Guest.ADS + "play");
    }

    /** Sets a switch of the converter's model, and waits for the lamps to tell; then sets it back and waits again. */
    private static void fault(Guest guest, String name, String key, long value, long back)
            throws IOException, InterruptedException {
        long beforeNs = guest.nowNs();
        guest.converter(key, value);
        long atNs = key.equals("ain0") ? beforeNs : guest.setAtNs(key);
        long lampNs = -1;
        for (int i = 0; i < 50 && lampNs < 0; i++) {
            Thread.sleep(100);
            lampNs = guest.lamps().onAfter(Lamps.RIGHT, atNs);
        }
        FAULTS.add(new Made(name, atNs, lampNs));
        // The lamp may tell of another fault that comes with this one: it stays until its own must have been named.
        Thread.sleep(1500);
        if (back >= 0) {
            guest.converter(key, back);
        }
        long backNs = guest.nowNs();
        assertTrue(awaitSign(guest, PanelSign.REST, backNs), "no recovery from " + name + "; " + FAULTS);
    }

    private static void fetchWhileTheCableIsPulled(Guest guest) throws IOException, InterruptedException {
        Path into = folder.resolve("fetched");
        if (Files.isDirectory(into)) {
            try (var old = Files.list(into)) {
                for (Path file : old.toList()) {
                    Files.delete(file);
                }
            }
        }
        Path part = into.resolve(STORED + ".part");
        Process fetching = analyser.start("cable.txt", "fetch", guest.usb().toString(), "--out", into.toString());
        guest.await(
                "the first bytes of a fetch",
                120,
                () -> !fetching.isAlive() || part.toFile().length() > 50_000);
        guest.pullCable();
        Thread.sleep(3000);
        pulledAtBytes = part.toFile().length();
        guest.putCableIn();
        fetchedOverPulledCable = analyser.ended(fetching, "cable.txt");
    }

    /** Followed live until the power fails in the middle of a hold. */
    private static void secondDay(Guest guest) throws IOException, InterruptedException {
        guest.awaitLogger();
        assertTrue(awaitSign(guest, PanelSign.READY, guest.nowNs()));
        Process follower = analyser.follow("live.txt", guest.usb());
        try {
            play(guest);
            guest.await(
                    "a hold seen by who follows",
                    90,
                    () -> HOLDS.matcher(analyser.said("live.txt")).find());
            Thread.sleep(10_000);
            double playedS = guest.setAtNs("play") / 1e9;
            long askedNs = System.nanoTime();
            double nowS = guest.nowNs() / 1e9;
            guest.cutPower();
            // At the latest: what the asking and cutting took is counted as recorded and lost.
            cutAtS = nowS - playedS + (System.nanoTime() - askedNs) / 1e9;
        } finally {
            follower.destroy();
        }
        live = analyser.said("live.txt");
    }

    private static void thirdDay(Guest guest) throws IOException, InterruptedException {
        guest.awaitLogger();
        checkedSpi = guest.said("check.txt");
        mended = guest.said("logger.txt");
        sessionsAfterCut = analyser.fetch(guest.usb(), "fetched");
        guest.shutDown();
    }

    private static double trueCm3PerMin() throws IOException {
        return 60e6
                * RigFile.read(DEMO.resolve("rigs").resolve(PLAYED + ".rig.json"))
                        .simulate()
                        .truth()
                        .leakM3PerS(120e5);
    }

    private static Analyser.Leak assertLeakIsFound(Path session) throws IOException, InterruptedException {
        Analyser.Leak leak = analyser.leak(session);
        double truth = trueCm3PerMin();
        System.out.printf(Locale.ROOT, "virtual Pi: leak true %.2f, found %s cm3/min%n", truth, leak);
        assertTrue(leak.lower95() <= truth && truth <= leak.upper95(), "true " + truth + ", found " + leak);
        return leak;
    }

    @Test
    void theWiringCheckFindsAllThereIs() {
        assertTrue(checked.contains("ADS1115 at 0x48 on i2c-1 answers as it should"), checked);
        assertTrue(checked.contains("Nothing is missing."), checked);
        assertFalse(checked.contains("doubt"), checked); // among others: the ready pin is heard
    }

    @Test
    void anSpiConverterIsReadThroughTheKernel() {
        assertTrue(checkedSpi.contains("MCP3208 at spidev0.0 answers as it should"), checkedSpi);
        // 1.5 V at the pin, 2.5 V before the divider, is the middle of 0.5 to 4.5 V and so of 0 to 250 bar.
        assertTrue(checkedSpi.matches("(?s).*pressure 12[45]\\.\\d\\d bar.*"), checkedSpi);
    }

    @Test
    void theButtonBeginsAndEndsASessionAndTheLampsSaySo() throws IOException {
        assertTrue(ready && atRest);
        Session session = HoldFileReader.read(sessions.get(1));
        assertEquals("stopped by the button", session.end().orElseThrow().reason());
    }

    @Test
    void everyFaultIsNamedWithinASecondOnTheLampsAndInTheSessionAndPassesByItself() throws IOException {
        Session session = HoldFileReader.read(sessions.get(1));
        // From the session's clock to the machine's: nothing but the first fault can have lit the lamp then. The lamp
        // is
        // a little later than the event, so each fault counts as named later than it was.
        long shiftNs = FAULTS.get(0).lampNs() - named(session, FAULTS.get(0).name(), Long.MIN_VALUE);
        for (Made made : FAULTS) {
            double lampS = (made.lampNs() - made.atNs()) / 1e9;
            double namedS = (named(session, made.name(), made.atNs() - shiftNs) + shiftNs - made.atNs()) / 1e9;
            System.out.printf(
                    Locale.ROOT,
                    "virtual Pi: %s: a lamp after %.2f s, named after %.2f s%n",
                    made.name(),
                    lampS,
                    namedS);
            assertTrue(lampS >= 0 && lampS <= 1, made + ": " + session.events());
            assertTrue(namedS >= 0 && namedS <= 1, made + ", named after " + namedS + " s: " + session.events());
        }
        assertEquals(List.of(), session.losses());
    }

    /** When a fault of that name is first told after {@code sinceNs}, ns on the session's clock. */
    private static long named(Session session, String name, long sinceNs) {
        for (SessionEvent event : session.events()) {
            if (event instanceof SessionEvent.Fault fault && fault.name().equals(name) && fault.timeNs() >= sinceNs) {
                return fault.timeNs();
            }
        }
        throw new AssertionError(name + " is not named after " + sinceNs + " ns: " + session.events());
    }

    @Test
    void theLampsLeadThroughTheHoldTest() {
        // Settling is over before a whole cycle of its sign: this spool leaks too much.
        assertTrue(signs.contains(PanelSign.KEEP_PUMPING) && signs.contains(PanelSign.ENOUGH), signs.toString());
        assertTrue(signs.indexOf(PanelSign.KEEP_PUMPING) < signs.indexOf(PanelSign.ENOUGH), signs.toString());
        assertFalse(
                signs.contains(PanelSign.SENSOR_FAULT) || signs.contains(PanelSign.RECORDING_FAULT), signs.toString());
    }

    @Test
    void aPlayedHoldTestIsRecordedMarkedAndFetchedAndItsLeakIsFound() throws IOException, InterruptedException {
        Session session = HoldFileReader.read(sessions.get(2));
        assertFalse(session.header().simulated());
        assertEquals(List.of(), session.losses());
        assertEquals(
                "at rest for 5 s after a hold test", session.end().orElseThrow().reason());
        for (Phase phase : List.of(Phase.PUMP_UP, Phase.SETTLING, Phase.HOLD, Phase.BLEED_OFF)) {
            assertTrue(
                    session.events().stream()
                            .anyMatch(event -> event instanceof SessionEvent.PhaseMark mark && mark.phase() == phase),
                    phase + " is not among " + session.events());
        }
        System.out.println("virtual Pi: edges of the ready pin " + edges + "; "
                + session.events().stream()
                        .filter(event -> event instanceof SessionEvent.Jitter)
                        .toList());
        double truth = trueCm3PerMin();
        assertEquals(truth, assertLeakIsFound(sessions.get(2)).cm3PerMin(), 0.1 * truth);
    }

    @Test
    void aCablePulledDuringAFetchCostsNothing() throws IOException {
        assertTrue(pulledAtBytes > 0, fetchedOverPulledCable);
        assertTrue(fetchedOverPulledCable.contains("trying again"), fetchedOverPulledCable);
        assertTrue(fetchedOverPulledCable.contains("completed and compared"), fetchedOverPulledCable);
        System.out.println("virtual Pi: cable pulled at " + pulledAtBytes + " bytes");
        Path original =
                folder.resolve("card").resolve("holdtrace").resolve("sessions").resolve(STORED);
        assertArrayEquals(Files.readAllBytes(original), Files.readAllBytes(sessions.get(0)));
    }

    @Test
    void aPowerCutDuringAHoldCostsASecondAtMostAndTheNextStartMends() throws IOException, InterruptedException {
        assertTrue(live.contains("| pump-up ") && live.contains("| hold "), live);
        Path file = sessionsAfterCut.get(3);
        assertTrue(mended.contains(file.getFileName() + " was cut short after "), mended);
        Session session = HoldFileReader.read(file);
        assertTrue(session.end().orElseThrow().reason().contains("cut short"));
        assertEquals(List.of(), session.losses());
        Trace trace = session.trace();
        double lastS = trace.timeS(trace.size() - 1) + recording.shiftS(trace);
        System.out.printf(
                Locale.ROOT, "virtual Pi: power cut at %.2f s at the latest, recorded to %.2f s%n", cutAtS, lastS);
        assertTrue(cutAtS - lastS <= 1, "cut at " + cutAtS + " s, recorded to " + lastS + " s");
        Analyser.Leak unused = assertLeakIsFound(file);
    }
}
