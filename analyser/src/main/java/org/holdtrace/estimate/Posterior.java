package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.CancellationException;
import org.holdtrace.fit.InformationCriteria;
import org.holdtrace.leak.Law;

/**
 * Every law with every pair of thermal time constants that the data leave possible, each with its weight: between laws
 * by AICc, within a law by the evidence of the node. Quantities of interest are drawn from the mixture (GUM Supplement
 * 1), because a rate that is a product of uncertain factors is not normal.
 */
final class Posterior {
    /** Nodes this far (in log evidence) below the best of their law are dropped: a weight below 1/1000. */
    private static final double NEGLIGIBLE = 7;

    private static final int DRAWS = 4000;

    /** No valve opens at once: over up to this share of its opening pressure it only begins to (common practice, no source). */
    private static final double WIDEST_FOOT = 0.02;

    /** Pairs of time constants that laws after the first are tried with at the most. */
    private static final int MOST_PAIRS = 8;

    /** Corrected K of AICc counts these besides the leak's own: compliance, air, heat, its time, and the variance. */
    private static final int COMMON_PARAMETERS = 5;

    /** A law with a pair of time constants, fitted, and the logarithm of its evidence. */
    record Node(NodeFit fit, double logWeight) {
        int[] pair() {
            return new int[] {fit.fast, fit.slow};
        }
    }

    private static final Comparator<Node> MOST_PROBABLE_FIRST = new MostProbableFirst();

    private static final class MostProbableFirst implements Comparator<Node> {
        @Override
        public int compare(Node a, Node b) {
            return Double.compare(b.logWeight, a.logWeight);
        }
    }

    final List<Node> nodes;
    final Map<Law, Double> lawWeight;
    final Evidence evidence;
    final Knowledge knowledge;

    private Posterior(List<Node> nodes, Map<Law, Double> lawWeight, Evidence evidence, Knowledge knowledge) {
        this.nodes = nodes;
        this.lawWeight = lawWeight;
        this.evidence = evidence;
        this.knowledge = knowledge;
    }

    /** The pairs (faster, slower) of thermal time constants that are tried in the end. */
    static List<int[]> pairs() {
        List<int[]> out = new ArrayList<>();
        for (int slow = 1; slow < Columns.RELAXATION_S.length; slow++) {
            for (int fast = Math.max(0, slow - 2); fast >= 0; fast -= 2) {
                out.add(new int[] {fast, slow});
            }
        }
        return out;
    }

    /** A handful of pairs for a first look. */
    static List<int[]> coarsePairs() {
        List<int[]> out = new ArrayList<>();
        for (int slow = 2; slow < Columns.RELAXATION_S.length; slow += 2) {
            out.add(new int[] {Math.max(0, slow - 3), slow});
        }
        return out;
    }

    /** The pairs that still carry weight in {@code this}, most probable first, {@code most} at the most. */
    List<int[]> likelyPairs(int most) {
        List<Node> sorted = new ArrayList<>(nodes);
        sorted.sort(MOST_PROBABLE_FIRST);
        List<int[]> out = new ArrayList<>();
        Set<Integer> seen = new HashSet<>();
        for (Node node : sorted) {
            if (out.size() < most && seen.add(node.fit.fast * Columns.RELAXATION_S.length + node.fit.slow)) {
                out.add(node.pair());
            }
        }
        return out;
    }

    /** Log prior of a pair: the time grows with the section of the trapped oil (TH-09), widely spread. */
    static double logPrior(int[] pair, double volumeCm3) {
        double expected = 60 * Math.sqrt(Math.max(volumeCm3, 1) / 50);
        double slow = Math.log(Columns.RELAXATION_S[pair[1]] / expected) / 1.3;
        double ratio = Math.log(Columns.RELAXATION_S[pair[1]] / Columns.RELAXATION_S[pair[0]] / 8) / 1.2;
        return -0.5 * (slow * slow + ratio * ratio);
    }

    static Posterior explore(Evidence evidence, Knowledge knowledge, List<LeakShape> shapes, List<int[]> pairs) {
        double volume = knowledge.prior(Knowledge.VOLUME).centre();
        List<Node> all = new ArrayList<>();
        List<int[]> kept = pairs;
        for (LeakShape shape : shapes) {
            List<Node> of = new ArrayList<>();
            double best = Double.NEGATIVE_INFINITY;
            double[] start = null;
            for (int[] pair : kept) {
                if (Thread.currentThread().isInterrupted()) {
                    throw new CancellationException("the estimate was stopped");
                }
                NodeFit fit = NodeFit.fit(evidence, knowledge, shape, pair[0], pair[1], start);
                double w = -fit.cost - 0.5 * fit.logDeterminant + logPrior(pair, volume);
                of.add(new Node(fit, w));
                if (w > best) {
                    best = w;
                    start = fit.x;
                }
            }
            if (kept == pairs) {
                // The first law tells which pairs are worth trying with the others, with some margin.
                List<Node> sorted = new ArrayList<>(of);
                sorted.sort(MOST_PROBABLE_FIRST);
                kept = new ArrayList<>();
                for (Node node : sorted) {
                    if (node.logWeight > best - NEGLIGIBLE - 3 && kept.size() < MOST_PAIRS) {
                        kept.add(node.pair());
                    }
                }
            }
            for (Node node : of) {
                if (node.logWeight >= best - NEGLIGIBLE) {
                    all.add(node);
                }
            }
        }
        return weigh(all, evidence, knowledge);
    }

    private static Posterior weigh(List<Node> all, Evidence evidence, Knowledge knowledge) {
        int n = evidence.row.length;
        double least = Double.POSITIVE_INFINITY;
        for (Node node : all) {
            least = collapsed(node.fit) ? least : Math.min(least, 2 * node.fit.cost);
        }
        // Where even the best law leaves more than the noise explains, differences count for less (QAICc).
        double dispersion = Math.max(1, least / Math.max(1, n - COMMON_PARAMETERS - 2));
        Map<Law, Double> criterion = new EnumMap<>(Law.class);
        for (Node node : all) {
            if (!collapsed(node.fit)) {
                double aicc = InformationCriteria.aiccOf(
                        2 * node.fit.cost / dispersion,
                        // No law is ruled out by there being few rows.
                        Math.max(n, COMMON_PARAMETERS + LeakShape.MOST_PARAMETERS + 2),
                        COMMON_PARAMETERS + node.fit.shape.parameters());
                criterion.merge(node.fit.shape.law(), aicc, Math::min);
            }
        }
        List<Law> laws = List.copyOf(criterion.keySet());
        double[] criteria = new double[laws.size()];
        for (int i = 0; i < criteria.length; i++) {
            criteria[i] = criterion.get(laws.get(i));
        }
        // Where every law tried came out with a leak of the wrong sign there is nothing to weigh.
        double[] share = laws.isEmpty() ? new double[0] : InformationCriteria.weights(criteria);
        Map<Law, Double> weight = new EnumMap<>(Law.class);
        for (int i = 0; i < share.length; i++) {
            weight.put(laws.get(i), share[i]);
        }
        List<Node> usable = new ArrayList<>();
        for (Node node : all) {
            if (weight.containsKey(node.fit.shape.law()) && !collapsed(node.fit)) {
                usable.add(node);
            }
        }
        return new Posterior(usable, weight, evidence, knowledge);
    }

    /** A law of two terms one of which came out negative is the law of the other: it is counted there. */
    private static boolean collapsed(NodeFit fit) {
        if (fit.shape.law() == Law.MIXED) {
            return fit.x[Knowledge.COUNT] <= 0 || fit.x[Knowledge.COUNT + 1] <= 0;
        }
        return fit.shape.law() == Law.THRESHOLD && fit.x[Knowledge.COUNT] <= 0;
    }

    /**
     * Law weights as they enter an interval: the square roots of the AICc weights, scaled to sum 1. AICc believes the
     * noise; an interval had better not believe it as much where laws part outside the pressures that were seen.
     */
    static Map<Law, Double> tempered(Map<Law, Double> weights) {
        Map<Law, Double> out = new EnumMap<>(weights);
        for (Map.Entry<Law, Double> each : out.entrySet()) {
            each.setValue(Math.sqrt(each.getValue()));
        }
        normalise(out);
        return out;
    }

    /** Scales weights to sum 1; false, and nothing done, where their sum is not above zero. */
    static boolean normalise(Map<Law, Double> weights) {
        double sum = 0;
        for (double w : weights.values()) {
            sum += w;
        }
        if (!(sum > 0)) {
            return false;
        }
        for (Map.Entry<Law, Double> each : weights.entrySet()) {
            each.setValue(each.getValue() / sum);
        }
        return true;
    }

    /** The most probable node of {@code law}, or null. */
    NodeFit best(Law law) {
        Node best = null;
        for (Node node : nodes) {
            if (node.fit.shape.law() == law && (best == null || node.logWeight > best.logWeight)) {
                best = node;
            }
        }
        return best == null ? null : best.fit;
    }

    /** The node of {@code law} that fits best, however narrow the place where it does, or null. */
    NodeFit leastCost(Law law) {
        NodeFit best = null;
        for (Node node : nodes) {
            if (node.fit.shape.law() == law && (best == null || node.fit.cost < best.cost)) {
                best = node.fit;
            }
        }
        return best;
    }

    /** The node that fits best, whatever it spends on that, or null. */
    NodeFit leastCost() {
        NodeFit best = null;
        for (Node node : nodes) {
            if (best == null || node.fit.cost < best.cost) {
                best = node.fit;
            }
        }
        return best;
    }

    /** The most probable node of all, or null. */
    NodeFit best() {
        Node best = null;
        for (Node node : nodes) {
            if (best == null || node.logWeight > best.logWeight) {
                best = node;
            }
        }
        return best == null ? null : best.fit;
    }

    /** Share of each node, the law weights as given (those of laws without a node fall to the others). */
    double[] shares(Map<Law, Double> weightOfLaw) {
        Map<Law, Double> top = new EnumMap<>(Law.class);
        for (Node node : nodes) {
            Law law = node.fit.shape.law();
            top.put(law, Math.max(node.logWeight, top.getOrDefault(law, Double.NEGATIVE_INFINITY)));
        }
        Map<Law, Double> total = new EnumMap<>(Law.class);
        double[] share = new double[nodes.size()];
        for (int i = 0; i < share.length; i++) {
            Law law = nodes.get(i).fit.shape.law();
            share[i] = Math.exp(nodes.get(i).logWeight - top.get(law));
            total.put(law, total.getOrDefault(law, 0.0) + share[i]);
        }
        double sum = 0;
        for (int i = 0; i < share.length; i++) {
            Law law = nodes.get(i).fit.shape.law();
            share[i] *= weightOfLaw.getOrDefault(law, 0.0) / total.get(law);
            sum += share[i];
        }
        if (sum > 0) {
            for (int i = 0; i < share.length; i++) {
                share[i] /= sum;
            }
        }
        return share;
    }

    /**
     * Draws of the leak and of the compliance.
     *
     * @param weightOfLaw weights of the laws
     * @param bar pressures of the leak; the compliance is for the first
     * @param draws how many
     * @param carry to another temperature
     * @return a row of leaks (cm³/s) for each of {@code bar}, and last a row of isothermal compliances (cm³/bar)
     */
    double[][] draw(Map<Law, Double> weightOfLaw, double[] bar, int draws, Carry carry) {
        double[] share = shares(weightOfLaw);
        double lowest = evidence.lowestHeldBar();
        SplittableRandom random = new SplittableRandom(20_260_101L);
        double[][] out = new double[bar.length + 1][draws];
        int at = 0;
        double owed = 0;
        for (int i = 0; i < share.length && at < draws; i++) {
            owed += share[i] * draws;
            int count = Math.min(draws - at, (int) Math.round(owed));
            owed -= count;
            NodeFit fit = nodes.get(i).fit;
            double[] z = new double[fit.variables()];
            double[] normal = new double[fit.variables()];
            double[] x = new double[fit.variables()];
            DrawnCompliance drawn = new DrawnCompliance(fit, bar[0]);
            for (int k = 0; k < count; k++) {
                for (int v = 0; v < z.length; v++) {
                    // Antithetic: the mean of a pair is free of the odd part of the sampling error.
                    z[v] = (k & 1) == 0 ? random.nextGaussian() : -z[v];
                    normal[v] = z[v];
                }
                fit.draw(normal, x);
                double unsure =
                        1 + carry.relativeUncertainty() * (carry.relativeUncertainty() > 0 ? random.nextGaussian() : 0);
                double unseen = fit.shape.law() == Law.THRESHOLD ? Math.max(0, 2 * random.nextDouble() - 1) : 0;
                double foot = fit.shape.law() == Law.THRESHOLD ? WIDEST_FOOT * random.nextDouble() : 0;
                fit.quantities(x, drawn, bar, carry.laminar() * unsure, carry.orifice(), lowest, foot, unseen, out, at);
                at++;
            }
        }
        for (double[] row : out) {
            if (at < draws) {
                Arrays.fill(row, at, draws, at == 0 ? 0 : row[at - 1]);
            }
        }
        return out;
    }

    /** {@link #draw(Map, double[], int, Carry)} for one pressure. */
    double[][] draw(Map<Law, Double> weightOfLaw, double leakBar, Carry carry) {
        return draw(weightOfLaw, new double[] {leakBar}, DRAWS, carry);
    }
}
