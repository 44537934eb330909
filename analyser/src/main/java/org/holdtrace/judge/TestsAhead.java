package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * How often a test is among the fewest that still have to be made until every open element is decided, over machines drawn
 * as probable as the case leaves them. Of each of them it is known what any set of tests would leave open ({@link
 * WhatTestsLeave}); of several sets of as few tests the quickest counts. Why: what a test tells now says nothing of whether
 * one that has to follow would have told it too ({@code docs/decisions/0013}).
 */
final class TestsAhead {
    /** Machines thought through. */
    private static final int MACHINES = 128;

    /** Sets of tests looked at for a machine, at most, among tests that hang together; then one is put together test by test. */
    private static final int MOST_SETS = 300;

    /** And sets begun. */
    private static final int MOST_BEGUN = 10_000;

    /** Times that count as alike, s. */
    private static final double ALIKE_S = 1;

    /** What bounds on an element that is not decided count for beside one that is, where tests are put together one by one. */
    private static final double LITTLE = 0.03;

    private final List<Way> ways;
    private final List<String> names;
    private final WhatTestsLeave.Circuit circuit;
    private final LeakDraws draws;
    private final List<int[]> apart;

    /**
     * A test that may be made.
     *
     * @param direct what it implicates
     * @param takesS time it costs, s
     * @param out names of elements taken out for it
     * @param outS what of that time taking one out costs, s: an element that is worn has to come out anyway
     */
    record Way(List<Element> direct, double takesS, Collection<String> out, double outS) {}

    /**
     * @param earlier elements of each test made
     * @param open names of elements not yet decided
     * @param over names of elements called over their limits
     */
    TestsAhead(
            List<Way> ways,
            Collection<List<Element>> earlier,
            Collection<String> open,
            Collection<String> over,
            Map<String, Double> limitsM3PerS,
            LeakDraws draws) {
        this.ways = ways;
        this.draws = draws;
        List<List<Element>> tests = new ArrayList<>();
        ways.forEach(way -> tests.add(way.direct()));
        tests.addAll(earlier);
        Set<String> all = new LinkedHashSet<>();
        tests.forEach(test -> test.forEach(element -> all.add(element.name())));
        ways.forEach(way -> all.addAll(way.out()));
        names = List.copyOf(all);
        circuit = WhatTestsLeave.Circuit.of(tests, names, limitsM3PerS, open, over);
        apart = apart(circuit);
    }

    /** Tests, those together that have open elements in common, directly or by others. */
    private static List<int[]> apart(WhatTestsLeave.Circuit circuit) {
        List<BitSet> elements = new ArrayList<>();
        List<List<Integer>> tests = new ArrayList<>();
        for (int t = 0; t < circuit.tests().length; t++) {
            BitSet own = new BitSet();
            Arrays.stream(circuit.tests()[t]).filter(e -> circuit.open()[e]).forEach(own::set);
            List<Integer> joined = new ArrayList<>(List.of(t));
            for (int i = elements.size() - 1; i >= 0; i--) {
                if (elements.get(i).intersects(own)) {
                    own.or(elements.remove(i));
                    joined.addAll(tests.remove(i));
                }
            }
            elements.add(own);
            tests.add(joined);
        }
        return tests.stream()
                .map(each -> each.stream().mapToInt(t -> t).sorted().toArray())
                .toList();
    }

    /** By test that may be made: the share of machines on which it is among the fewest. */
    double[] shares() {
        double[] shares = new double[ways.size()];
        for (int m = 0; m < MACHINES; m++) {
            int draw = (2 * m + 1) * LeakDraws.DRAWS / (2 * MACHINES);
            double[] leaks =
                    names.stream().mapToDouble(name -> draws.leak(draw, name)).toArray();
            for (int[] part : apart) {
                new Machine(leaks, part).fewest().stream().forEach(t -> shares[t] += 1.0 / MACHINES);
            }
        }
        return shares;
    }

    /** One machine, and tests that hang together. */
    private final class Machine {
        private final WhatTestsLeave left;
        private final int[] may;
        private final List<Integer> made = new ArrayList<>();
        private final double[] takes = new double[ways.size()];
        private final boolean[] needed;
        private final Set<BitSet> begun = new HashSet<>();
        private final BitSet found = new BitSet();
        private double quickest = Double.POSITIVE_INFINITY;
        private int sets;
        private int all;

        Machine(double[] leaks, int[] part) {
            left = new WhatTestsLeave(circuit, leaks);
            may = Arrays.stream(part).filter(t -> t < ways.size()).toArray();
            Arrays.stream(part).filter(t -> t >= ways.size()).forEach(made::add);
            for (int t : may) {
                takes[t] = ways.get(t).takesS();
                for (String name : ways.get(t).out()) {
                    int e = names.indexOf(name);
                    takes[t] -= leaks[e] > circuit.limits()[e] ? ways.get(t).outS() : 0;
                }
            }
            List<Integer> everything = new ArrayList<>(made);
            Arrays.stream(may).forEach(everything::add);
            needed = left.decided(everything);
            for (int e = 0; e < needed.length; e++) {
                int element = e;
                needed[e] &= circuit.open()[e] && Arrays.stream(part).anyMatch(t -> circuit.has(t, element));
            }
        }

        /** Tests of the fewest that decide what can be decided. */
        BitSet fewest() {
            for (int size = 0; size <= may.length && quickest == Double.POSITIVE_INFINITY; size++) {
                begun.clear();
                search(size, new ArrayList<>(made), new BitSet());
                if (isTooMuch()) {
                    found.clear();
                    oneByOne();
                    return found;
                }
            }
            return found;
        }

        private boolean isTooMuch() {
            return sets > MOST_SETS || all > MOST_BEGUN;
        }

        private void search(int size, List<Integer> chosen, BitSet set) {
            int bare = bare(chosen);
            if (isTooMuch() || (size == 0 && bare >= 0)) {
                return;
            }
            if (size == 0) {
                sets++;
                take(chosen, set);
                return;
            }
            for (int t : may) {
                if (!set.get(t) && (bare < 0 || circuit.has(t, bare))) {
                    set.set(t);
                    all++;
                    if (begun.add((BitSet) set.clone())) {
                        chosen.add(t);
                        search(size - 1, chosen, set);
                        chosen.remove(chosen.size() - 1);
                    }
                    set.clear(t);
                }
            }
        }

        private void take(List<Integer> chosen, BitSet set) {
            boolean[] decided = left.decided(chosen);
            for (int e = 0; e < needed.length; e++) {
                if (needed[e] && !decided[e]) {
                    return;
                }
            }
            double time = set.stream().mapToDouble(t -> takes[t]).sum();
            if (time < quickest - ALIKE_S) {
                quickest = time;
                found.clear();
            }
            if (time < quickest + ALIKE_S) {
                found.or(set);
            }
        }

        /** A needed element that is in none of these tests; -1 where there is none. */
        private int bare(List<Integer> chosen) {
            for (int e = 0; e < needed.length; e++) {
                if (needed[e]) {
                    boolean in = false;
                    for (int t : chosen) {
                        in |= circuit.has(t, e);
                    }
                    if (!in) {
                        return e;
                    }
                }
            }
            return -1;
        }

        /** Takes the test that decides most for its time until no more is decided, and leaves out those others make needless. */
        private void oneByOne() {
            List<Integer> chosen = new ArrayList<>(made);
            double now = left.progress(chosen, needed, LITTLE);
            for (int next = 0; next >= 0; ) {
                next = -1;
                double gain = 0;
                double then = now;
                for (int t : may) {
                    if (!found.get(t)) {
                        chosen.add(t);
                        double with = left.progress(chosen, needed, LITTLE);
                        chosen.remove(chosen.size() - 1);
                        if ((with - now) / takes[t] > gain) {
                            gain = (with - now) / takes[t];
                            next = t;
                            then = with;
                        }
                    }
                }
                if (next >= 0) {
                    found.set(next);
                    chosen.add(next);
                    now = then;
                }
            }
            for (int t : may) {
                if (found.get(t)) {
                    chosen.remove(Integer.valueOf(t));
                    if (left.progress(chosen, needed, 0) < left.progress(with(chosen, t), needed, 0)) {
                        chosen.add(t);
                    } else {
                        found.clear(t);
                    }
                }
            }
        }

        private static List<Integer> with(List<Integer> chosen, int test) {
            List<Integer> longer = new ArrayList<>(chosen);
            longer.add(test);
            return longer;
        }
    }
}
