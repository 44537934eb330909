package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.Map;

/**
 * What any set of tests leaves for the leak of each element of a machine whose leaks are all known: at least and at most so
 * much, the others of the same tests leaking at most and at least what is left for them. An element is decided where that
 * lies on one side of its limit. No prior comes in, as none may clear a part.
 */
final class WhatTestsLeave {
    /** Standard deviations within which what a test gives holds the leak. */
    private static final double SURE = 2;

    /** Rounds, at most, in which what is left for one element narrows what is left for the next. */
    private static final int ROUNDS = 3;

    private final double[] limits;
    private final boolean[] open;
    private final boolean[] over;
    private final int[][] tests;
    private final int[][][] beyond;
    private final double[] leaks;
    private final double[] sum;
    private final double[] sd;
    private final double[] least;
    private final double[] most;

    /**
     * @param tests elements of each test, by place, in order
     * @param beyond what the first test has beyond the second; null where it has not all of it or no more
     * @param limits limit of each element, m³/s
     * @param open whether it is not yet decided
     * @param over whether it is called over its limit
     */
    record Circuit(int[][] tests, int[][][] beyond, double[] limits, boolean[] open, boolean[] over) {
        static Circuit of(
                List<List<Element>> tests,
                List<String> names,
                Map<String, Double> limitsM3PerS,
                Collection<String> open,
                Collection<String> over) {
            int[][] places = tests.stream()
                    .map(test -> test.stream()
                            .mapToInt(element -> names.indexOf(element.name()))
                            .sorted()
                            .toArray())
                    .toArray(int[][]::new);
            int[][][] beyond = new int[places.length][places.length][];
            for (int i = 0; i < places.length; i++) {
                for (int j = 0; j < places.length; j++) {
                    beyond[i][j] = beyond(places[i], places[j]);
                }
            }
            double[] limits = names.stream().mapToDouble(limitsM3PerS::get).toArray();
            boolean[] isOpen = new boolean[limits.length];
            boolean[] isOver = new boolean[limits.length];
            for (int e = 0; e < limits.length; e++) {
                isOpen[e] = open.contains(names.get(e));
                isOver[e] = over.contains(names.get(e));
            }
            return new Circuit(places, beyond, limits, isOpen, isOver);
        }

        private static int[] beyond(int[] more, int[] fewer) {
            BitSet left = new BitSet();
            Arrays.stream(more).forEach(left::set);
            BitSet all = (BitSet) left.clone();
            Arrays.stream(fewer).forEach(left::clear);
            return left.isEmpty() || left.cardinality() + fewer.length != all.cardinality()
                    ? null
                    : left.stream().toArray();
        }

        boolean has(int test, int element) {
            return Arrays.binarySearch(tests[test], element) >= 0;
        }
    }

    /** {@code leaks}: what each element of that machine leaks, m³/s. */
    WhatTestsLeave(Circuit circuit, double[] leaks) {
        this.limits = circuit.limits();
        this.open = circuit.open();
        this.over = circuit.over();
        this.tests = circuit.tests();
        this.beyond = circuit.beyond();
        this.leaks = leaks;
        least = new double[leaks.length];
        most = new double[leaks.length];
        sum = new double[tests.length];
        sd = new double[tests.length];
        for (int t = 0; t < tests.length; t++) {
            double smallest = Double.POSITIVE_INFINITY;
            for (int e : tests[t]) {
                sum[t] += leaks[e];
                smallest = Math.min(smallest, limits[e]);
            }
            sd[t] = LeakDraws.errorOf(sum[t], smallest);
        }
    }

    /** Whether each element is decided once {@code done} are made. */
    boolean[] decided(List<Integer> done) {
        narrow(done);
        boolean[] decided = new boolean[leaks.length];
        for (int e = 0; e < leaks.length; e++) {
            decided[e] = isDecided(e);
        }
        return decided;
    }

    /** How many of the elements are decided; one that is not counts for a little, the more the closer it is bounded. */
    double progress(List<Integer> done, boolean[] which, double little) {
        narrow(done);
        double sum = 0;
        for (int e = 0; e < which.length; e++) {
            if (which[e]) {
                sum += isDecided(e) ? 1 : little * (limits[e] / most[e] + least[e] / limits[e]);
            }
        }
        return sum;
    }

    private boolean isDecided(int e) {
        return most[e] <= limits[e] || least[e] >= limits[e];
    }

    private void narrow(List<Integer> done) {
        for (int e = 0; e < leaks.length; e++) {
            most[e] = open[e] || over[e] ? Double.POSITIVE_INFINITY : Math.max(limits[e], leaks[e]);
            least[e] = over[e] ? Math.min(limits[e], leaks[e]) : 0;
        }
        List<int[]> pairs = new ArrayList<>();
        for (int t : done) {
            for (int other : done) {
                if (beyond[t][other] != null) {
                    pairs.add(new int[] {t, other});
                }
            }
        }
        boolean narrower = true;
        for (int round = 0; round < ROUNDS && narrower; round++) {
            narrower = false;
            for (int t : done) {
                narrower |= narrow(tests[t], sum[t], sd[t]);
            }
            for (int[] pair : pairs) {
                narrower |= narrow(
                        beyond[pair[0]][pair[1]], sum[pair[0]] - sum[pair[1]], Math.hypot(sd[pair[0]], sd[pair[1]]));
            }
        }
    }

    /** Takes in that {@code members} together leak {@code sum}; whether that left less for any of them. */
    private boolean narrow(int[] members, double sum, double sd) {
        double low = Math.max(0, sum - SURE * sd);
        double high = sum + SURE * sd;
        double leasts = 0;
        double mosts = 0;
        int unbounded = 0;
        for (int e : members) {
            leasts += least[e];
            if (most[e] == Double.POSITIVE_INFINITY) {
                unbounded++;
            } else {
                mosts += most[e];
            }
        }
        boolean narrower = false;
        for (int e : members) {
            boolean free = most[e] == Double.POSITIVE_INFINITY;
            double others = unbounded > (free ? 1 : 0) ? Double.POSITIVE_INFINITY : mosts - (free ? 0 : most[e]);
            double top = Math.min(most[e], high - (leasts - least[e]));
            double bottom = Math.max(least[e], low - others);
            narrower |= top < most[e] || bottom > least[e];
            leasts += bottom - least[e];
            mosts += top - (free ? 0 : most[e]);
            unbounded -= free ? 1 : 0;
            least[e] = bottom;
            most[e] = top;
        }
        return narrower;
    }
}
