package org.holdtrace.benchmark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

/** That the benchmark of the logger counts what it says. */
class TickGridTest {
    private static final long MS = 1_000_000;
    private static final double PERIOD_NS = 4 * MS;

    /** A hundred ticks from 7 ms on, each 0.02 ms late, but for those that a test changes or leaves out. */
    private static long[] ticks(LongStream without, long... late) {
        List<Long> out = without.boxed().toList();
        return LongStream.range(0, 100)
                .filter(tick -> !out.contains(tick))
                .map(tick -> 7 * MS + 4 * MS * tick + (tick < late.length ? late[(int) tick] : 0) + 20_000)
                .toArray();
    }

    @Test
    void punctualSamplesMissNothing() {
        TickGrid grid = new TickGrid(ticks(LongStream.empty()), PERIOD_NS);
        assertEquals(0, grid.missed());
        assertTrue(
                grid.lateness().maxNs() < 100_000, "late by " + grid.lateness().maxNs());
    }

    @Test
    void aSampleLaterThanAPeriodIsLateAndNotMissing() {
        // Tick 2 is read 6 ms late, tick 3 at once behind it.
        TickGrid grid = new TickGrid(ticks(LongStream.empty(), 0, 0, 6 * MS, 2_500_000), PERIOD_NS);
        assertEquals(0, grid.missed());
        assertEquals(6, Math.round(grid.lateness().maxNs() / 1e6));
    }

    @Test
    void ticksWithoutASampleAreCountedWhereTheyWere() {
        TickGrid grid = new TickGrid(ticks(LongStream.of(40, 41, 42, 77)), PERIOD_NS);
        assertEquals(4, grid.missed());
        assertEquals(2, grid.gaps().size());
        assertEquals((double) (7 * MS + 160 * MS), (double) grid.gaps().get(0).fromNs(), 100_000);
        assertEquals(3, grid.gaps().get(0).missed());
    }

    @Test
    void ticksMissingOnBothSidesOfOneReadingAreOneGap() {
        // A reading that took long is stamped with its middle: the ticks on both sides of tick 50 went by meanwhile.
        TickGrid grid = new TickGrid(ticks(LongStream.of(48, 49, 51, 60, 63)), PERIOD_NS);
        assertEquals(5, grid.missed());
        assertEquals(
                List.of(3L, 1L, 1L),
                grid.gaps().stream().map(TickGrid.Gap::missed).toList());
        assertEquals((double) (7 * MS + 192 * MS), (double) grid.gaps().get(0).fromNs(), 100_000);
        assertEquals((double) (7 * MS + 208 * MS), (double) grid.gaps().get(0).untilNs(), 100_000);
    }

    @Test
    void aGapIsAccountedForOnlyByAllButAPeriodOfIt() {
        Stretches stalls = new Stretches(PERIOD_NS);
        stalls.add(1_000_000_000L, 1_004_500_000L);
        stalls.add(2_000_000_000L, 2_001_000_000L);
        Stretches others = new Stretches(PERIOD_NS);
        others.add(1_004_000_000L, 1_008_000_000L);
        others.add(3_000_000_000L, 3_004_100_000L);
        stalls.addAll(others);
        // One after the other: 8 ms.
        assertTrue(stalls.explain(new TickGrid.Gap(0, 12 * MS, 3), 1_000_000_000L));
        assertFalse(stalls.explain(new TickGrid.Gap(0, 16 * MS, 4), 1_000_000_000L), "12 ms are needed");
        assertFalse(stalls.explain(new TickGrid.Gap(0, 4 * MS, 1), 2_000_000_000L), "1 ms keeps no sampler");
        assertTrue(stalls.explain(new TickGrid.Gap(0, 4 * MS, 1), 3_000_000_000L));
        assertFalse(stalls.explain(new TickGrid.Gap(0, 4 * MS, 1), 3_009_000_000L), "it was over before");
        assertEquals(0.00131, stalls.share(10_000_000_000L), 1e-9);
    }
}
