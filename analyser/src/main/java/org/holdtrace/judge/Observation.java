package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;

/**
 * What one hold test says about the sum of the leaks of the elements it implicates, at the pressure of the case.
 *
 * @param elements the elements whose leaks add up to it
 * @param m3PerS estimate, m³/s
 * @param belowM3PerS standard uncertainty towards smaller leaks, m³/s
 * @param aboveM3PerS standard uncertainty towards larger leaks, m³/s
 * @param laws weight of each law of leak, summing to 1; empty where no leak was told from zero
 */
record Observation(
        List<Element> elements, double m3PerS, double belowM3PerS, double aboveM3PerS, Map<Law, Double> laws) {
    /** Half the width of a 95 % interval in standard deviations. */
    private static final double COVERAGE = 1.96;

    /** Share of belief in the laws that is spread evenly: AICc weights are surer of themselves than they deserve. */
    private static final double DOUBT_OF_LAWS = 0.15;

    /** More groups than that are not weighed together. */
    static final int MOST_GROUPS = 10;

    /** Nor are more elements that tests tie together: each doubles the combinations. */
    static final int MOST_TIED = 16;

    /** Nor more that are in the very same tests. */
    static final int MOST_ALIKE = 12;

    Observation {
        elements = List.copyOf(elements);
        laws = Law.ordered(laws);
        if (!(m3PerS >= 0) || !(aboveM3PerS > 0) || !(belowM3PerS > 0)) {
            throw new IllegalArgumentException("no usable leak: " + m3PerS + " m3/s, uncertainty " + aboveM3PerS);
        }
    }

    /** From the leak a hold test gave, stated at the pressure of the case. */
    static Observation of(List<Element> elements, HoldTestResult.Leak leak) {
        double least = Math.max(1e-3 * leak.m3PerS(), 1e-15);
        double above = Math.max(least, (leak.upper95() - leak.m3PerS()) / COVERAGE);
        boolean none = leak.law() == Law.NONE;
        double below = none ? above : Math.max(least, (leak.m3PerS() - leak.lower95()) / COVERAGE);
        return new Observation(elements, leak.m3PerS(), below, above, none ? Map.of() : weights(leak));
    }

    private static Map<Law, Double> weights(HoldTestResult.Leak leak) {
        double sum = 0;
        for (Map.Entry<Law, Double> weight : leak.weights().entrySet()) {
            sum += weight.getKey() == Law.NONE ? 0 : weight.getValue();
        }
        Map<Law, Double> laws = new EnumMap<>(Law.class);
        for (Law law : Law.values()) {
            if (law != Law.NONE && sum > 0) {
                laws.put(law, leak.weights().getOrDefault(law, 0.0) / sum);
            }
        }
        return laws;
    }

    boolean tellsLaw() {
        return !laws.isEmpty();
    }

    /**
     * How probable the laws are that {@code tests} saw, where all oil they tell it by comes through one element of {@code
     * kind}. An element leaks by one law, whatever the test: seen three times that law is no better a sign of the kind than
     * the three readings make it sure.
     */
    static double lawLikelihood(ElementKind kind, List<Observation> tests) {
        double sum = 0;
        for (Law law : Law.values()) {
            double seen = kind.probabilityOf(law);
            for (Observation test : tests) {
                seen *= doubted(test.laws().getOrDefault(law, 0.0), test.laws().size());
            }
            sum += seen;
        }
        return sum;
    }

    double largestM3PerS() {
        return m3PerS + 6 * aboveM3PerS;
    }

    double smallestSd() {
        return Math.min(belowM3PerS, aboveM3PerS);
    }

    /** Tests of the very same elements made into one each: weighted means, and the product of what they say of the law. */
    static List<Observation> pooled(List<Observation> observations) {
        Map<Set<Element>, Observation> pooled = new LinkedHashMap<>();
        for (Observation observation : observations) {
            pooled.merge(new HashSet<>(observation.elements()), observation, Observation::and);
        }
        return List.copyOf(pooled.values());
    }

    /**
     * Those of {@code pooled} that can be weighed together. Tests that overlap in ever new ways or have ever more elements
     * would take hours; where they part the elements they tie together into more than {@value #MOST_GROUPS} groups, or tie
     * together more than {@value #MOST_TIED}, or more than {@value #MOST_ALIKE} in the very same tests, those of the most
     * elements are left out.
     */
    static List<Observation> weighable(List<Observation> pooled) {
        Set<List<Element>> kept = new HashSet<>();
        kept.addAll(weighableOf(pooled.stream().map(Observation::elements).toList()));
        return pooled.stream()
                .filter(observation -> kept.contains(observation.elements()))
                .toList();
    }

    /** The same, of the elements of tests alone. */
    static List<List<Element>> weighableOf(List<List<Element>> tests) {
        List<List<Element>> kept = new ArrayList<>();
        tests.stream().sorted(Comparator.comparingInt(List::size)).forEach(test -> {
            kept.add(test);
            if (isTooMuch(kept, test)) {
                kept.remove(kept.size() - 1);
            }
        });
        return kept;
    }

    /** Whether the elements tied to those of {@code test} are too many, or in too many or too large groups of the same tests. */
    private static boolean isTooMuch(List<List<Element>> tests, List<Element> test) {
        Set<Element> tied = new HashSet<>(test);
        Set<List<Element>> tying = new LinkedHashSet<>();
        boolean grew = true;
        while (grew) {
            grew = false;
            for (List<Element> other : tests) {
                if (!Collections.disjoint(tied, other) && tying.add(other)) {
                    tied.addAll(other);
                    grew = true;
                }
            }
        }
        Map<Set<List<Element>>, Integer> groups = new HashMap<>();
        for (Element element : tied) {
            Set<List<Element>> in = new HashSet<>(tying);
            in.removeIf(other -> !other.contains(element));
            groups.merge(in, 1, Integer::sum);
        }
        return tied.size() > MOST_TIED || groups.size() > MOST_GROUPS || Collections.max(groups.values()) > MOST_ALIKE;
    }

    private Observation and(Observation other) {
        double mine = 2 / (belowM3PerS + aboveM3PerS);
        double theirs = 2 / (other.belowM3PerS + other.aboveM3PerS);
        double weight = mine * mine + theirs * theirs;
        double mean = (mine * mine * m3PerS + theirs * theirs * other.m3PerS) / weight;
        double below = 1 / Math.hypot(1 / belowM3PerS, 1 / other.belowM3PerS);
        double above = 1 / Math.hypot(1 / aboveM3PerS, 1 / other.aboveM3PerS);
        return new Observation(elements, mean, below, above, product(laws, other.laws));
    }

    private static Map<Law, Double> product(Map<Law, Double> mine, Map<Law, Double> theirs) {
        if (mine.isEmpty() || theirs.isEmpty()) {
            return mine.isEmpty() ? theirs : mine;
        }
        Map<Law, Double> product = new EnumMap<>(Law.class);
        double sum = 0;
        for (Law law : mine.keySet()) {
            double both = doubted(mine.get(law), mine.size()) * doubted(theirs.getOrDefault(law, 0.0), mine.size());
            product.put(law, both);
            sum += both;
        }
        double whole = sum;
        product.replaceAll((law, both) -> both / whole);
        return product;
    }

    private static double doubted(double weight, int laws) {
        return (1 - DOUBT_OF_LAWS) * weight + DOUBT_OF_LAWS / laws;
    }

    /** The same with its uncertainty multiplied. */
    Observation widened(double factor) {
        return new Observation(elements, m3PerS, factor * belowM3PerS, factor * aboveM3PerS, laws);
    }
}
