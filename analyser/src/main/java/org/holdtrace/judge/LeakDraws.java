package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Which elements are worn and how much each leaks, drawn as often as a case leaves them probable: from them follows what a
 * test not yet made would measure, and what would be known after it. The same case always gives the same draws.
 */
final class LeakDraws {
    /** Draws: what they say of a probability near a half errs by two in a hundred. */
    static final int DRAWS = 800;

    /** Results of a test that are thought through. */
    private static final int OUTCOMES = 64;

    /** Sets drawn, at most, for one that is kept: complaints without a cause are rare. */
    private static final int MOST_TRIES = 400;

    /** What a hold test errs by, as a share of the leak, and as a share of the smallest limit in it (docs/benchmarks.md). */
    private static final double ERROR_OF_LEAK = 0.04;

    private static final double ERROR_OF_LIMIT = 0.06;

    /** Standard deviations beyond which a result speaks against a draw so much that it is left out. */
    private static final double ROOM = 4;

    /** Draws that what was known before counts as, beside those that agree with a result. */
    private static final double BEFORE = 1;

    /** Bits of doubt at which an element is half an open question: those of one in a hundred. */
    private static final double HALF_OPEN = 0.08;

    /** What settling an element is worth, in bits. Chosen by trying 0 to 1 on simulated machines (docs/benchmarks.md). */
    private static final double OF_SETTLED = 0.3;

    private static final long SEED = 20_011;

    private final Map<String, Integer> index = new HashMap<>();
    private final Map<String, Double> limits;
    private final double[][] leaks = new double[DRAWS][];
    private final boolean[][] worn = new boolean[DRAWS][];
    private final double[] normal = new double[OUTCOMES];

    /**
     * @param components what tests say of groups of elements
     * @param weights how probable each element is to be sound and worn without those tests, by name
     * @param path elements that can explain the complaint; empty where any combination can
     * @param withoutCause how often a combination without one of those is kept
     * @param limitsM3PerS limit of each element by name
     */
    LeakDraws(
            List<Component> components,
            Map<String, double[]> weights,
            Set<String> path,
            double withoutCause,
            Map<String, Double> limitsM3PerS) {
        limits = limitsM3PerS;
        SplittableRandom random = new SplittableRandom(SEED);
        List<ComponentDraws> parts = new ArrayList<>();
        for (Component component : components) {
            parts.add(new ComponentDraws(component, weights, limitsM3PerS, index.size()));
            component.elements().forEach(element -> index.put(element.name(), index.size()));
        }
        boolean[] causes = new boolean[index.size()];
        index.forEach((name, at) -> causes[at] = path.contains(name));
        for (int d = 0; d < DRAWS; d++) {
            draw(d, parts, causes, path.isEmpty() ? 1 : withoutCause, random);
        }
        for (int i = 0; i < OUTCOMES; i++) {
            normal[i] = random.nextGaussian();
        }
    }

    private void draw(
            int d, List<ComponentDraws> parts, boolean[] causes, double withoutCause, SplittableRandom random) {
        for (int tries = 0; ; tries++) {
            leaks[d] = new double[index.size()];
            worn[d] = new boolean[index.size()];
            boolean caused = false;
            for (ComponentDraws part : parts) {
                part.drawSet(random, worn[d]);
            }
            for (int e = 0; e < causes.length; e++) {
                caused |= causes[e] && worn[d][e];
            }
            if (caused || random.nextDouble() < withoutCause || tries > MOST_TRIES) {
                break;
            }
        }
        for (ComponentDraws part : parts) {
            part.drawLeaks(random, worn[d], leaks[d]);
        }
    }

    /** What element {@code name} leaks in draw {@code d}, m³/s. */
    double leak(int d, String name) {
        return leaks[d][index.get(name)];
    }

    /** Standard deviation of what a test gives, where the leaks in it add up to {@code sum} and the least limit is {@code least}, m³/s. */
    static double errorOf(double sum, double least) {
        return Math.hypot(ERROR_OF_LEAK * sum, ERROR_OF_LIMIT * least);
    }

    /**
     * What a test not yet made is expected to tell.
     *
     * @param bits by how much it lowers the entropy of "over its limit or not", all elements asked for together, bits
     * @param settled of how many of them it is expected to leave no doubt worth a further test
     */
    record Told(double bits, double settled) {
        /** Elements nobody is in doubt of any more are worth something beyond the last bits of that doubt: they need no test. */
        double worth() {
            return bits + OF_SETTLED * settled;
        }
    }

    /** How much of an open question an element is whose doubt is that entropy, from 0 for none at all to nearly 1. */
    private static double open(double bits) {
        return bits / (bits + HALF_OPEN);
    }

    /** What a test of {@code elements} is expected to tell of whether each of {@code asked} is worn. */
    Told expected(List<Element> elements, Set<String> asked) {
        int[] which = asked.stream().mapToInt(index::get).toArray();
        double[] before = new double[which.length];
        double bits = 0;
        double settled = 0;
        for (int k = 0; k < which.length; k++) {
            for (int d = 0; d < DRAWS; d++) {
                before[k] += worn[d][which[k]] ? 1.0 / DRAWS : 0;
            }
            bits += Planner.entropyBits(before[k]);
            settled += open(Planner.entropyBits(before[k]));
        }
        Sums sums = new Sums(elements, which);
        for (int i = 0; i < OUTCOMES; i++) {
            int middle = (int) ((i + 0.5) * DRAWS / OUTCOMES);
            double agree = BEFORE;
            double[] over = new double[which.length];
            for (int k = 0; k < which.length; k++) {
                over[k] = BEFORE * before[k];
            }
            agree += sums.seen(middle, sums.sum[middle] + sums.sd[middle] * normal[i], over);
            for (double each : over) {
                double left = Planner.entropyBits(each / agree);
                bits -= left / OUTCOMES;
                settled -= open(left) / OUTCOMES;
            }
        }
        return new Told(Math.max(0, bits), Math.max(0, settled));
    }

    /** What a test would measure by each draw, small sums first, and what is worn in it of the elements asked for. */
    private final class Sums {
        private final double[] sum = new double[DRAWS];
        private final double[] sd = new double[DRAWS];
        private final int[][] over = new int[DRAWS][];

        Sums(List<Element> elements, int[] which) {
            double least = Double.POSITIVE_INFINITY;
            double[] unordered = new double[DRAWS];
            for (Element element : elements) {
                least = Math.min(least, limits.get(element.name()));
                int at = index.get(element.name());
                for (int d = 0; d < DRAWS; d++) {
                    unordered[d] += leaks[d][at];
                }
            }
            long[] order = new long[DRAWS];
            for (int d = 0; d < DRAWS; d++) {
                order[d] = Double.doubleToLongBits(unordered[d]) / DRAWS * DRAWS + d; // no leak is negative
            }
            Arrays.sort(order);
            for (int i = 0; i < DRAWS; i++) {
                int d = (int) (order[i] % DRAWS);
                sum[i] = unordered[d];
                sd[i] = errorOf(sum[i], least);
                over[i] = IntStream.range(0, which.length)
                        .filter(k -> worn[d][which[k]])
                        .toArray();
            }
        }

        /** Adds to {@code of} how often each is worn in the draws that agree with a result like that of draw {@code middle}. */
        double seen(int middle, double result, double[] of) {
            int from = middle;
            while (from > 0 && result - sum[from - 1] < ROOM * sd[from - 1]) {
                from--;
            }
            double agree = 0;
            for (int at = from; at < DRAWS && sum[at] - result < ROOM * sd[at]; at++) {
                double z = (result - sum[at]) / sd[at];
                double likelihood = Math.exp(-0.5 * z * z) * sd[middle] / sd[at];
                agree += likelihood;
                for (int k : over[at]) {
                    of[k] += likelihood;
                }
            }
            return agree;
        }
    }
}
