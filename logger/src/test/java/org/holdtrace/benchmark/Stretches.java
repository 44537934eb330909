package org.holdtrace.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** When each processor stood still, as its {@link StallProbe} saw it. */
final class Stalls {
    /** Longest time a state takes from the logger to who listens, ns: it is told twenty times a second. */
    private static final long ON_THE_WAY_NS = 80_000_000;

    private static final long FINE_NS = 100_000;

    /** Times when at least one processor stood still, in order, none touching another. */
    private final TreeMap<Long, Long> untilByFrom = new TreeMap<>();

    private final double periodNs;

    /** For a sampler with {@code periodNs} between ticks. */
    Stalls(double periodNs) {
        this.periodNs = periodNs;
    }

    /** Takes what the probe of one more processor printed. */
    void add(Path printed) throws IOException {
        for (String line : Files.readAllLines(printed)) {
            int space = line.indexOf(' ');
            add(Long.parseLong(line.substring(0, space)), Long.parseLong(line.substring(space + 1)));
        }
    }

    private void add(long fromNs, long untilNs) {
        long from = fromNs;
        long until = untilNs;
        Map.Entry<Long, Long> touching = untilByFrom.floorEntry(until);
        while (touching != null && touching.getValue() >= from) {
            from = Math.min(from, touching.getKey());
            until = Math.max(until, touching.getValue());
            untilByFrom.remove(touching.getKey());
            touching = untilByFrom.floorEntry(until);
        }
        untilByFrom.put(from, until);
    }

    /**
     * What to add to the times of gaps to have those of the probes: known to be {@code atMostNs} less what a message was on
     * its way; of such offsets the one by which gaps and stalls fall together most.
     */
    long offsetNs(List<TickGrid.Gap> gaps, long atMostNs) {
        long best = atMostNs;
        long most = -1;
        for (long offsetNs = atMostNs; offsetNs > atMostNs - ON_THE_WAY_NS; offsetNs -= FINE_NS) {
            long together = 0;
            for (TickGrid.Gap gap : gaps) {
                together += within(gap.fromNs() + offsetNs, gap.untilNs() + offsetNs);
            }
            if (together > most) {
                most = together;
                best = offsetNs;
            }
        }
        return best;
    }

    /** For how long a processor stood still between two times, ns. */
    private long within(long fromNs, long untilNs) {
        Long first = untilByFrom.floorKey(fromNs);
        long all = 0;
        for (Map.Entry<Long, Long> stall : untilByFrom
                .subMap(first == null ? fromNs : first, true, untilNs, true)
                .entrySet()) {
            all += Math.max(0, Math.min(stall.getValue(), untilNs) - Math.max(stall.getKey(), fromNs));
        }
        return all;
    }

    /** How many ticks without a sample are the computer's doing. */
    long explained(List<TickGrid.Gap> gaps, long offsetNs) {
        return gaps.stream()
                .filter(gap -> explain(gap, offsetNs))
                .mapToLong(TickGrid.Gap::missed)
                .sum();
    }

    /**
     * Whether a gap is the computer's doing. A sampler that is kept for more than two periods, from when its tick was due to
     * when it is through with it, leaves out the ticks that have passed: m of them where it took m to m + 1 periods. So it
     * would have left out none had it not stood still for m &minus; 1 periods of them. It was kept from the tick before the
     * first that is missing on, or later, and until the tick behind the last, or earlier.
     *
     * @param offsetNs what to add to the gap's times to have those of the probes
     */
    boolean explain(TickGrid.Gap gap, long offsetNs) {
        double needNs = Math.max(1, gap.missed() - 1) * periodNs;
        long fromNs = Math.round(gap.fromNs() + offsetNs - periodNs);
        long untilNs = Math.round(gap.untilNs() + offsetNs + periodNs);
        return within(fromNs, untilNs) >= needNs;
    }

    /** Share of {@code lengthNs} that a processor stood still: not more than that much of the gaps can be explained by chance. */
    double share(long lengthNs) {
        return untilByFrom.entrySet().stream()
                        .mapToLong(stall -> stall.getValue() - stall.getKey())
                        .sum()
                / (double) lengthNs;
    }
}
