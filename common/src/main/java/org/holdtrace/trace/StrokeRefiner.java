package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.List;

/** Sharpens the strokes of one hold test with the samples on both sides at hand, and drops what proves no stroke. */
final class StrokeRefiner {
    /** What is looked at before and after a push, s: long enough to know the course, short enough for a parabola. */
    private static final double MARGIN_S = 0.35;

    private static final double PART_OF_RISE = 0.55;
    private static final double PART_OF_END = 0.25;
    private static final double PAST_PEAK_GAIN = 50;
    private static final double PAST_PEAK_PART = 0.12;
    private static final double SURE_SIGMAS = 5;
    /** What begins sooner than this part of the usual period after a push began goes on with that push. */
    private static final double HESITATION_PART = 0.65;

    private final SampleWindow window;
    private final EdgeFit fit = new EdgeFit();
    private final double blockNoisePa;

    StrokeRefiner(SampleWindow window, double blockNoisePa) {
        this.window = window;
        this.blockNoisePa = blockNoisePa;
    }

    /** A stroke with the pressure at its ends, Pa. */
    static final class Edges {
        double startS;
        double endS;
        double startPa;
        double endPa;

        Edges(double startS, double endS, double startPa, double endPa) {
            this.startS = startS;
            this.endS = endS;
            this.startPa = startPa;
            this.endPa = endPa;
        }

        double risePa() {
            return endPa - startPa;
        }
    }

    /** The strokes of {@code test}, sharpened; {@code fromS} and {@code toS} bound what may be looked at. */
    List<Edges> refine(FoundTest test, double fromS, double toS) {
        List<Edges> strokes = new ArrayList<>();
        for (int i = 0; i < test.strokes(); i++) {
            strokes.add(new Edges(test.startS(i), test.endS(i), test.startPa(i), test.endPa(i)));
        }
        for (int i = 0; i < strokes.size(); i++) {
            Edges each = strokes.get(i);
            double before = i == 0 ? fromS : strokes.get(i - 1).endS;
            double after = i == strokes.size() - 1 ? toS : strokes.get(i + 1).startS;
            start(each, before);
            end(each, after);
            endPastPeak(each, after);
            level(each, before, after);
        }
        strokes.removeIf(each -> !(each.risePa() > SURE_SIGMAS * blockNoisePa));
        mergeHesitations(strokes);
        new SmallStrokeFinder(window).fill(strokes, test.restFromS, test.restToS, fromS, toS);
        return strokes;
    }

    private void start(Edges stroke, double beforeS) {
        double from = Math.max(beforeS, stroke.startS - MARGIN_S);
        double to = stroke.endS;
        window.load(from, to);
        double limit = stroke.startPa + PART_OF_RISE * stroke.risePa();
        int n = window.n();
        int used = 0;
        while (used < n && (window.s()[used] < stroke.startS || window.pa()[used] < limit)) {
            used++;
        }
        int edge = fit.edge(window.s(), window.pa(), Math.min(n, used + 1), false, variance());
        if (edge >= 0) {
            stroke.startS = window.s()[edge];
        }
    }

    private void end(Edges stroke, double afterS) {
        double from = stroke.startS;
        double to = Math.min(afterS, stroke.endS + MARGIN_S);
        window.load(from, to);
        double limit = stroke.endPa - PART_OF_END * stroke.risePa();
        int n = window.n();
        int first = n - 1;
        while (first > 0 && (window.s()[first] > stroke.endS || window.pa()[first] > limit)) {
            first--;
        }
        if (n - first < 4) {
            return;
        }
        double[] s = java.util.Arrays.copyOfRange(window.s(), first, n);
        double[] pa = java.util.Arrays.copyOfRange(window.pa(), first, n);
        int edge = fit.edge(s, pa, n - first, true, variance());
        if (edge >= 0) {
            stroke.endS = Math.max(stroke.startS, s[edge]);
        }
    }

    /**
     * On a leaking port pressure falls again before a push is over: past the peak, looks for the point from which on
     * it falls by the leak alone.
     */
    private void endPastPeak(Edges stroke, double afterS) {
        double length = stroke.endS - stroke.startS;
        double to = Math.min(afterS, stroke.endS + Math.max(MARGIN_S, length));
        window.load(stroke.endS - 0.1 * length, to);
        int edge = fit.edge(window.s(), window.pa(), window.n(), true, variance());
        if (edge >= 0
                && !fit.rises()
                && fit.gain() > PAST_PEAK_GAIN
                && window.s()[edge] > stroke.endS + PAST_PEAK_PART * length) {
            stroke.endS = window.s()[edge];
        }
    }

    private double variance() {
        return window.noisePa() * window.noisePa() / window.averaged();
    }

    /** Pressure at the ends from short means that stay clear of the push. */
    private void level(Edges stroke, double beforeS, double afterS) {
        double before = window.mean(Math.max(beforeS, stroke.startS - 0.1), stroke.startS);
        double after = window.mean(stroke.endS, Math.min(afterS, stroke.endS + 0.1));
        if (!Double.isNaN(before)) {
            stroke.startPa = before;
        }
        if (!Double.isNaN(after)) {
            stroke.endPa = after;
        }
    }

    /** Joins the parts of a push that stopped for a moment: a short pause, and together no more than one stroke. */
    private static void mergeHesitations(List<Edges> strokes) {
        int n = strokes.size();
        if (n < 5) {
            return;
        }
        double[] scratch = new double[n];
        for (int i = 1; i < n; i++) {
            scratch[i - 1] = strokes.get(i).startS - strokes.get(i - 1).startS;
        }
        double period = Medians.ofFirst(scratch, n - 1);
        for (int i = strokes.size() - 1; i > 0; i--) {
            Edges first = strokes.get(i - 1);
            Edges second = strokes.get(i);
            double usual = usualRise(strokes, i, scratch);
            double joined = second.endPa - first.startPa;
            boolean outOfRhythm = second.startS - first.startS < HESITATION_PART * period;
            boolean parts = Math.max(first.risePa(), second.risePa()) < 0.85 * usual;
            if (outOfRhythm && parts && joined < 1.25 * usual && joined > 0.6 * usual) {
                first.endS = second.endS;
                first.endPa = second.endPa;
                strokes.remove(i);
            }
        }
    }

    private static double usualRise(List<Edges> strokes, int at, double[] scratch) {
        int count = 0;
        for (int i = Math.max(0, at - 4); i < Math.min(strokes.size(), at + 4); i++) {
            if (i != at && i != at - 1) {
                scratch[count++] = strokes.get(i).risePa();
            }
        }
        return Medians.ofFirst(scratch, count);
    }
}
