package org.holdtrace.trace;

import java.util.List;

/**
 * Joins the parts of a push that stopped on its way. How long a hand stops tells little: some stop for longer than others
 * pause. What tells is the oil: together the parts make one stroke like those about them. What leaks away meanwhile is
 * added to every rise, so that a port that loses as fast as it is pumped is judged by the same measure.
 */
final class Hesitations {
    private static final int FEWEST = 5;
    private static final int ABOUT = 3;

    /** What begins sooner than this part of the usual period, or pause, after a push goes on with that push. */
    private static final double OUT_OF_RHYTHM = 0.65;

    /** A hand that lets go and takes hold again needs longer than this part of its usual pause. */
    private static final double NO_PAUSE = 0.2;

    /** Parts whose sum is this close to a stroke are its parts: strokes scatter by a few hundredths. */
    private static final double WHOLE = 0.1;

    /** What rises before and after may differ by this much for a stroke between to be measured by them. */
    private static final double ALIKE = 0.75;

    private final List<StrokeRefiner.Edges> strokes;

    private Hesitations(List<StrokeRefiner.Edges> strokes) {
        this.strokes = strokes;
    }

    /** Joins the parts among {@code strokes}. */
    static void join(List<StrokeRefiner.Edges> strokes) {
        if (strokes.size() >= FEWEST) {
            new Hesitations(strokes).join();
        }
    }

    private void join() {
        int n = strokes.size();
        double[] periods = new double[n - 1];
        double[] pauses = new double[n - 1];
        double[] pushes = new double[n];
        for (int i = 0; i < n; i++) {
            pushes[i] = length(i);
        }
        for (int i = 1; i < n; i++) {
            periods[i - 1] = strokes.get(i).startS - strokes.get(i - 1).startS;
            pauses[i - 1] = pause(i);
        }
        double period = Medians.ofFirst(periods, n - 1);
        double pause = Medians.ofFirst(pauses, n - 1);
        double push = Medians.ofFirst(pushes, n);
        double typical = typicalRise();
        for (int i = n - 1; i > 0; i--) {
            if (strokes.size() >= FEWEST && areParts(i, period, pause, push, typical)) {
                strokes.get(i - 1).goOnWith(strokes.remove(i));
            }
        }
    }

    private boolean areParts(int i, double period, double pause, double push, double typical) {
        double loss = lossPaPerS(i);
        double first = rise(i - 1, loss);
        double second = rise(i, loss);
        double before = medianRise(Math.max(0, i - 1 - ABOUT), i - 1, loss);
        double after = medianRise(i + 1, Math.min(strokes.size(), i + 1 + ABOUT), loss);
        double usual = usual(i, before, after, loss);
        double larger = Math.max(first, second) / usual;
        double joined = (first + second) / usual;
        boolean outOfRhythm = strokes.get(i).startS - strokes.get(i - 1).startS < OUT_OF_RHYTHM * period;
        boolean hurried = pause(i) < OUT_OF_RHYTHM * pause && length(i - 1) + length(i) < 1.4 * push;
        boolean between = i >= 3
                && i + 2 < strokes.size()
                && Math.min(before, after) > ALIKE * Math.max(before, after)
                && usual > 0.5 * typical;
        return (pause(i) < NO_PAUSE * pause && joined < 1.1 && joined > 0.6)
                || (outOfRhythm && larger < 0.75 && joined < 1.2 && joined > 0.6)
                || (hurried && larger < 0.9 && joined < 1.15 && joined > 0.8)
                || (between && larger < 0.9 && Math.abs(joined - 1) < WHOLE);
    }

    private double length(int i) {
        return strokes.get(i).endS - strokes.get(i).startS;
    }

    /** Time without a push before stroke {@code i}, s. */
    private double pause(int i) {
        return strokes.get(i).startS - strokes.get(i - 1).endS;
    }

    private double rise(int i, double lossPaPerS) {
        return strokes.get(i).risePa() + lossPaPerS * length(i);
    }

    /** What pressure falls by per second in the pauses about stroke {@code i}, Pa/s. */
    private double lossPaPerS(int i) {
        double[] losses = new double[2 * ABOUT + 1];
        int n = 0;
        for (int k = Math.max(1, i - ABOUT); k <= Math.min(strokes.size() - 1, i + ABOUT); k++) {
            double fall = strokes.get(k - 1).endPa - strokes.get(k).startPa;
            if (pause(k) > 0) {
                losses[n++] = Math.max(0, fall / pause(k));
            }
        }
        return n == 0 ? 0 : Medians.ofFirst(losses, n);
    }

    private double medianRise(int from, int to, double lossPaPerS) {
        double[] rises = new double[Math.max(0, to - from)];
        for (int k = from; k < to; k++) {
            rises[k - from] = rise(k, lossPaPerS);
        }
        return Medians.ofFirst(rises, rises.length);
    }

    /** Median rise of the strokes before {@code i − 1} and after {@code i} together. */
    private double usual(int i, double before, double after, double lossPaPerS) {
        if (Double.isNaN(before) || Double.isNaN(after)) {
            return Double.isNaN(before) ? after : before;
        }
        double[] rises = new double[2 * ABOUT];
        int n = 0;
        for (int k = Math.max(0, i - 1 - ABOUT); k < Math.min(strokes.size(), i + 1 + ABOUT); k++) {
            if (k != i - 1 && k != i) {
                rises[n++] = rise(k, lossPaPerS);
            }
        }
        return Medians.ofFirst(rises, n);
    }

    private double typicalRise() {
        double[] rises = new double[strokes.size()];
        for (int k = 0; k < rises.length; k++) {
            rises[k] = strokes.get(k).risePa();
        }
        return Medians.ofFirst(rises, rises.length);
    }
}
