package org.holdtrace.judge;

import java.util.Arrays;
import java.util.List;
import java.util.Map;

/**
 * Elements that tests tie together, and for each choice of worn ones among them how probable what those tests measured
 * is. Exact up to the step of its grids ({@link LeakSums}).
 *
 * @param elements the elements, in order of the circuit
 * @param tests what those tests measured, their uncertainties as widened
 * @param likelihood by set of worn elements (bit i: element i), the largest being 1
 * @param widened by how much the uncertainties of the tests had to be multiplied before any set of leaks could have given
 *     all their results; 1 where they agree
 */
record Component(List<Element> elements, List<Observation> tests, double[] likelihood, double widened) {
    /** Steps of the grids to a test's standard uncertainty, to begin with. */
    private static final double FINENESS = 1.5;

    /** How coarse they become where there is much to do, and how fine where there is little. */
    private static final double COARSEST = 0.75;

    private static final double FINEST = 6;

    /** Additions that take some tenths of a second. */
    private static final double MOST_WORK = 2e6;

    /** By how much a grid twice as fine takes more of them, where two groups' leaks are free. */
    private static final double OF_TWICE_AS_FINE = 8;

    private static final double WIDER = 2;

    /** An element that no test implicates. */
    static Component untested(Element element) {
        return new Component(List.of(element), List.of(), new double[] {1, 1}, 1);
    }

    /** One with the tests that tie its elements together. */
    static Component of(List<Element> elements, List<Observation> tests, Map<String, Double> limitsM3PerS) {
        double widened = 1;
        List<Observation> taken = tests;
        double[] likelihood = likelihood(elements, tests, limitsM3PerS);
        double largest = Arrays.stream(likelihood).max().orElseThrow();
        while (!(largest > 0)) {
            widened *= WIDER;
            double factor = widened;
            taken = tests.stream().map(test -> test.widened(factor)).toList();
            likelihood = likelihood(elements, taken, limitsM3PerS);
            largest = Arrays.stream(likelihood).max().orElseThrow();
        }
        for (int worn = 0; worn < likelihood.length; worn++) {
            likelihood[worn] /= largest; // lest products of many components leave the range of numbers
        }
        return new Component(elements, taken, likelihood, widened);
    }

    private static double[] likelihood(
            List<Element> elements, List<Observation> tests, Map<String, Double> limitsM3PerS) {
        double fineness = FINENESS;
        LeakSums.Outcome outcome = LeakSums.of(new LeakGrid(elements, tests, limitsM3PerS, fineness), MOST_WORK);
        if (outcome.likelihood().isEmpty()) {
            LeakGrid coarse = new LeakGrid(elements, tests, limitsM3PerS, COARSEST);
            return LeakSums.of(coarse, Double.POSITIVE_INFINITY).likelihood().orElseThrow();
        }
        double[] likelihood = outcome.likelihood().get();
        while (fineness < FINEST && outcome.work() * OF_TWICE_AS_FINE < MOST_WORK) {
            fineness *= 2;
            outcome = LeakSums.of(new LeakGrid(elements, tests, limitsM3PerS, fineness), MOST_WORK);
            likelihood = outcome.likelihood().orElse(likelihood);
        }
        return likelihood;
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
}
