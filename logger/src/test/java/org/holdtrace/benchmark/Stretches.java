package org.holdtrace.benchmark;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Times during which something kept the sampler: a processor stood still, others had it, the sampler itself was at work. */
final class Stretches {
    /** Longest time a state takes from the logger to who listens, ns: it is told twenty times a second. */
    private static final long ON_THE_WAY_NS = 80_000_000;

    private static final long FINE_NS = 100_000;

    /** In order, none touching another. */
    private final TreeMap<Long, Long> untilByFrom = new TreeMap<>();

    private final double periodNs;

    /** For a sampler with {@code periodNs} between ticks. */
    Stretches(double periodNs) {
        this.periodNs = periodNs;
    }

    /** Takes the time from {@code fromNs} to {@code untilNs}. */
    void add(long fromNs, long untilNs) {
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

    /** Takes all of {@code others}. */
    void addAll(Stretches others) {
        others.untilByFrom.forEach(this::add);
    }

    /**
     * What to add to the times of gaps to have those of the stretches: known to be {@code atMostNs} less what a message was
     * on its way; of such offsets the one by which gaps and stretches fall together most.
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

    /** How much of the time between two times they cover, ns. */
    private long within(long fromNs, long untilNs) {
        Long first = untilByFrom.floorKey(fromNs);
        long all = 0;
        for (Map.Entry<Long, Long> stretch : untilByFrom
                .subMap(first == null ? fromNs : first, true, Math.max(first == null ? fromNs : first, untilNs), true)
                .entrySet()) {
            all += Math.max(0, Math.min(stretch.getValue(), untilNs) - Math.max(stretch.getKey(), fromNs));
        }
        return all;
    }

    /** How much of the time about a gap they cover, ns: from a tick before it until a tick behind it. */
    long about(TickGrid.Gap gap, long offsetNs) {
        return within(Math.round(gap.fromNs() + offsetNs - periodNs), Math.round(gap.untilNs() + offsetNs + periodNs));
    }

    /** How many ticks without a sample they account for, with clocks {@code offsetNs} apart. */
    long explained(List<TickGrid.Gap> gaps, long offsetNs) {
        return gaps.stream()
                .filter(gap -> explain(gap, offsetNs))
                .mapToLong(TickGrid.Gap::missed)
                .sum();
    }

    /**
     * Whether they account for a gap. A sampler that is kept for more than two periods, from when its tick was due to when it
     * is through with it, leaves out the ticks that have passed: m of them where it took m to m + 1 periods. So it would have
     * left out none had it not been kept for m &minus; 1 periods of them. It was kept from the tick before the first that is
     * missing on, or later, and until the tick behind the last, or earlier.
     *
     * @param offsetNs what to add to the gap's times to have those of the stretches
     */
    boolean explain(TickGrid.Gap gap, long offsetNs) {
        return about(gap, offsetNs) >= Math.max(1, gap.missed() - 1) * periodNs;
    }

    /** Share of {@code lengthNs} that they cover: not more than that much of the gaps can be explained by chance. */
    double share(long lengthNs) {
        return untilByFrom.entrySet().stream()
                        .mapToLong(stretch -> stretch.getValue() - stretch.getKey())
                        .sum()
                / (double) lengthNs;
    }

    /** The longest, ns; 0 where there is none. */
    long longestNs() {
        return untilByFrom.entrySet().stream()
                .mapToLong(stretch -> stretch.getValue() - stretch.getKey())
                .max()
                .orElse(0);
    }
}
