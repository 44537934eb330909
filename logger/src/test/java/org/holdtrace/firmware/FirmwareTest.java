package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.channels.WritableByteChannel;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BooleanSupplier;
import org.holdtrace.adc.Ads1115;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.adc.model.Ads1115Model;
import org.holdtrace.adc.model.ModelRegisterBus;
import org.holdtrace.panel.NoPanel;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.record.DiskStorage;
import org.holdtrace.record.Storage;
import org.holdtrace.serve.LiveListener;
import org.holdtrace.serve.LoggerState;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.holdtrace.session.SessionEvent;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The whole firmware in real time, on a model of its converter that is exact to the register. */
class FirmwareTest {
    private static final double RATE_HZ = 250;
    private static final double TO_PA = 250e5;

    @TempDir
    Path folder;

    private final SteadyClock clock = SteadyClock.system();
    private volatile double pressurePa = 1e5;
    private volatile long risesFromNs = Long.MAX_VALUE;
    private volatile double noisePart = 1;
    private volatile long roomBytes = 1_000_000_000_000L;
    private Ads1115Model chip;
    private Firmware firmware;

    @BeforeEach
    void start() throws IOException {
        firmware = firmware();
        await("samples", () -> !Double.isNaN(firmware.state().status().pressurePa()));
    }

    private Firmware firmware() throws IOException {
        Configuration configuration = Configuration.simulated("test rig", RATE_HZ, TO_PA, folder);
        chip = new Ads1115Model(
                clock,
                (pin, timeNs) -> configuration.inputs().get(pin).pinVolts(pin == 0 ? pressure(timeNs) : 5.0, 5.0));
        Ads1115 converter = new Ads1115(
                new ModelRegisterBus(chip, clock, 400_000),
                ConverterPlan.Ads.setup(configuration.inputs(), RATE_HZ, 5.0),
                clock);
        PlanFile planFile = new PlanFile(folder);
        Equipment equipment =
                new Equipment(configuration, true, converter, clock, new NoPanel(), new CalibrationStore(folder));
        return new Firmware(equipment, planFile.read(), planFile, () -> {}, new Disk(new DiskStorage(folder)));
    }

    /** The folder, with as much room as a test says. */
    private final class Disk implements Storage {
        private final DiskStorage folder;

        Disk(DiskStorage folder) {
            this.folder = folder;
        }

        @Override
        public WritableByteChannel create(String name) throws IOException {
            return folder.create(name);
        }

        @Override
        public void force(WritableByteChannel channel, boolean name) throws IOException {
            folder.force(channel, name);
        }

        @Override
        public void discard(String name) throws IOException {
            folder.discard(name);
        }

        @Override
        public long usableBytes() {
            return roomBytes;
        }
    }

    /** Noise of some counts, so that it looks like a transducer; strokes of half a second once it rises. */
    private double pressure(long timeNs) {
        double noise = 5e3 * Math.sin(timeNs * 1e-6) + 5e3 * Math.sin(timeNs * 3.7e-7);
        double s = Math.max(0, (timeNs - risesFromNs) / 1e9);
        double strokes = Math.floor(s) + Math.min(1, 2 * (s - Math.floor(s)));
        return pressurePa + noisePart * noise + 15e5 * Math.min(6, strokes);
    }

    @AfterEach
    void end() {
        firmware.close();
    }

    private static void await(String what, BooleanSupplier until) {
        Instant end = Instant.now().plus(Duration.ofSeconds(20));
        while (!until.getAsBoolean()) {
            assertTrue(Instant.now().isBefore(end), "waited in vain for " + what);
            sleep(20);
        }
    }

    private static void sleep(long ms) {
        try {
            Thread.sleep(ms);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private Session recorded(String name) throws IOException {
        return HoldFileReader.read(firmware.file(name));
    }

    private static boolean hasFault(Session session, String name) {
        return session.events().stream()
                .anyMatch(event -> event instanceof SessionEvent.Fault fault
                        && fault.name().equals(name));
    }

    @Test
    void aSessionStartsAndStopsOverTheLinkAndHasTheSecondsBefore() throws IOException {
        sleep(1500);
        String name = firmware.start();
        assertEquals(name, firmware.start(), "one that runs is the one that is meant");
        await("the state", () -> firmware.state().status().session().equals(Optional.of(name)));
        assertTrue(firmware.sessions().get(0).open());
        sleep(500);
        firmware.stop();
        firmware.stop();
        Session session = recorded(name);
        assertEquals("stopped over the link", session.end().orElseThrow().reason());
        assertEquals(List.of(), session.losses());
        assertEquals(List.of(), session.remarks());
        long lengthNs = session.timesNs(0)[session.sampleCount(0) - 1];
        assertTrue(lengthNs > 1_800_000_000L, "seconds before the start are missing: " + lengthNs + " ns");
        assertFalse(firmware.sessions().get(0).open());
        assertThrows(IOException.class, () -> firmware.file("../" + name));
    }

    @Test
    void aSteadyInputThatMovesByOneStepOfTheConverterIsNoStroke() throws IOException {
        noisePart = 0;
        firmware.close();
        firmware = firmware();
        sleep(2000);
        double stepPa =
                firmware.state().header().channels().get(0).calibration().perCount();
        double fromPa = pressurePa;
        for (int i = 1; i <= 3; i++) {
            pressurePa = fromPa + i * stepPa;
            sleep(700);
        }
        assertEquals(0, firmware.state().status().strokes());
        assertEquals(Optional.of(Phase.REST), firmware.state().status().phase());
        assertEquals(Optional.empty(), firmware.state().status().session());
    }

    @Test
    void theHeaderThatClientsAreSentStaysTheSameWhereNothingChanges() throws IOException {
        firmware.start();
        LoggerState first = firmware.state();
        await(
                "another state",
                () -> firmware.state().status().timeNs() > first.status().timeNs() + 300_000_000);
        assertEquals(first.header(), firmware.state().header());
    }

    @Test
    void pressureThatRisesBeginsASessionByItself() throws IOException {
        sleep(3000);
        risesFromNs = clock.nanoTime() + 200_000_000;
        await("a session", () -> firmware.state().status().session().isPresent());
        await("strokes", () -> firmware.state().status().strokes() >= 2);
        sleep(300);
        firmware.stop();
        Session session = recorded(firmware.sessions().get(0).name());
        double first = session.trace().pressurePa(0);
        assertEquals(1e5, first, 1e5);
        assertTrue(session.trace().timeS(session.trace().size() - 1) > 3);
        assertTrue(session.events().stream().anyMatch(e -> e instanceof SessionEvent.StrokeMark));
    }

    @Test
    void aDiskThatGetsFullInAHoldEndsTheSessionAndRoomThatIsMadeBeginsAnother() throws IOException {
        pressurePa = 100e5;
        firmware.close();
        firmware = firmware();
        await("a hold", () -> firmware.state().status().phase().equals(Optional.of(Phase.HOLD)));
        assertEquals(
                "nothing is being recorded: pump, or start a session",
                firmware.state().status().advice());
        String name = firmware.start();
        roomBytes = 400_000_000;
        await("little room", () -> faults().equals(List.of("disk.low")));
        roomBytes = 40_000_000;
        await("no room", () -> faults().equals(List.of("disk.low", "disk.full")));
        await("the end", () -> firmware.state().status().session().isEmpty());
        roomBytes = 1_000_000_000_000L;
        await("another session", () -> firmware.state().status().session().isPresent());
        await("no fault", () -> faults().isEmpty());
        sleep(300);
        firmware.stop();
        assertEquals(2, firmware.sessions().size());
        Session first = recorded(name);
        assertTrue(hasFault(first, "disk.low") && hasFault(first, "disk.full"));
        assertFalse(hasNote(first, "is over"), "it got worse, it was not over");
        assertEquals("the disk is full", first.end().orElseThrow().reason());
        assertTrue(hasNote(recorded(firmware.sessions().get(1).name()), "begun: there is room on the disk again"));
    }

    private List<String> faults() {
        return firmware.state().status().faults().stream()
                .map(fault -> fault.substring(0, fault.indexOf(':')))
                .toList();
    }

    private static boolean hasNote(Session session, String part) {
        return session.events().stream()
                .anyMatch(event ->
                        event instanceof SessionEvent.Note note && note.text().contains(part));
    }

    @Test
    void aBusThatFailsIsNamedWithinASecondAndReadingRecoversWithoutAnInventedSample() throws IOException {
        String name = firmware.start();
        sleep(300);
        chip.unplug(true);
        long failedNs = clock.nanoTime();
        await("the fault", () -> firmware.state().status().faults().stream().anyMatch(f -> f.startsWith("adc.bus")));
        assertTrue(clock.nanoTime() - failedNs < 1_000_000_000, "named too late");
        sleep(700);
        chip.unplug(false);
        chip.brownOut();
        await("recovery", () -> firmware.state().status().faults().isEmpty());
        await("samples", () -> !Double.isNaN(firmware.state().status().pressurePa()));
        sleep(300);
        firmware.stop();
        Session session = recorded(name);
        assertTrue(hasFault(session, "adc.bus"));
        long longest = 0;
        long[] times = session.timesNs(0);
        for (int i = 1; i < times.length; i++) {
            longest = Math.max(longest, times[i] - times[i - 1]);
            // Every sample is what the pins had: nothing was made up while the wire was out or the chip reset.
            assertEquals(1e5, session.trace().pressurePa(i), 0.3e5);
        }
        assertTrue(longest > 600_000_000, "a gap of " + longest + " ns");
    }

    @Test
    void aBrokenWireIsNamedAndReadingGoesOn() throws IOException {
        String name = firmware.start();
        pressurePa = -40e5; // below 0.25 V
        await("the fault", () -> firmware.state().status().faults().stream().anyMatch(f -> f.startsWith("input.wire")));
        pressurePa = 1e5;
        await("recovery", () -> firmware.state().status().faults().isEmpty());
        firmware.stop();
        assertTrue(hasFault(recorded(name), "input.wire"));
    }

    @Test
    void aConverterThatHangsIsNamedAndNothingElseForIt() throws IOException {
        pressurePa = 60e5;
        String name = firmware.start();
        sleep(1500);
        chip.hang(true);
        await(
                "the fault",
                () -> firmware.state().status().faults().stream().anyMatch(f -> f.startsWith("input.stuck")));
        sleep(2500); // the supply is read each second: what hangs gives the pressure's code for it
        chip.hang(false);
        await("recovery", () -> firmware.state().status().faults().isEmpty());
        firmware.stop();
        List<String> named = recorded(name).events().stream()
                .filter(event -> event instanceof SessionEvent.Fault)
                .map(event -> ((SessionEvent.Fault) event).name())
                .distinct()
                .toList();
        assertEquals(List.of("input.stuck"), named);
    }

    @Test
    void aPlugThatIsPutBackIsNoStrokeAndWhatFollowsNoHold() {
        await("rest", () -> firmware.state().status().phase().equals(Optional.of(Phase.REST)));
        pressurePa = -40e5; // below 0.25 V
        await("the fault", () -> firmware.state().status().faults().stream().anyMatch(f -> f.startsWith("input.wire")));
        pressurePa = 1e5; // 41 bar more at once
        await("recovery", () -> firmware.state().status().faults().isEmpty());
        for (int i = 0; i < 30; i++) {
            sleep(100);
            assertEquals(Optional.of(Phase.REST), firmware.state().status().phase());
            assertEquals(0, firmware.state().status().strokes());
        }
    }

    @Test
    void aZeroIsTakenAtRestKeptAndRefusedWhileASessionRuns() throws IOException {
        await("rest", () -> zeroTaken());
        assertEquals(0, firmware.state().status().pressurePa(), 0.3e5);
        firmware.start();
        assertThrows(IOException.class, firmware::zero);
        firmware.stop();
        // One call may ask for all of it: the line has been at rest all the time.
        firmware.zero();
        firmware.plan(TestSetup.unknown().withLineCompliance(new Quantity(9e-14, 5e-15)));
        firmware.zero();
        firmware.close();
        firmware = firmware();
        await("samples", () -> !Double.isNaN(firmware.state().status().pressurePa()));
        assertEquals(0, firmware.state().status().pressurePa(), 0.3e5);
    }

    private boolean zeroTaken() {
        try {
            firmware.zero();
            return true;
        } catch (IOException e) {
            return false; // not at rest for long enough yet
        }
    }

    @Test
    void aPlanStandsAtTheHeadOfTheNextSessionAndOutlivesARestart() throws IOException {
        TestSetup plan = TestSetup.unknown().withLineCompliance(new Quantity(9e-14, 5e-15));
        firmware.plan(plan);
        String name = firmware.start();
        firmware.stop();
        assertEquals(plan, recorded(name).setup());
        firmware.close();
        firmware = firmware();
        assertEquals(plan, firmware.state().header().setup());
        String next = firmware.start();
        firmware.stop();
        assertEquals(plan, recorded(next).setup());
        assertFalse(next.equals(name));
    }

    @Test
    void whoFollowsHearsEverySampleAndOneThatThrowsIsLetGo() {
        AtomicInteger heard = new AtomicInteger();
        List<LoggerState> states = new CopyOnWriteArrayList<>();
        LiveListener good = new LiveListener() {
            private long lastNs;

            @Override
            public void samples(int channel, long[] timeNs, int[] counts, int from, int to) {
                if (channel == 0) {
                    for (int i = from; i < to; i++) {
                        assertTrue(timeNs[i] > lastNs);
                        lastNs = timeNs[i];
                    }
                    heard.addAndGet(to - from);
                }
            }

            @Override
            public void event(SessionEvent event) {}

            @Override
            public void state(LoggerState state) {
                states.add(state);
            }
        };
        AtomicInteger called = new AtomicInteger();
        LiveListener bad = new LiveListener() {
            @Override
            public void samples(int channel, long[] timeNs, int[] counts, int from, int to) {
                called.incrementAndGet();
                throw new IllegalStateException("a listener that fails");
            }

            @Override
            public void event(SessionEvent event) {}

            @Override
            public void state(LoggerState state) {}
        };
        firmware.follow(bad);
        firmware.follow(good);
        await("samples and states", () -> heard.get() > 100 && !states.isEmpty());
        firmware.forget(good);
        sleep(50);
        int then = heard.get();
        sleep(200);
        assertEquals(then, heard.get());
        assertEquals(1, called.get());
        assertEquals(null, firmware.died());
    }

    @Test
    void aClockThatIsSetIsTold() throws IOException {
        sleep(1200);
        String name = firmware.start();
        firmware.clock(Instant.now().plus(Duration.ofHours(5)));
        sleep(2300);
        firmware.stop();
        Session session = recorded(name);
        SessionEvent.ClockJump jump = (SessionEvent.ClockJump) session.events().stream()
                .filter(e -> e instanceof SessionEvent.ClockJump)
                .findFirst()
                .orElseThrow();
        assertEquals(5 * 3600.0, jump.jumpNs() / 1e9, 1);
    }
}
