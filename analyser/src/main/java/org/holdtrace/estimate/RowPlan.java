package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/** Decides which samples of a hold test make which row of its reduction. */
final class RowPlan {
    /** Tails used at the most: more add cost, not knowledge. */
    private static final int MOST_TAILS = 70;

    /** Rows of the hold, about. */
    private static final int HOLD_ROWS = 110;

    /**
     * A push begins and ends with less than leaks away, while pressure still falls: so much of a push's length, times the
     * share of its flow that leaks, is kept clear of on either side. Of a half sine it is enough to half the flow, and beyond
     * that all but a few hundredths of the stroke.
     */
    private static final double UNSEEN_PUSH = 0.5;

    /**
     * One row.
     *
     * @param from its first sample
     * @param to the sample after its last
     * @param kind where it comes from
     * @param strokesBefore strokes begun before it
     * @param unknownBefore of these, the ones whose volume is not known
     * @param inPlateau whether it lies in the plateau
     * @param open whether the shut-off valve may still be open: no push follows soon
     */
    record Bin(
            int from,
            int to,
            Reduction.Kind kind,
            int strokesBefore,
            int unknownBefore,
            boolean inPlateau,
            boolean open) {}

    private final CleanTrace samples;
    private final Trace trace;
    private final HoldTest test;
    private final boolean[] unknownStrokes;
    private final boolean[] relieved;
    private final boolean useEnd;
    private final double pauseS;
    private final List<Bin> bins = new ArrayList<>();

    private RowPlan(CleanTrace samples, boolean[] unknownStrokes, boolean[] relieved, boolean useEnd) {
        this.samples = samples;
        this.trace = samples.trace;
        this.test = samples.test;
        this.unknownStrokes = unknownStrokes;
        this.relieved = relieved;
        this.useEnd = useEnd;
        this.pauseS = Spans.pauseS(test);
    }

    /** The rows in order of time. See {@link Reduction#of}. */
    static List<Bin> of(CleanTrace samples, boolean[] unknownStrokes, boolean[] relieved, boolean useEnd) {
        RowPlan plan = new RowPlan(samples, unknownStrokes, relieved, useEnd);
        plan.layOut();
        return plan.bins;
    }

    private void layOut() {
        List<Stroke> strokes = test.strokes();
        int unknown = 0;
        PhaseSpan plateau = Spans.firstOf(test, Phase.PLATEAU);
        double plateauFrom = plateau == null ? Double.POSITIVE_INFINITY : plateau.fromS();
        int stride = Math.max(1, (strokes.size() + MOST_TAILS - 1) / MOST_TAILS);
        int pieces = strokes.size() <= 25 ? 3 : 2;
        for (int k = 0; k + 1 < strokes.size(); k++) {
            unknown += unknownStrokes[k] ? 1 : 0;
            boolean wanted = k % stride == 0 || k + 2 == strokes.size() || unknownStrokes[k] || unknownStrokes[k + 1];
            // What a relief passes is not what the component does, and with the shut-off valve shut it may pass none.
            if (wanted && !relieved[k]) {
                addTail(
                        strokes.get(k),
                        strokes.get(k + 1),
                        pieces,
                        k + 1,
                        unknown,
                        strokes.get(k).startS() >= plateauFrom - 1e-9);
            }
        }
        if (!strokes.isEmpty()) {
            unknown += unknownStrokes[strokes.size() - 1] ? 1 : 0;
        }
        addHold(strokes.size(), unknown);
    }

    private void addTail(Stroke last, Stroke next, int pieces, int before, int unknown, boolean inPlateau) {
        double endS = last.endS();
        double nextS = next.startS();
        double length = nextS - endS;
        boolean pause = length > pauseS;
        // A transducer's lag smears the end of a stroke over a few hundredths of a second.
        double lag = Math.min(0.04, 0.2 * length);
        double unseen = UNSEEN_PUSH * leakShare(last, next);
        double late = Math.max(lag, Math.min(0.3 * length, unseen * (last.endS() - last.startS())));
        double early = Math.min(0.5 * length, unseen * (next.endS() - nextS));
        int from = trace.indexAt(endS + late);
        int to = Math.min(trace.indexAt(nextS - early), trace.size());
        int n = to - from;
        if (n < 1) {
            return;
        }
        int parts = Math.min(pieces, Math.max(1, n / 3));
        for (int part = 0; part < parts; part++) {
            int a = from + (int) ((long) n * part / parts);
            int b = from + (int) ((long) n * (part + 1) / parts);
            bins.add(new Bin(a, b, Reduction.Kind.TAIL, before, unknown, inPlateau, pause));
        }
    }

    /** What leaks away as a share of what the hand pushes, from the fall between two strokes and the rise of the next. */
    private double leakShare(Stroke last, Stroke next) {
        double from = bar(last.endS());
        double least = bar(next.startS());
        double fall = Math.max(0, from - least) / Math.max(1e-3, next.startS() - last.endS());
        double rise = Math.max(0, bar(next.endS()) - least) / Math.max(1e-3, next.endS() - next.startS());
        return fall + rise > 0 ? fall / (fall + rise) : 0;
    }

    private double bar(double s) {
        return samples.bar(Math.max(0, Math.min(trace.size() - 1, trace.indexAt(s))));
    }

    private void addHold(int before, int unknown) {
        if (Spans.hold(test) == null) {
            return;
        }
        double fromS = Spans.firstOf(test, Phase.SETTLING, Phase.HOLD).fromS();
        double toS = Spans.hold(test).toS();
        if (!(toS > fromS)) {
            return;
        }
        double length = toS - fromS;
        double margin = test.strokes().isEmpty() ? 0 : Math.min(0.08, 0.02 * length);
        int at = trace.indexAt(fromS + margin);
        int last = Math.min(trace.indexAt(toS), trace.size());
        // Rows grow with time since the pumping: what happens first happens fast.
        double first = Math.max(0.1, length / 2000);
        double growth = 1.06;
        double most = length / HOLD_ROWS * 1.6;
        double width = first;
        double edge = fromS + margin;
        while (at < last) {
            edge += width;
            int to = Math.min(last, Math.max(trace.indexAt(edge), at + 1));
            if (last - to < (to - at) / 2) {
                to = last;
            }
            bins.add(new Bin(at, to, Reduction.Kind.HOLD, before, unknown, false, before > 0));
            at = to;
            edge = Math.max(edge, trace.timeS(Math.min(at, trace.size() - 1)));
            width = Math.min(width * growth, most);
        }
        if (useEnd && test.phase(Phase.BLEED_OFF).isPresent()) {
            PhaseSpan bleed = test.phase(Phase.BLEED_OFF).orElseThrow();
            int to = endOfRelease(Math.min(trace.indexAt(bleed.toS() + 1e-9), trace.size()));
            int from = Math.max(last + 1, trace.indexAt(trace.timeS(to - 1) - 0.3));
            if (to > from) {
                bins.add(new Bin(from, to, Reduction.Kind.END, before, unknown, false, false));
            }
        }
    }

    /** Oil is caught until the trace ends or the next pumping begins: the first sample after that. */
    private int endOfRelease(int from) {
        double rise = Math.max(2, 0.05 * (samples.raw(Math.max(0, from - 1)) - samples.zeroBar)) + samples.spikeBar;
        double level = from > 0 ? samples.raw(from - 1) : 0;
        int to = from;
        while (to < trace.size()) {
            double p = samples.raw(to);
            // Two in a row: one alone may be a spike.
            if (p > level + rise && to + 1 < trace.size() && samples.raw(to + 1) > level + rise) {
                break;
            }
            level = Math.min(level, p);
            to++;
        }
        return to;
    }
}
