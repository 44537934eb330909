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
 * Elements that tests tie together, parted into groups that are in the very same tests, with an even grid for the leak of
 * each group.
 */
final class LeakGrid {
    /** A test's standard uncertainty is taken for at least so many steps of its grids, lest its result falls between them. */
    private static final double FEWEST_STEPS = 0.9;

    /** Quanta, at least, to a test's standard uncertainty. */
    private static final double QUANTA = 8;

    private static final int MOST_POINTS = 600;
    private static final int MOST_POINTS_OF_SEVERAL = 400;
    private static final int FEWEST_OF_FEW = 48;
    private static final int FEWEST_POINTS = 10;

    /** Tests whose law counts: each multiplies the work. */
    private static final int MOST_LAWS = 4;

    private static final int MOST_LAWS_OF_MANY = 2;
    private static final int FEW_ELEMENTS = 5;

    private final List<Element> elements;
    private final List<Observation> tests;
    private final Map<String, Double> limits;
    private final List<int[]> groupTests = new ArrayList<>();
    private final List<int[]> groupMembers = new ArrayList<>();
    private final int[] told;
    private final int toldCount;
    private final double[] step;
    private final int[] points;
    private final double[] quantum;
    private final double[] below;
    private final double[] above;

    /**
     * @param elements the elements
     * @param tests what the tests that tie them together measured
     * @param limitsM3PerS limits of the elements by name
     * @param fineness steps of the grids to a test's standard uncertainty
     */
    LeakGrid(List<Element> elements, List<Observation> tests, Map<String, Double> limitsM3PerS, double fineness) {
        this.elements = elements;
        this.tests = tests;
        this.limits = limitsM3PerS;
        told = new int[tests.size()];
        toldCount = tellLaws();
        group();
        step = new double[groupTests.size()];
        points = new int[step.length];
        quantum = new double[tests.size()];
        below = new double[tests.size()];
        above = new double[tests.size()];
        divide(fineness);
    }

    /** How many groups there are. */
    int groupCount() {
        return step.length;
    }

    /** Which elements group {@code g} has. */
    int[] members(int g) {
        return groupMembers.get(g);
    }

    /** Which tests group {@code g} is in. */
    int[] testsOf(int g) {
        return groupTests.get(g);
    }

    /** Step of the grid of group {@code g}, m³/s. */
    double stepM3PerS(int g) {
        return step[g];
    }

    /** How many multiples of its step group {@code g} can leak, none among them. */
    int points(int g) {
        return points[g];
    }

    int testCount() {
        return tests.size();
    }

    double measuredM3PerS(int t) {
        return tests.get(t).m3PerS();
    }

    /** The number under which the law of test {@code t} counts; -1 where it does not. */
    int told(int t) {
        return told[t];
    }

    /** Standard uncertainty of test {@code t} towards smaller leaks, as its grids can show it, m³/s. */
    double belowM3PerS(int t) {
        return below[t];
    }

    /** The same towards larger leaks. */
    double aboveM3PerS(int t) {
        return above[t];
    }

    /** What sums of leaks in test {@code t} are counted in: the finest of its steps, as far as its result tells so much, m³/s. */
    double quantumM3PerS(int t) {
        return quantum[t];
    }

    /** How many laws count. */
    int toldCount() {
        return toldCount;
    }

    /** By set of tests whose law counts: how likely these laws are for a member of group {@code g}; NaN where it is not in all. */
    private double[] lawLikelihood(int g, ElementKind kind) {
        int in = 0;
        for (int t : testsOf(g)) {
            in |= told[t] >= 0 ? 1 << told[t] : 0;
        }
        double[] likelihood = new double[1 << toldCount];
        for (int set = 0; set < likelihood.length; set++) {
            List<Observation> saw = new ArrayList<>();
            for (int t : testsOf(g)) {
                if (told[t] >= 0 && (set >> told[t] & 1) == 1) {
                    saw.add(tests.get(t));
                }
            }
            likelihood[set] = (set & ~in) == 0 ? Observation.lawLikelihood(kind, saw) : Double.NaN;
        }
        return likelihood;
    }

    /** By set of worn members of group {@code g}: the distribution of the sum of their leaks. */
    Series[] series(int g) {
        Series[] made = {Series.nothing(1 << toldCount, points[g])};
        for (int i = 0; i < members(g).length; i++) {
            Element element = elements.get(members(g)[i]);
            double[] law = lawLikelihood(g, element.kind());
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
     * Sets the grids, at least so many steps to the finest deviation of the tests each group is in. Steps are powers of two,
     * so that sums of leaks on different grids meet.
     */
    private void divide(double fineness) {
        int most = step.length == 1 ? MOST_POINTS : MOST_POINTS_OF_SEVERAL;
        int fewest = step.length <= 2 ? FEWEST_OF_FEW : FEWEST_POINTS;
        Arrays.fill(quantum, Double.POSITIVE_INFINITY);
        double[] coarsest = new double[tests.size()];
        for (int g = 0; g < step.length; g++) {
            double range = Double.POSITIVE_INFINITY;
            double finest = Double.POSITIVE_INFINITY;
            for (int t : testsOf(g)) {
                range = Math.min(range, tests.get(t).largestM3PerS());
                finest = Math.min(finest, tests.get(t).smallestSd());
            }
            double parts = Math.min(most, Math.max(fewest, fineness * range / finest));
            step[g] = powerOfTwo(range / parts);
            points[g] = 1 + (int) Math.ceil(range / step[g]);
            for (int t : testsOf(g)) {
                quantum[t] = Math.min(quantum[t], step[g]);
                coarsest[t] = Math.max(coarsest[t], step[g]);
            }
        }
        for (int t = 0; t < below.length; t++) {
            quantum[t] = Math.max(quantum[t], powerOfTwo(tests.get(t).smallestSd() / QUANTA));
            below[t] = Math.max(tests.get(t).belowM3PerS(), FEWEST_STEPS * coarsest[t]);
            above[t] = Math.max(tests.get(t).aboveM3PerS(), FEWEST_STEPS * coarsest[t]);
        }
    }

    /** The largest power of two that is no larger. */
    private static double powerOfTwo(double value) {
        return Math.pow(2, Math.floor(Math.log(value) / Math.log(2)));
    }

    /**
     * Numbers the tests whose law counts: beyond a few those that leak most in limits. Where nothing leaks more than it may,
     * the law accuses nobody.
     */
    private int tellLaws() {
        Arrays.fill(told, -1);
        List<Integer> order = new ArrayList<>();
        for (int t = 0; t < told.length; t++) {
            if (tests.get(t).tellsLaw()) {
                order.add(t);
            }
        }
        order.sort(Comparator.comparingDouble(t -> -inLimits(tests.get(t))));
        int count = Math.min(elements.size() > FEW_ELEMENTS ? MOST_LAWS_OF_MANY : MOST_LAWS, order.size());
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

    private void group() {
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
        byTests.forEach((in, members) -> {
            groupTests.add(in.stream().mapToInt(t -> t).toArray());
            groupMembers.add(members.stream().mapToInt(e -> e).toArray());
        });
    }
}
