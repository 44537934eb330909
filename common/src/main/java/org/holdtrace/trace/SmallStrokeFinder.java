package org.holdtrace.trace;

import java.util.Arrays;
import java.util.List;

/**
 * Looks for strokes too small to stand out sample by sample, where the rhythm of the strokes found leaves room for some:
 * the mean over a pause's length after a push's length, less the mean before it. How much this wanders with no stroke is
 * measured at rest, so noise of any colour and a coarse converter are allowed for.
 */
final class SmallStrokeFinder {
    private static final double SURE_SIGMAS = 6;
    private static final int STEPS = 8;
    /** Strokes further apart than this many periods no longer belong to one rhythm. */
    private static final double REACH_PERIODS = 2.3;

    private static final double ROOM_PERIODS = 1.6;
    private static final int FEWEST = 4;
    private static final int MOST_IN_A_ROW = 60;
    private static final double LONG_PUSHES = 2;

    private final SampleWindow window;
    private final double leastSigmaPa;
    private double pushS;
    private double pauseS;
    private double periodS;
    private double sigmaPa;
    private double[] sumPa = new double[0];

    /** @param leastSigmaPa the least that the mean is taken to wander by: a converter's step may come at any time */
    SmallStrokeFinder(SampleWindow window, double leastSigmaPa) {
        this.window = window;
        this.leastSigmaPa = leastSigmaPa;
    }

    /** Adds the small strokes between [fromS, toS] to {@code strokes}; the rest is [restFromS, restToS]. */
    void fill(List<StrokeRefiner.Edges> strokes, double restFromS, double restToS, double fromS, double toS) {
        if (strokes.size() < FEWEST) {
            return;
        }
        learn(strokes);
        splitMerged(strokes);
        if (strokes.size() < FEWEST || !measureNoise(restFromS, Math.min(restToS, strokes.get(0).startS))) {
            return;
        }
        for (int i = strokes.size() - 1; i > 0; i--) {
            if (strokes.get(i).startS - strokes.get(i - 1).startS > ROOM_PERIODS * periodS) {
                int added = 0;
                double to = strokes.get(i).startS;
                double from = strokes.get(i - 1).endS;
                StrokeRefiner.Edges found = best(from, to);
                while (found != null && added++ < MOST_IN_A_ROW) {
                    insert(strokes, found);
                    found = bestInGaps(strokes, from, to);
                }
            }
        }
        leading(strokes, fromS);
        trailing(strokes, toS);
    }

    private void learn(List<StrokeRefiner.Edges> strokes) {
        int n = strokes.size();
        double[] pushes = new double[n];
        double[] pauses = new double[n - 1];
        for (int i = 0; i < n; i++) {
            pushes[i] = strokes.get(i).endS - strokes.get(i).startS;
            if (i > 0) {
                pauses[i - 1] = strokes.get(i).startS - strokes.get(i - 1).endS;
            }
        }
        pushS = Medians.ofFirst(pushes, n);
        pauseS = Medians.ofFirst(pauses, n - 1);
        periodS = pushS + pauseS;
    }

    /** A rise as long as several pushes and smaller than one is several small strokes run together: looks anew. */
    private void splitMerged(List<StrokeRefiner.Edges> strokes) {
        double[] rises = new double[strokes.size()];
        for (int i = 0; i < rises.length; i++) {
            rises[i] = strokes.get(i).risePa();
        }
        double usual = Medians.ofFirst(rises, rises.length);
        for (int i = strokes.size() - 1; i >= 0; i--) {
            StrokeRefiner.Edges each = strokes.get(i);
            if (each.endS - each.startS > Math.max(LONG_PUSHES * pushS, periodS) && each.risePa() < 0.5 * usual) {
                strokes.remove(i);
            }
        }
    }

    private boolean measureNoise(double fromS, double toS) {
        double step = pushS / STEPS;
        double need = pushS + 2 * width();
        if (!(toS - fromS > need + 10 * step)) {
            return false;
        }
        window.loadAll(Math.max(fromS, toS - 20), toS);
        sum();
        int count = 0;
        double[] values = new double[(int) ((toS - fromS) / step) + 1];
        for (double t = Math.max(fromS, toS - 20) + width(); t + pushS + width() < toS; t += step) {
            double value = Math.abs(rise(t));
            if (!Double.isNaN(value) && count < values.length) {
                values[count++] = value;
            }
        }
        // Few and overlapping values may by luck lie close together: never less than white noise would give.
        double averaged = Math.max(1, width() * window.n() / Math.min(20, toS - fromS));
        double white = 1.4 * window.noisePa() * Math.sqrt(2 / averaged);
        double least = Math.max(leastSigmaPa, Math.max(white, 0.1 * window.noisePa()));
        sigmaPa = Math.max(Medians.ofFirst(values, count) / 0.6745, least);
        return count > 5;
    }

    private double width() {
        return Math.max(0.8 * pauseS, 0.3 * pushS);
    }

    private void sum() {
        if (sumPa.length < window.n() + 1) {
            sumPa = new double[2 * window.n() + 1];
        }
        for (int i = 0; i < window.n(); i++) {
            sumPa[i + 1] = sumPa[i] + window.pa()[i];
        }
    }

    private double mean(double fromS, double toS) {
        int a = at(fromS);
        int b = at(toS);
        return b > a ? (sumPa[b] - sumPa[a]) / (b - a) : Double.NaN;
    }

    private int at(double s) {
        int found = Arrays.binarySearch(window.s(), 0, window.n(), s);
        return found < 0 ? -found - 1 : found;
    }

    private double rise(double startS) {
        return mean(startS + pushS, startS + pushS + width()) - mean(startS - width(), startS);
    }

    /** The clearest stroke that begins after {@code fromS} and ends before {@code toS}; null where none is clear. */
    private StrokeRefiner.Edges best(double fromS, double toS) {
        // What the next stroke raises at its very beginning must not pass for a stroke of its own.
        window.loadAll(fromS, toS - 0.15 * pushS);
        sum();
        double step = pushS / STEPS;
        double most = SURE_SIGMAS * sigmaPa;
        StrokeRefiner.Edges found = null;
        for (double t = fromS + 0.25 * periodS; t + pushS + 0.25 * periodS < toS; t += step) {
            double rise = rise(t);
            if (rise > most) {
                most = rise;
                double before = mean(t - width(), t);
                found = new StrokeRefiner.Edges(t, t + pushS, before, before + rise);
            }
        }
        return found;
    }

    private StrokeRefiner.Edges bestInGaps(List<StrokeRefiner.Edges> strokes, double fromS, double toS) {
        for (int i = 1; i < strokes.size(); i++) {
            StrokeRefiner.Edges a = strokes.get(i - 1);
            StrokeRefiner.Edges b = strokes.get(i);
            boolean inside = a.endS >= fromS && b.startS <= toS;
            if (inside && b.startS - a.startS > ROOM_PERIODS * periodS) {
                StrokeRefiner.Edges found = best(a.endS, b.startS);
                if (found != null) {
                    return found;
                }
            }
        }
        return null;
    }

    private void leading(List<StrokeRefiner.Edges> strokes, double fromS) {
        for (int i = 0; i < MOST_IN_A_ROW; i++) {
            double first = strokes.get(0).startS;
            StrokeRefiner.Edges found = best(Math.max(fromS, first - REACH_PERIODS * periodS), first);
            if (found == null) {
                return;
            }
            insert(strokes, found);
        }
    }

    private void trailing(List<StrokeRefiner.Edges> strokes, double toS) {
        for (int i = 0; i < MOST_IN_A_ROW; i++) {
            double last = strokes.get(strokes.size() - 1).endS;
            StrokeRefiner.Edges found = best(last, Math.min(toS, last + REACH_PERIODS * periodS));
            if (found == null) {
                return;
            }
            insert(strokes, found);
        }
    }

    private static void insert(List<StrokeRefiner.Edges> strokes, StrokeRefiner.Edges stroke) {
        int at = 0;
        while (at < strokes.size() && strokes.get(at).startS < stroke.startS) {
            at++;
        }
        strokes.add(at, stroke);
    }
}
