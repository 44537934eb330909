package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntToDoubleFunction;

/**
 * Joins the parts of a push that only slowed down: a hand that leans in, or pushes in jerks. Between two strokes the pump
 * fills and nothing flows, so pressure goes the way it goes in every pause; where it never does, the push went on.
 */
final class UnbrokenPushes {
    /** Fewer strokes than this do not show what a pause is like. */
    private static final int FEWEST = 4;

    /** Pauses on either side of one that tell the course without flow. */
    private static final int ABOUT = 4;

    /** A pause of more than this part of those about it is one. */
    private static final double SHORT_PART = 0.6;

    /** Flow of less than this part of the push's cannot be told from none. */
    private static final double FLOW_PART = 0.08;

    private static final double SURE_SIGMAS = 3;

    /** The course of a pause is looked at in stretches of this part of it … */
    private static final double STRETCH_PART = 0.4;

    /** … and of at least this long, s: no pump fills in less. */
    private static final double LEAST_STRETCH_S = 0.06;

    /** … and of at least so many samples. */
    private static final int LEAST_SAMPLES = 5;

    /** The edges of two pushes may lie this part of a usual pause too far into it, together. */
    private static final double EDGES_PART = 0.2;

    /** No more of a pause is looked at than this, s. */
    private static final double LONGEST_LOOK_S = 1.5;

    /** What is seen of the pressure. */
    interface Readings {
        /** Loads every reading from {@code fromS} to {@code toS}. */
        void loadAll(double fromS, double toS);

        /** How many were loaded. */
        int n();

        /** Their times, s. */
        double[] s();

        /** The readings, Pa. */
        double[] pa();

        /** Standard deviation of one of them, Pa. */
        double noisePa();
    }

    private final Readings window;
    private final double zeroPa;
    private final List<StrokeRefiner.Edges> strokes;
    /** Least slope of pressure before each stroke, Pa/s. */
    private double[] leastSlope;
    /** Standard deviation that white noise gives it. */
    private double[] sigma;

    private double usualPause;

    private UnbrokenPushes(Readings window, double zeroPa, List<StrokeRefiner.Edges> strokes) {
        this.window = window;
        this.zeroPa = zeroPa;
        this.strokes = strokes;
        leastSlope = new double[strokes.size()];
        sigma = new double[strokes.size()];
    }

    /** For strokes that are yet to come, which {@code window} shows when they are over. */
    UnbrokenPushes(Readings window, double zeroPa) {
        this(window, zeroPa, new ArrayList<>());
    }

    /** Takes the next stroke, which is just over. */
    void add(StrokeRefiner.Edges stroke) {
        strokes.add(stroke);
        int n = strokes.size();
        if (n > sigma.length) {
            leastSlope = Arrays.copyOf(leastSlope, 2 * n);
            sigma = Arrays.copyOf(sigma, 2 * n);
        }
        if (n > 1) {
            usualPause = middle(1, n - 1, this::pause);
            look(n - 1);
        }
    }

    /** Of the strokes so far, the index of each that goes on with the push before it. */
    BitSet goingOn() {
        BitSet goesOn = new BitSet();
        for (int i = 1; i < strokes.size() && strokes.size() >= FEWEST; i++) {
            goesOn.set(i, goesOn(i));
        }
        return goesOn;
    }

    /** Joins the parts among {@code strokes}, whose samples {@code window} shows. */
    static void join(Readings window, double zeroPa, List<StrokeRefiner.Edges> strokes) {
        if (strokes.size() >= FEWEST) {
            new UnbrokenPushes(window, zeroPa, strokes).join();
        }
    }

    private void join() {
        int n = strokes.size();
        usualPause = middle(1, n - 1, this::pause);
        for (int i = 1; i < n; i++) {
            look(i);
        }
        BitSet goesOn = goingOn();
        for (int i = n - 1; i > 0; i--) {
            if (goesOn.get(i)) {
                strokes.get(i - 1).goOnWith(strokes.remove(i));
            }
        }
    }

    /** Whether oil flowed all the time between stroke {@code i} and the one before. */
    private boolean goesOn(int i) {
        StrokeRefiner.Edges first = strokes.get(i - 1);
        StrokeRefiner.Edges second = strokes.get(i);
        int from = Math.max(1, i - ABOUT);
        int to = Math.min(strokes.size() - 1, i + ABOUT);
        if (pause(i) > SHORT_PART * middle(from, to, this::pause)) {
            return false;
        }
        double levelPa = levelPa(i);
        double still = middle(from, to, k -> stillPaPerS(k, levelPa));
        double pushed = first.risePa() + second.risePa() - still * pause(i);
        double length = first.endS - first.startS + second.endS - second.startS;
        double flow = leastSlope[i] - still;
        return flow > FLOW_PART * (pushed / length - still) && flow > SURE_SIGMAS * sigma[i];
    }

    private double pause(int i) {
        return Math.max(0, strokes.get(i).startS - strokes.get(i - 1).endS);
    }

    /** Pressure in the pause before stroke {@code i}, above the zero, Pa. */
    private double levelPa(int i) {
        return Math.max(0, 0.5 * (strokes.get(i - 1).endPa + strokes.get(i).startPa) - zeroPa);
    }

    /**
     * The slope that pressure fell to in pause {@code k}, as it would be at {@code levelPa}: where pressure is lower less
     * leaks, and air makes the line softer.
     */
    private double stillPaPerS(int k, double levelPa) {
        double part = Math.min(1, levelPa / Math.max(levelPa(k), 1));
        return leastSlope[k] < 0 ? leastSlope[k] * part * part : leastSlope[k];
    }

    /** The middle one of the pauses {@code from} to {@code to} by {@code what}, of which long ones count for more. */
    private double middle(int from, int to, IntToDoubleFunction what) {
        Integer[] order = new Integer[to - from + 1];
        double total = 0;
        for (int k = from; k <= to; k++) {
            order[k - from] = k;
            total += pause(k);
        }
        Arrays.sort(order, Comparator.comparingDouble(what::applyAsDouble));
        int at = 0;
        double sum = pause(order[0]);
        while (sum < 0.5 * total) {
            sum += pause(order[++at]);
        }
        return what.applyAsDouble(order[at]);
    }

    /** Finds the least slope of pressure in any stretch of the pause before stroke {@code i}. */
    private void look(int i) {
        StrokeRefiner.Edges first = strokes.get(i - 1);
        StrokeRefiner.Edges second = strokes.get(i);
        double pause = pause(i);
        double stretch = Math.max(LEAST_STRETCH_S, STRETCH_PART * Math.min(LONGEST_LOOK_S, pause));
        // Where a port loses oil as fast as it is pumped, edges lie in the pause: it may reach half-way into the
        // pushes.
        double reach = Math.max(0, EDGES_PART * usualPause - 0.5 * pause);
        double fromS = Math.max(first.endS - reach, 0.5 * (first.startS + first.endS));
        double toS = Math.min(second.startS + reach, 0.5 * (second.startS + second.endS));
        double over = Math.max(0, 0.5 * (stretch - (toS - fromS)));
        do {
            window.loadAll(fromS - over, Math.min(toS, first.endS + LONGEST_LOOK_S) + over);
            over += 0.25 * LEAST_STRETCH_S;
        } while (window.n() < LEAST_SAMPLES && over < LONGEST_LOOK_S);
        double[] s = window.s();
        double[] pa = window.pa();
        int n = window.n();
        int length = Math.max(LEAST_SAMPLES, n < 2 ? 0 : (int) Math.round(stretch / (s[n - 1] - s[0]) * (n - 1)));
        leastSlope[i] = Double.POSITIVE_INFINITY;
        sigma[i] = Double.POSITIVE_INFINITY;
        for (int from = 0; from + length <= n; from += Math.max(1, length / 4)) {
            double slope = StrokeRefiner.slope(s, pa, from, from + length - 1);
            if (slope < leastSlope[i]) {
                leastSlope[i] = slope;
                sigma[i] = window.noisePa() * Math.sqrt(12.0 / length) / (s[from + length - 1] - s[from]);
            }
        }
    }
}
