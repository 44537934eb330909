package org.holdtrace.benchmark;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** When each processor stood still, as its {@link StallProbe} saw it. */
final class Stalls {
    /** A sample less late than so much, ns, does not miss its tick at any rate. */
    private static final long HARMLESS_NS = 1_200_000;

    private record Stall(long fromNs, long untilNs) {
        long within(long fromNs, long untilNs) {
            return Math.max(0, Math.min(this.untilNs, untilNs) - Math.max(this.fromNs, fromNs));
        }
    }

    private final List<List<Stall>> byProcessor = new ArrayList<>();

    /** Takes what the probe of one more processor printed. */
    void add(Path printed) throws IOException {
        List<Stall> stalls = new ArrayList<>();
        for (String line : Files.readAllLines(printed)) {
            int space = line.indexOf(' ');
            stalls.add(new Stall(Long.parseLong(line.substring(0, space)), Long.parseLong(line.substring(space + 1))));
        }
        byProcessor.add(stalls);
    }

    /** Longest time a state takes from the logger to who listens, ns: it is told twenty times a second. */
    private static final long ON_THE_WAY_NS = 80_000_000;

    private static final long FINE_NS = 100_000;

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
                together += longestWithin(gap, offsetNs);
            }
            if (together > most) {
                most = together;
                best = offsetNs;
            }
        }
        return best;
    }

    /** How long the processor that stood still longest did so in a gap, ns. */
    private long longestWithin(TickGrid.Gap gap, long offsetNs) {
        long longest = 0;
        for (List<Stall> stalls : byProcessor) {
            long all = 0;
            for (Stall stall : stalls) {
                all += stall.within(gap.fromNs() + offsetNs, gap.untilNs() + offsetNs);
            }
            longest = Math.max(longest, all);
        }
        return longest;
    }

    /** How many ticks without a sample are the computer's doing. */
    long explained(List<TickGrid.Gap> gaps, long offsetNs) {
        return gaps.stream()
                .filter(gap -> explain(gap, offsetNs))
                .mapToLong(TickGrid.Gap::missed)
                .sum();
    }

    /**
     * Whether a gap is the computer's doing: without the time that a processor stood still in it, it would have been none.
     *
     * @param offsetNs what to add to the gap's times to have those of the probes
     */
    boolean explain(TickGrid.Gap gap, long offsetNs) {
        return gap.untilNs() - gap.fromNs() - longestWithin(gap, offsetNs) < HARMLESS_NS;
    }

    /** Share of the time that the processors stood still, of {@code lengthNs} each: not more than that much of the gaps can be explained by chance. */
    double share(long lengthNs) {
        long all = 0;
        for (List<Stall> stalls : byProcessor) {
            all += stalls.stream().mapToLong(s -> s.untilNs() - s.fromNs()).sum();
        }
        return all / (double) lengthNs;
    }
}
