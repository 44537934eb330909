package org.holdtrace.session;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ArbitrarySupplier;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import net.jqwik.api.constraints.Size;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class HoldFileTest {
    @Test
    void everythingWrittenComesBack(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("a.hold");
        try (HoldFileWriter writer = HoldFileWriter.create(file, Sessions.header(true))) {
            Sessions.countedBlock(writer, 0);
            writer.samples(1, new long[] {0, 5}, new int[] {Integer.MIN_VALUE, Integer.MAX_VALUE}, 0, 2);
            writer.samples(Sessions.OIL, new long[] {9, 10_000_000, 12}, new int[] {7, 200, 8}, 1, 2);
            for (SessionEvent event : Sessions.events()) {
                writer.event(event);
            }
            Sessions.countedBlock(writer, 1);
            writer.truth(Sessions.truth());
            writer.force();
            writer.end("stopped by button");
        }
        Session session = HoldFileReader.read(file);
        assertEquals(Sessions.header(true), session.header());
        assertEquals(Sessions.header(true).setup(), session.setup());
        assertEquals(Sessions.events(), session.events());
        assertEquals(List.of(Sessions.truth()), session.truth());
        assertEquals(Optional.of(new EndMark("stopped by button", 14, Map.of(0, 20L, 1, 2L, 2, 1L))), session.end());
        assertEquals(List.of(), session.losses());
        assertEquals(List.of(), session.remarks());
        assertArrayEquals(new int[] {Integer.MIN_VALUE, Integer.MAX_VALUE}, session.counts(1));
        assertArrayEquals(new long[] {0, 5}, session.timesNs(1));
        assertArrayEquals(new int[] {200}, session.counts(Sessions.OIL));
        assertEquals(20, session.sampleCount(Sessions.PRESSURE));
        for (int i = 0; i < 20; i++) {
            assertEquals(i, session.counts(Sessions.PRESSURE)[i]);
            assertEquals(i * Sessions.STEP_NS, session.timesNs(Sessions.PRESSURE)[i]);
        }
    }

    @Test
    void theTraceIsTheCountsThroughTheCalibration() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(out), Sessions.header(false))) {
            writer.samples(Sessions.PRESSURE, new long[] {0, 500_000_000}, new int[] {4000, 16_000}, 0, 2);
            writer.samples(1, new long[] {0}, new int[] {20_000}, 0, 1);
            writer.samples(Sessions.OIL, new long[] {400_000_000}, new int[] {220}, 0, 1);
            writer.samples(
                    Sessions.PRESSURE, new long[] {5_300_000_000L, 5_500_000_000L}, new int[] {36_000, 4000}, 0, 2);
            writer.end("done");
        }
        Session session = Sessions.read(out.toByteArray());
        Trace trace = session.trace();
        assertEquals(Optional.of(Instant.parse("2026-03-01T08:00:00.250Z")), trace.start());
        // 4000 counts of 125 µV are 0.5 V, the low point; 16 000 are 2 V, three eighths of the way to 4.5 V
        assertEquals(0, trace.pressurePa(0), 1e-6);
        assertEquals(2.5e7 * 1.5 / 4, trace.pressurePa(1), 1e-6);
        assertEquals(2.5e7, trace.pressurePa(2), 1e-6);
        assertEquals(0.5, trace.timeS(1));
        assertTrue(trace.hasOilTemperature());
        assertFalse(trace.hasAmbientTemperature());
        assertTrue(Double.isNaN(trace.oilTemperatureK(0)), "before the first reading");
        assertEquals(295.15, trace.oilTemperatureK(1), 1e-9);
        assertEquals(295.15, trace.oilTemperatureK(2), 1e-9);
        assertTrue(Double.isNaN(trace.oilTemperatureK(3)), "more than five intervals of 1 s after the last reading");
        assertEquals(2.5e7 * 2 / 4, session.trace(1).pressurePa(0), 1e-6);
        assertThrows(IllegalArgumentException.class, () -> session.trace(7));
    }

    @Test
    void aLaterCalibrationCanBeApplied() throws IOException {
        Session session = Sessions.read(Sessions.counted(1));
        Calibration later = Calibration.line(1, new Calibration.Point(0, 100), new Calibration.Point(1, 102));
        Trace trace = session.withCalibration(Sessions.PRESSURE, later).trace();
        assertEquals(100 + 2 * 7, trace.pressurePa(7), 1e-12);
        assertEquals(
                Sessions.pressureCalibration(),
                session.header().channels().get(0).calibration());
    }

    @Test
    void aRecordingIsNeverWrittenOver(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("a.hold");
        HoldFileWriter.create(file, Sessions.header(false)).close();
        assertThrows(FileAlreadyExistsException.class, () -> HoldFileWriter.create(file, Sessions.header(false)));
    }

    @Test
    void aWriterRefusesWhatNoReaderShouldMeet() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(out), Sessions.header(false))) {
            Sessions.countedBlock(writer, 1);
            long before = out.size();
            assertEquals(
                    "channel 0: time goes back from 76000000 ns to 0 ns",
                    assertThrows(IllegalArgumentException.class, () -> Sessions.countedBlock(writer, 0))
                            .getMessage());
            assertEquals(
                    "the session has no channel 9",
                    assertThrows(IllegalArgumentException.class, () -> writer.samples(9, new long[1], new int[1], 0, 1))
                            .getMessage());
            assertEquals(
                    "only a simulated session has a known truth",
                    assertThrows(IllegalArgumentException.class, () -> writer.truth(Sessions.truth()))
                            .getMessage());
            writer.samples(0, new long[0], new int[0], 0, 0);
            assertEquals(before, out.size(), "nothing of that reached the file");
        }
    }

    @Test
    void aHeaderNeedsAPressureAndChannelsOfTheirOwnNumber() {
        SessionHeader header = Sessions.header(false);
        Channel oil = header.channels().get(2);
        Channel pressure = header.channels().get(0);
        for (List<Channel> channels : List.of(List.of(oil), List.of(pressure, pressure))) {
            assertThrows(
                    IllegalArgumentException.class,
                    () -> new SessionHeader("", "", Optional.empty(), false, channels, TestSetup.unknown()));
        }
    }

    @Property(tries = 300)
    void samplesOfAnyTimingAndSizeComeBackExactly(
            @ForAll @Size(min = 1, max = 60) List<@LongRange(min = 0, max = 5_000_000_000L) Long> steps,
            @ForAll boolean microseconds,
            @ForAll boolean evenly,
            @ForAll int seed)
            throws IOException {
        long[] times = new long[steps.size()];
        int[] counts = new int[steps.size()];
        for (int i = 0; i < steps.size(); i++) {
            long step = steps.get(evenly ? 0 : i) / (microseconds ? 1_000_000 : 1) * (microseconds ? 1000 : 1);
            times[i] = (i == 0 ? 0 : times[i - 1]) + step;
            counts[i] = seed % 2 == 0 ? (short) (seed + i * 31) : seed * (i + 1);
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (HoldFileWriter writer = HoldFileWriter.to(Channels.newChannel(out), Sessions.header(false))) {
            int half = times.length / 2;
            writer.samples(0, times, counts, 0, half);
            writer.samples(0, times, counts, half, times.length);
            writer.end("done");
        }
        Session session = Sessions.read(out.toByteArray());
        assertArrayEquals(times, session.timesNs(0));
        assertArrayEquals(counts, session.counts(0));
        assertEquals(List.of(), session.losses());
        assertEquals(List.of(), session.remarks());
    }

    @Property(tries = 100)
    void anySetupTravelsInTheHeader(@ForAll(supplier = SetupSupplier.class) TestSetup setup) throws IOException {
        SessionHeader whole = Sessions.header(true);
        SessionHeader header = new SessionHeader("", "", Optional.empty(), false, whole.channels(), setup);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        HoldFileWriter.to(Channels.newChannel(out), header).close();
        Session session = Sessions.read(out.toByteArray());
        assertEquals(header, session.header());
    }

    static final class SetupSupplier implements ArbitrarySupplier<TestSetup> {
        @Override
        public Arbitrary<TestSetup> get() {
            return SetupRoundTripTest.setups();
        }
    }
}
