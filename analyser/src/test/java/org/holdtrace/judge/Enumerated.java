package org.holdtrace.judge;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.holdtrace.leak.Law;

/**
 * The probabilities of a case by going through every combination of worn elements, and for each through many leaks of every
 * element, spread evenly over what {@code docs/case.md} says of them. Shares nothing with the code it is held against but
 * the table of kinds: no grid, no convolution, no grouping of tests.
 */
final class Enumerated {
    private static final int[] BASES = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31};
    private static final double WITHOUT_CAUSE = 0.05;
    private static final double SEEN_WRONGLY = 0.03;

    private final Map<String, Double> over = new HashMap<>();
    private final Map<Integer, Double> bySet = new HashMap<>();

    private Enumerated() {}

    static Enumerated of(
            List<Element> elements,
            Set<String> path,
            List<Observation> observations,
            Map<String, Double> limits,
            int draws) {
        Enumerated all = new Enumerated();
        double whole = 0;
        for (int worn = 0; worn < 1 << elements.size(); worn++) {
            double weight = prior(elements, path, worn) * likelihood(elements, observations, limits, worn, draws);
            all.bySet.put(worn, weight);
            whole += weight;
            for (int e = 0; e < elements.size(); e++) {
                if ((worn >> e & 1) == 1) {
                    all.over.merge(elements.get(e).name(), weight, Double::sum);
                }
            }
        }
        double evidence = whole;
        all.over.replaceAll((name, weight) -> weight / evidence);
        all.bySet.replaceAll((set, weight) -> weight / evidence);
        return all;
    }

    /** Probability that the element is over its limit. */
    double over(String name) {
        return over.get(name);
    }

    /** Probability of this very set of worn elements, bit by bit. */
    double set(int worn) {
        return bySet.get(worn);
    }

    private static double prior(List<Element> elements, Set<String> path, int worn) {
        double product = 1;
        boolean caused = path.isEmpty();
        for (int e = 0; e < elements.size(); e++) {
            Element element = elements.get(e);
            boolean isWorn = (worn >> e & 1) == 1;
            product *= isWorn ? element.prior() : 1 - element.prior();
            caused |= isWorn && path.contains(element.name());
            if (element.seen().isPresent()) {
                boolean fits = isWorn == (element.seen().get() == Element.Seen.WET);
                product *= fits ? 1 - SEEN_WRONGLY : SEEN_WRONGLY;
            }
        }
        return caused ? product : product * WITHOUT_CAUSE;
    }

    private static double likelihood(
            List<Element> elements, List<Observation> observations, Map<String, Double> limits, int worn, int draws) {
        double sum = 0;
        double[] leak = new double[elements.size()];
        double[][] law =
                new double[observations.size()][elements.size()]; // 0 where the test does not press the element
        for (int t = 0; t < law.length; t++) {
            for (int e = 0; e < leak.length; e++) {
                Element element = elements.get(e);
                boolean in = observations.get(t).elements().contains(element);
                law[t][e] = in ? law(observations.get(t), element.kind()) : 0;
            }
        }
        double[] limit = new double[leak.length];
        boolean[] byDesign = new boolean[leak.length];
        for (int e = 0; e < leak.length; e++) {
            limit[e] = limits.get(elements.get(e).name());
            byDesign[e] = elements.get(e).kind().leaksByDesign();
        }
        for (int k = 1; k <= draws; k++) {
            for (int e = 0; e < leak.length; e++) {
                double share = radicalInverse(BASES[e], k);
                Element element = elements.get(e);
                leak[e] =
                        limits.get(element.name()) * size(element.kind().leaksByDesign(), (worn >> e & 1) == 1, share);
            }
            double product = 1;
            for (int t = 0; t < law.length; t++) {
                product *= measured(observations.get(t), law[t], leak);
            }
            sum += product;
        }
        return sum / draws;
    }

    /** The leak, in limits, that this share of such elements does not exceed. */
    private static double size(boolean byDesign, boolean worn, double share) {
        if (worn) {
            return share < 0.98 ? Math.pow(100, share / 0.98) : 100 * Math.pow(1000, (share - 0.98) / 0.02);
        }
        if (byDesign) {
            return 0.05 * Math.pow(20, share);
        }
        return share < 0.6 ? 0 : 0.01 * Math.pow(100, (share - 0.6) / 0.4);
    }

    private static double measured(Observation test, double[] law, double[] leak) {
        double total = 0;
        double told = 0;
        for (int e = 0; e < leak.length; e++) {
            if (law[e] > 0) {
                total += leak[e];
                told += leak[e] * law[e];
            }
        }
        double off = total - test.m3PerS();
        double sd = off > 0 ? test.aboveM3PerS() : test.belowM3PerS();
        double z = off / sd;
        double density = Math.exp(-0.5 * z * z) / (test.aboveM3PerS() + test.belowM3PerS());
        if (test.laws().isEmpty()) {
            return density;
        }
        return density * (total > 0 ? told / total : 0.25);
    }

    /** Probability of the law seen where this kind leaks; 15 % of the belief in laws is spread evenly over the four. */
    private static double law(Observation test, ElementKind kind) {
        double sum = 0;
        for (Law law : List.of(Law.LAMINAR, Law.ORIFICE, Law.MIXED, Law.THRESHOLD)) {
            sum += (0.85 * test.laws().getOrDefault(law, 0.0) + 0.15 / 4) * kind.probabilityOf(law);
        }
        return sum;
    }

    private static double radicalInverse(int base, int index) {
        double value = 0;
        double digit = 1.0 / base;
        for (int rest = index; rest > 0; rest /= base) {
            value += rest % base * digit;
            digit /= base;
        }
        return value;
    }
}
