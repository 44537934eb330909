package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Elements that tests tie together, and for each choice of worn ones among them how probable what those tests measured
 * is. Exact up to the step of its grid: leaks of elements in the same tests are summed by convolution, the sums of such
 * groups by going through them all, save those that no test's result leaves room for.
 *
 * @param elements the elements, in order of the circuit
 * @param likelihood by set of worn elements (bit i: element i)
 */
record Component(List<Element> elements, double[] likelihood) {
    /** More elements than that worn at once are not reckoned with: that is one case in some ten thousand. */
    private static final int MOST_WORN = 4;

    /** The same where more than {@value #MANY} elements are tied together. */
    private static final int MOST_WORN_OF_MANY = 3;

    private static final int MANY = 7;

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

    /** Elements that are in the very same tests. {@code told}: those of the tests that saw a law, as a set. */
    private record Group(List<Integer> members, List<Integer> tests, int told) {}

    /** The way to the table of likelihoods. */
    private static final class Grid {
        /** Standard deviation, in steps, that rounding to the grid adds: a little above the 0.29 of a rectangle. */
        private static final double OF_STEP = 0.4;

        /** Standard deviations beyond which a test leaves no room. */
        private static final double ROOM = 5;

        private static final int MOST_POINTS = 600;
        private static final int MOST_POINTS_OF_SEVERAL = 180;
        private static final int FEWEST_OF_FEW = 48;
        private static final int FEWEST_POINTS = 10;

        /** Steps of the grid to a test's standard deviation, and how coarse it may become where there is much to do. */
        private static final double FINENESS = 3;

        private static final double COARSEST = 0.4;
        private static final double COARSER = 0.8;

        /** Work that takes some tenths of a second. */
        private static final double MOST_WORK = 6e7;

        private static final int FEW_ELEMENTS = 5;
        private static final int LAWS_OF_FEW = 4;
        private static final int LAWS_OF_MANY = 2;

        /** What a law is worth that no leak is there to tell: as if all were equal. */
        private static final double NO_LAW = 0.25;

        private final List<Element> elements;
        private final List<Observation> tests;
        private final Map<String, Double> limits;
        private final List<Group> groups;
        private final int[] told;
        private final int toldCount;
        private final double[] step;
        private final int[] points;
        private final double[] below;
        private final double[] above;
        /** By group: the tests of which it is the last. */
        private final List<List<Integer>> closes = new ArrayList<>();

        Grid(List<Element> elements, List<Observation> tests, Map<String, Double> limits) {
            this.elements = elements;
            this.tests = tests;
            this.limits = limits;
            told = new int[tests.size()];
            toldCount = tellLaws();
            groups = inOrder(grouped());
            step = new double[groups.size()];
            points = new int[groups.size()];
            below = new double[tests.size()];
            above = new double[tests.size()];
            for (int g = 0; g < step.length; g++) {
                List<Integer> closed = new ArrayList<>(groups.get(g).tests());
                for (int later = g + 1; later < step.length; later++) {
                    closed.removeAll(groups.get(later).tests());
                }
                closes.add(List.copyOf(closed));
            }
            double fineness = FINENESS;
            do {
                divide(fineness);
                fineness *= COARSER;
            } while (work() > MOST_WORK && fineness > COARSEST);
        }

        /** Sets the grids, so many steps to the finest deviation of the tests each group is in. */
        private void divide(double fineness) {
            int most = groups.size() == 1 ? MOST_POINTS : MOST_POINTS_OF_SEVERAL;
            int fewest = groups.size() <= 2 ? FEWEST_OF_FEW : FEWEST_POINTS;
            double[] rounding = new double[tests.size()];
            for (int g = 0; g < step.length; g++) {
                double range = Double.POSITIVE_INFINITY;
                double finest = Double.POSITIVE_INFINITY;
                for (int t : groups.get(g).tests()) {
                    range = Math.min(range, tests.get(t).largestM3PerS());
                    finest = Math.min(finest, tests.get(t).smallestSd());
                }
                points[g] = (int) Math.min(most, Math.max(fewest, Math.ceil(fineness * range / finest)));
                step[g] = range / (points[g] - 1);
                for (int t : groups.get(g).tests()) {
                    rounding[t] = Math.hypot(rounding[t], OF_STEP * step[g]);
                }
            }
            for (int t = 0; t < below.length; t++) {
                below[t] = Math.hypot(tests.get(t).belowM3PerS(), rounding[t]);
                above[t] = Math.hypot(tests.get(t).aboveM3PerS(), rounding[t]);
            }
        }

        /** About how many points are gone through for all sets of worn elements. */
        private double work() {
            double work = Math.pow(groups.size(), toldCount);
            for (int g = 0; g < step.length; g++) {
                double room = points[g];
                for (int t : closes.get(g)) {
                    room = Math.min(room, 1 + ROOM * (below[t] + above[t]) / step[g]);
                }
                work *= room;
            }
            return work * Math.min(1 << elements.size(), Math.pow(elements.size(), mostWorn()));
        }

        private int mostWorn() {
            return elements.size() > MANY ? MOST_WORN_OF_MANY : MOST_WORN;
        }

        /**
         * Numbers the tests whose law counts. Each multiplies the work, so beyond a few only those count that leak most in
         * limits: where nothing leaks more than it may, the law accuses nobody.
         */
        private int tellLaws() {
            Arrays.fill(told, -1);
            int most = elements.size() > FEW_ELEMENTS ? LAWS_OF_MANY : LAWS_OF_FEW;
            List<Integer> order = new ArrayList<>();
            for (int t = 0; t < told.length; t++) {
                if (tests.get(t).tellsLaw()) {
                    order.add(t);
                }
            }
            order.sort(Comparator.comparingDouble(t -> -inLimits(tests.get(t))));
            int count = Math.min(most, order.size());
            for (int i = 0; i < count; i++) {
                told[order.get(i)] = i;
            }
            return count;
        }

        private double inLimits(Observation test) {
            double smallest = test.elements().stream()
                    .mapToDouble(element -> limits.get(element.name()))
                    .min()
                    .orElseThrow();
            return test.m3PerS() / smallest;
        }

        private List<Group> grouped() {
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
            List<Group> made = new ArrayList<>();
            byTests.forEach((in, members) -> {
                int set = 0;
                for (int t : in) {
                    set |= told[t] >= 0 ? 1 << told[t] : 0;
                }
                made.add(new Group(List.copyOf(members), List.copyOf(in), set));
            });
            return made;
        }

        /** The test with the fewest groups left goes first, so that results leave little room as early as can be. */
        private List<Group> inOrder(List<Group> left) {
            List<Group> ordered = new ArrayList<>();
            while (!left.isEmpty()) {
                int first = -1;
                long fewest = Long.MAX_VALUE;
                for (int t = 0; t < tests.size(); t++) {
                    int test = t;
                    long open = left.stream()
                            .filter(group -> group.tests().contains(test))
                            .count();
                    if (open > 0 && open < fewest) {
                        fewest = open;
                        first = t;
                    }
                }
                int test = first;
                left.stream().filter(group -> group.tests().contains(test)).forEach(ordered::add);
                left.removeAll(ordered);
            }
            return ordered;
        }

        Component component() {
            List<Series[]> series = new ArrayList<>();
            for (int g = 0; g < step.length; g++) {
                series.add(seriesOf(g));
            }
            double[] likelihood = new double[1 << elements.size()];
            for (int worn = 0; worn < likelihood.length; worn++) {
                if (Integer.bitCount(worn) > mostWorn()) {
                    continue;
                }
                Series[] chosen = new Series[step.length];
                for (int g = 0; g < chosen.length; g++) {
                    int own = 0;
                    List<Integer> members = groups.get(g).members();
                    for (int i = 0; i < members.size(); i++) {
                        own |= (worn >> members.get(i) & 1) << i;
                    }
                    chosen[g] = series.get(g)[own];
                }
                Bounds bounds = bounds(chosen);
                likelihood[worn] = bounds.possible() ? total(chosen, bounds, 0, new double[tests.size()], 1, 0) : 0;
            }
            return new Component(elements, likelihood);
        }

        /** By set of worn members: the distribution of their sum. */
        private Series[] seriesOf(int g) {
            Group group = groups.get(g);
            Series[] made = {Series.nothing(1 << toldCount, points[g])};
            for (int i = 0; i < group.members().size(); i++) {
                Element element = elements.get(group.members().get(i));
                double[] law = new double[toldCount];
                for (int t = 0; t < told.length; t++) {
                    if (told[t] >= 0) {
                        law[told[t]] =
                                group.tests().contains(t) ? tests.get(t).lawLikelihood(element.kind()) : Double.NaN;
                    }
                }
                Series[] longer = new Series[2 * made.length];
                double limit = limits.get(element.name());
                for (int state = 0; state < 2; state++) {
                    Series own = Series.of(element.kind(), state == 1, limit, points[g], step[g], law);
                    for (int set = 0; set < made.length; set++) {
                        longer[set | state << i] = i == 0 ? own : made[set].plus(own);
                    }
                }
                made = longer;
            }
            return made;
        }

        /**
         * How much the groups from one on can add to a test, by test and group.
         *
         * @param possible whether the whole leaves room for what every test measured
         */
        private record Bounds(double[][] least, double[][] most, boolean possible) {}

        private Bounds bounds(Series[] chosen) {
            double[][] least = new double[tests.size()][step.length + 1];
            double[][] most = new double[tests.size()][step.length + 1];
            boolean possible = true;
            for (int t = 0; t < least.length; t++) {
                for (int g = step.length - 1; g >= 0; g--) {
                    boolean in = groups.get(g).tests().contains(t);
                    least[t][g] = least[t][g + 1] + (in ? chosen[g].first() * step[g] : 0);
                    most[t][g] = most[t][g + 1] + (in ? chosen[g].last() * step[g] : 0);
                }
                possible &= least[t][0] <= tests.get(t).m3PerS() + ROOM * above[t]
                        && most[t][0] >= tests.get(t).m3PerS() - ROOM * below[t];
            }
            return new Bounds(least, most, possible);
        }

        /** Sums over the leaks of group {@code g} and those after it. {@code set}: tests whose law is told already. */
        private double total(Series[] chosen, Bounds bounds, int g, double[] sums, double weight, int set) {
            if (g == step.length) {
                return weight;
            }
            double least = chosen[g].first() * step[g];
            double most = chosen[g].last() * step[g];
            for (int t : groups.get(g).tests()) {
                double measured = tests.get(t).m3PerS() - sums[t];
                most = Math.min(most, measured + ROOM * above[t] - bounds.least()[t][g + 1]);
                least = Math.max(least, measured - ROOM * below[t] - bounds.most()[t][g + 1]);
            }
            int last = (int) Math.floor(most / step[g] + 1e-9);
            int open = groups.get(g).told() & ~set;
            double total = 0;
            for (int i = (int) Math.ceil(least / step[g] - 1e-9); i <= last; i++) {
                double leak = i * step[g];
                for (int t : groups.get(g).tests()) {
                    sums[t] += leak;
                }
                double measured = closed(g, sums);
                for (int part = open; ; part = (part - 1) & open) {
                    if (chosen[g].has(part) && chosen[g].at(part, i) > 0) {
                        double told = toldBy(g, sums, set | part);
                        if (told > 0) {
                            total += total(
                                    chosen,
                                    bounds,
                                    g + 1,
                                    sums,
                                    weight * measured * told * chosen[g].at(part, i),
                                    set | part);
                        }
                    }
                    if (part == 0) {
                        break;
                    }
                }
                for (int t : groups.get(g).tests()) {
                    sums[t] -= leak;
                }
            }
            return total;
        }

        /** Density of what the tests measured whose last group this is. */
        private double closed(int g, double[] sums) {
            double product = 1;
            for (int t : closes.get(g)) {
                double off = sums[t] - tests.get(t).m3PerS();
                double z = off / (off > 0 ? above[t] : below[t]);
                product *= Math.exp(-0.5 * z * z) * 2 / (Math.sqrt(2 * Math.PI) * (below[t] + above[t]));
            }
            return product;
        }

        /** Each law is told by the leaks in proportion to their size: with a leak one share of it, without nothing. */
        private double toldBy(int g, double[] sums, int set) {
            double product = 1;
            for (int t : closes.get(g)) {
                if (told[t] < 0) {
                    continue;
                }
                boolean leaks = sums[t] > 1e-9 * tests.get(t).largestM3PerS();
                if (leaks != ((set & 1 << told[t]) != 0)) {
                    return 0;
                }
                product *= leaks ? 1 / sums[t] : NO_LAW;
            }
            return product;
        }
    }
}
