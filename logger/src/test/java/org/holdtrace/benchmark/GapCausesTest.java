package org.holdtrace.benchmark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** That a missed sample is laid at the right door. */
class GapCausesTest {
    private static final long MS = 1_000_000;
    private static final double PERIOD_NS = 4 * MS;

    @TempDir
    Path folder;

    /** What is said of ticks 4 ms apart, of which some have no sample, by what the probes printed. */
    private String said(String stalls, String thread, Long... without) throws IOException {
        List<Long> out = List.of(without);
        long[] timesNs = LongStream.range(0, 1000)
                .filter(tick -> !out.contains(tick))
                .map(tick -> 4 * MS * tick)
                .toArray();
        GapCauses causes = new GapCauses(PERIOD_NS);
        Path stallFile = folder.resolve("stalls.txt");
        Path threadFile = folder.resolve("thread.txt");
        Path stops = folder.resolve("safepoints.txt");
        Files.writeString(stallFile, stalls);
        Files.writeString(threadFile, thread);
        Files.writeString(stops, "");
        causes.addStalls(stallFile);
        causes.addThread(threadFile);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (PrintStream to = new PrintStream(bytes, true, StandardCharsets.UTF_8)) {
            causes.print(to, new TickGrid(timesNs, PERIOD_NS), 0, 4_000 * MS, new Safepoints(stops));
        }
        return bytes.toString(StandardCharsets.UTF_8);
    }

    private static void assertSays(String said, String words) {
        assertTrue(said.lines().anyMatch(line -> line.strip().startsWith(words)), said);
    }

    @Test
    void eachCauseIsCountedApart() throws IOException {
        // Ticks 100 to 102 are missing: 400 to 412 ms; 200 to 202: 800 to 812; 300 to 302: 1200 to 1212; 400, 401: 1600
        // to 1608;
        // 500, 501: 2000 to 2008.
        String said = said(
                "400000000 411000000\n1200000000 1204500000\n",
                "wait 800000000 811000000\nwait 1204500000 1209000000\nrun 1599000000 1607000000\n",
                100L,
                101L,
                102L,
                200L,
                201L,
                202L,
                300L,
                301L,
                302L,
                400L,
                401L,
                500L,
                501L);
        assertSays(said, "3 in 1 gaps where a processor stood still");
        assertSays(said, "3 in 1 gaps where the sampling thread could have run");
        assertSays(said, "3 in 1 gaps where the one came on top of the other");
        assertSays(said, "2 in 1 gaps where the sampling thread itself was at work");
        assertSays(said, "2 in 1 gaps that nothing accounts for");
        assertSays(said, "at 1.600 s");
        assertSays(said, "at 2.000 s");
        assertEquals(
                1, said.lines().filter(line -> line.contains("ran 8.00 ms")).count(), said);
    }

    @Test
    void aMessagesTimeOnItsWayIsTakenOff() throws IOException {
        // The probes' clock is 30 ms behind what the first guess says.
        String said = said("370000000 382000000\n1970000000 1982000000\n", "", 100L, 101L, 102L, 500L, 501L, 502L);
        assertSays(said, "6 in 2 gaps where a processor stood still");
        assertSays(said, "by chance, with clocks a second apart, 0 of 6");
    }

    @Test
    void theKernelsBooksOfAThreadAreRead() throws IOException {
        assumeTrue(Files.exists(Path.of("/proc/thread-self/schedstat")), "no Linux");
        try (Schedstat own = Schedstat.ofThisThread()) {
            long before = own.ranNs();
            long fromNs = System.nanoTime();
            while (System.nanoTime() - fromNs < 30 * MS) {
                Thread.onSpinWait();
            }
            own.read();
            long took = System.nanoTime() - fromNs;
            long booked = own.ranNs() - before + own.waitedNs();
            // Booked at the kernel's own tick at the latest, 10 ms apart.
            assertTrue(own.ranNs() > before, "30 ms of work are booked");
            assertTrue(own.ranNs() - before < took + 10 * MS, booked + " ns booked for " + took);
        }
    }
}
