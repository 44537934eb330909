package org.holdtrace.benchmark;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Why ticks have no sample. Two witnesses tell: a {@link StallProbe} on each processor, when the computer itself stood still;
 * a {@link ThreadProbe}, when the thread that samples could have run and others had the processors, and when it ran for
 * long. What neither accounts for is the program's own fault, and so is what its own long running accounts for.
 */
final class GapCauses {
    /** The causes, in the order in which they are asked for. */
    private enum Cause {
        STOOD_STILL("where a processor stood still"),
        WAITED("where the sampling thread could have run and others had the processors"),
        BOTH("where the one came on top of the other"),
        RAN("where the sampling thread itself was at work for so long: OUR FAULT"),
        NOTHING("that nothing accounts for: TAKEN FOR OUR FAULT");

        private final String words;

        Cause(String words) {
            this.words = words;
        }
    }

    /** A safepoint so near a gap may have to do with it. */
    private static final long AROUND_NS = 10_000_000;

    /** So far apart nothing has to do with anything. */
    private static final long CHANCE_NS = 1_000_000_000L;

    private final Stretches stalls;
    private final Stretches waits;
    private final Stretches kept;
    private final Stretches runs;

    /** For a sampler with {@code periodNs} between ticks. */
    GapCauses(double periodNs) {
        stalls = new Stretches(periodNs);
        waits = new Stretches(periodNs);
        kept = new Stretches(periodNs);
        runs = new Stretches(periodNs);
    }

    /** Takes what the probe of one more processor printed. */
    void addStalls(Path printed) throws IOException {
        for (String line : Files.readAllLines(printed)) {
            int space = line.indexOf(' ');
            stalls.add(Long.parseLong(line.substring(0, space)), Long.parseLong(line.substring(space + 1)));
        }
    }

    /** Takes what the probe of the thread printed. */
    void addThread(Path printed) throws IOException {
        for (String line : Files.readAllLines(printed)) {
            String[] words = line.split(" ", 3);
            Stretches which = words[0].equals("wait") ? waits : runs;
            which.add(Long.parseLong(words[1]), Long.parseLong(words[2]));
        }
    }

    /**
     * Says it.
     *
     * @param atMostNs what to add to the gaps' times, less what a message was on its way
     * @param lengthNs how long was sampled
     */
    void print(PrintStream out, TickGrid grid, long atMostNs, long lengthNs, Safepoints safepoints) {
        kept.addAll(stalls);
        kept.addAll(waits);
        List<TickGrid.Gap> gaps = grid.gaps();
        long offsetNs = kept.offsetNs(gaps, atMostNs);
        Map<Cause, Long> ticks = new EnumMap<>(Cause.class);
        Map<Cause, Integer> counts = new EnumMap<>(Cause.class);
        List<String> each = new ArrayList<>();
        for (TickGrid.Gap gap : gaps) {
            Cause cause = cause(gap, offsetNs);
            ticks.merge(cause, gap.missed(), Long::sum);
            counts.merge(cause, 1, Integer::sum);
            if (cause.compareTo(Cause.BOTH) > 0) {
                each.add(line(gap, offsetNs, safepoints));
            }
        }
        for (Cause cause : Cause.values()) {
            out.printf(
                    Locale.ROOT,
                    "  %d in %d gaps %s%n",
                    ticks.getOrDefault(cause, 0L),
                    counts.getOrDefault(cause, 0),
                    cause.words);
        }
        each.forEach(out::println);
        long wrongNs = kept.offsetNs(gaps, atMostNs + CHANCE_NS);
        out.printf(
                Locale.ROOT,
                "  by chance, with clocks a second apart, %d of %d would have been accounted for%n",
                kept.explained(gaps, wrongNs),
                grid.missed());
        out.printf(
                Locale.ROOT,
                "a processor stood still for %.2f %% of the time, at most %.1f ms; the thread waited for %.2f %%, at most %.1f ms,"
                        + " and ran for at most %.2f ms at a time; %s%n",
                100 * stalls.share(lengthNs),
                stalls.longestNs() / 1e6,
                100 * waits.share(lengthNs),
                waits.longestNs() / 1e6,
                runs.longestNs() / 1e6,
                safepoints.summary());
    }

    private Cause cause(TickGrid.Gap gap, long offsetNs) {
        if (stalls.explain(gap, offsetNs)) {
            return Cause.STOOD_STILL;
        } else if (waits.explain(gap, offsetNs)) {
            return Cause.WAITED;
        } else if (kept.explain(gap, offsetNs)) {
            return Cause.BOTH;
        }
        return runs.explain(gap, offsetNs) ? Cause.RAN : Cause.NOTHING;
    }

    private String line(TickGrid.Gap gap, long offsetNs, Safepoints safepoints) {
        return String.format(
                Locale.ROOT,
                "    at %.3f s (%.4f s on the computer's steady clock): %.2f ms, %d ticks; about it stood still %.2f ms, waited"
                        + " %.2f ms, ran %.2f ms, %s",
                gap.fromNs() / 1e9,
                (gap.fromNs() + offsetNs) / 1e9,
                (gap.untilNs() - gap.fromNs()) / 1e6,
                gap.missed(),
                stalls.about(gap, offsetNs) / 1e6,
                waits.about(gap, offsetNs) / 1e6,
                runs.about(gap, offsetNs) / 1e6,
                safepoints.within(gap.fromNs() + offsetNs - AROUND_NS, gap.untilNs() + offsetNs + AROUND_NS));
    }
}
