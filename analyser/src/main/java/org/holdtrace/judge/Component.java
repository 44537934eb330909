package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Elements that tests tie together, and for each choice of worn ones among them how probable what those tests measured
 * is. Exact up to the step of its grid: leaks of elements in the same tests are summed by convolution, the sums of such
 * groups by going through them all.
 *
 * @param elements the elements, in order of the circuit
 * @param likelihood by set of worn elements (bit i: element i)
 */
record Component(List<Element> elements, double[] likelihood) {
    /** Points of the grid by number of groups. */
    private static final int[] MOST_POINTS = {0, 600, 180, 56, 26, 14};

    /** Even more groups than that get this many points. */
    private static final int FEWEST_POINTS = 9;

    /** An element that no test implicates. */
    static Component untested(Element element) {
        return new Component(List.of(element), new double[] {1, 1});
    }

    /** One with the tests that tie its elements together. */
    static Component of(List<Element> elements, List<Observation> tests, Map<String, Double> limitsM3PerS) {
        return new Grid(elements, tests, limitsM3PerS).component();
    }

    /** The largest likelihood, by which weights are divided lest products of many tests leave the range of numbers. */
    double scale() {
        double scale = 0;
        for (double each : likelihood) {
            scale = Math.max(scale, each);
        }
        return scale > 0 ? scale : 1;
    }

    /** The sum over sets of worn elements, each weighted by {@code odds} of its elements. */
    double sum(double[][] weights) {
        double total = 0;
        for (int worn = 0; worn < likelihood.length; worn++) {
            double product = likelihood[worn];
            for (int e = 0; product > 0 && e < weights.length; e++) {
                product *= weights[e][worn >> e & 1];
            }
            total += product;
        }
        return total;
    }

    /** Elements that are in the very same tests. */
    private record Group(List<Integer> members, List<Integer> tests, int points, double step) {}

    /** The way to the table of likelihoods. */
    private static final class Grid {
        /** Standard deviation, in steps, that rounding to the grid adds: a little above the 0.29 of a rectangle. */
        private static final double OF_STEP = 0.4;

        private final List<Element> elements;
        private final List<Observation> tests;
        private final Map<String, Double> limits;
        private final List<Group> groups = new ArrayList<>();
        private final int[] told;
        private final double[] extraSd;

        Grid(List<Element> elements, List<Observation> tests, Map<String, Double> limits) {
            this.elements = elements;
            this.tests = tests;
            this.limits = limits;
            Map<Set<Integer>, List<Integer>> byTests = new LinkedHashMap<>();
            for (int e = 0; e < elements.size(); e++) {
                Set<Integer> in = new LinkedHashSet<>();
                for (int t = 0; t < tests.size(); t++) {
                    if (tests.get(t).elements().contains(elements.get(e))) {
                        in.add(t);
                    }
                }
                byTests.computeIfAbsent(in, key -> new ArrayList<>()).add(e);
            }
            int most = byTests.size() < MOST_POINTS.length ? MOST_POINTS[byTests.size()] : FEWEST_POINTS;
            extraSd = new double[tests.size()];
            for (Map.Entry<Set<Integer>, List<Integer>> entry : byTests.entrySet()) {
                double range = Double.POSITIVE_INFINITY;
                double finest = Double.POSITIVE_INFINITY;
                for (int t : entry.getKey()) {
                    range = Math.min(range, tests.get(t).largestM3PerS());
                    finest = Math.min(finest, tests.get(t).smallestSd());
                }
                int points = (int) Math.max(Math.min(most, 48), Math.min(most, Math.ceil(3 * range / finest)));
                double step = range / (points - 1);
                for (int t : entry.getKey()) {
                    extraSd[t] = Math.hypot(extraSd[t], OF_STEP * step);
                }
                groups.add(new Group(entry.getValue(), List.copyOf(entry.getKey()), points, step));
            }
            told = new int[tests.size()];
            int next = 0;
            for (int t = 0; t < told.length; t++) {
                told[t] = tests.get(t).tellsLaw() ? next++ : -1;
            }
        }

        private int toldCount() {
            int count = 0;
            for (int number : told) {
                count = Math.max(count, number + 1);
            }
            return count;
        }

        Component component() {
            List<Series[]> series = new ArrayList<>();
            for (Group group : groups) {
                series.add(seriesOf(group));
            }
            double[] likelihood = new double[1 << elements.size()];
            for (int worn = 0; worn < likelihood.length; worn++) {
                Series[] chosen = new Series[groups.size()];
                for (int g = 0; g < chosen.length; g++) {
                    int own = 0;
                    List<Integer> members = groups.get(g).members();
                    for (int i = 0; i < members.size(); i++) {
                        own |= (worn >> members.get(i) & 1) << i;
                    }
                    chosen[g] = series.get(g)[own];
                }
                likelihood[worn] = total(chosen, 0, new double[tests.size()], 1, 0);
            }
            return new Component(elements, likelihood);
        }

        /** By set of worn members: the distribution of their sum. */
        private Series[] seriesOf(Group group) {
            int laws = toldCount();
            Series[] made = {Series.nothing(1 << laws, group.points())};
            for (int i = 0; i < group.members().size(); i++) {
                Element element = elements.get(group.members().get(i));
                double[] law = new double[laws];
                for (int t = 0; t < told.length; t++) {
                    if (told[t] >= 0) {
                        law[told[t]] =
                                group.tests().contains(t) ? tests.get(t).lawLikelihood(element.kind()) : Double.NaN;
                    }
                }
                Series[] longer = new Series[2 * made.length];
                double limit = limits.get(element.name());
                for (int state = 0; state < 2; state++) {
                    Series own = Series.of(element.kind(), state == 1, limit, group.points(), group.step(), law);
                    for (int set = 0; set < made.length; set++) {
                        longer[set | state << i] = i == 0 ? own : made[set].plus(own);
                    }
                }
                made = longer;
            }
            return made;
        }

        /** Sums over the leaks of group {@code g} and those after it. {@code set}: tests whose law is told already. */
        private double total(Series[] chosen, int g, double[] sums, double weight, int set) {
            if (g == groups.size()) {
                return weight * density(sums, set);
            }
            Group group = groups.get(g);
            double total = 0;
            for (int i = 0; i < group.points(); i++) {
                double leak = i * group.step();
                for (int t : group.tests()) {
                    sums[t] += leak;
                }
                if (within(sums)) {
                    for (int part = 0; part < 1 << toldCount(); part++) {
                        if ((part & set) == 0 && chosen[g].has(part) && chosen[g].at(part, i) > 0) {
                            total += total(chosen, g + 1, sums, weight * chosen[g].at(part, i), set | part);
                        }
                    }
                }
                for (int t : group.tests()) {
                    sums[t] -= leak;
                }
            }
            return total;
        }

        private boolean within(double[] sums) {
            for (int t = 0; t < sums.length; t++) {
                if (sums[t] > tests.get(t).largestM3PerS() * (1 + 1e-9)) {
                    return false;
                }
            }
            return true;
        }

        /** Density of what was measured; each law is told by the leaks in proportion to their size. */
        private double density(double[] sums, int set) {
            double product = 1;
            for (int t = 0; t < sums.length; t++) {
                Observation test = tests.get(t);
                product *= test.density(sums[t], extraSd[t]);
                if (told[t] < 0) {
                    continue;
                }
                boolean leaks = sums[t] > 1e-9 * test.largestM3PerS();
                if (leaks != ((set & 1 << told[t]) != 0)) {
                    return 0; // with a leak, one share of it tells the law; without, nothing does
                }
                product *= leaks ? 1 / sums[t] : NO_LAW;
            }
            return product;
        }

        /** What a law is worth that no leak is there to tell: as if all were equal. */
        private static final double NO_LAW = 0.25;
    }
}
