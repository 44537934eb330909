package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.holdtrace.leak.Law;

/**
 * The probabilities of a case by going through every combination of worn elements. For each the leaks of the elements are
 * drawn one after the other, spread evenly over what {@code docs/case.md} says of them; an element that is the last of a
 * test is not drawn blindly (hardly a draw in a hundred would fit the result) but integrated over by quadrature, and drawn
 * from what the result leaves of it; one that is not is drawn from what the results leave room for. Shares nothing with the code it is held against but the table of kinds: no grid, no
 * convolution, no grouping of tests.
 */
final class Enumerated {
    private static final int[] BASES = {2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37};
    private static final double WITHOUT_CAUSE = 0.05;
    private static final double SEEN_WRONGLY = 0.03;
    private static final List<Law> LAWS = List.of(Law.LAMINAR, Law.ORIFICE, Law.MIXED, Law.THRESHOLD);
    private static final int NODES = 40;
    private static final double WINDOW = 7;

    /** Draws that tell whether a combination matters, and those for one that does. */
    private static final int ROUGHLY = 100;

    private static final double MATTERS = 1e-4;

    private final Map<String, Double> over = new HashMap<>();
    private final Map<Integer, Double> bySet = new HashMap<>();

    private Enumerated() {}

    /** A part of the distribution of a leak, in limits: log-uniform, or even where it begins at nothing. */
    private record Span(double from, double to, double share) {}

    private static final List<Span> WORN = List.of(new Span(1, 100, 0.98), new Span(100, 1e5, 0.02));
    private static final List<Span> BY_DESIGN = List.of(new Span(0, 0.05, 0.02), new Span(0.05, 1, 0.98));
    private static final List<Span> TIGHT = List.of(new Span(0, 0, 0.6), new Span(0.01, 1, 0.4));

    static Enumerated of(
            List<Element> elements,
            Set<String> path,
            List<Observation> observations,
            Map<String, Double> limits,
            int draws) {
        double[] weights = new double[1 << elements.size()];
        double whole = 0;
        for (int worn = 0; worn < weights.length; worn++) {
            weights[worn] = weight(elements, path, observations, limits, worn, ROUGHLY);
            whole += weights[worn];
        }
        double roughly = whole;
        whole = 0;
        for (int worn = 0; worn < weights.length; worn++) {
            if (weights[worn] > MATTERS * roughly) {
                weights[worn] = weight(elements, path, observations, limits, worn, draws);
            }
            whole += weights[worn];
        }
        Enumerated all = new Enumerated();
        for (int worn = 0; worn < weights.length; worn++) {
            all.bySet.put(worn, weights[worn] / whole);
            for (int e = 0; e < elements.size(); e++) {
                if ((worn >> e & 1) == 1) {
                    all.over.merge(elements.get(e).name(), weights[worn] / whole, Double::sum);
                }
            }
        }
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

    private static int smallestTest(Element element, List<Observation> observations) {
        return observations.stream()
                .filter(test -> test.elements().contains(element))
                .mapToInt(test -> test.elements().size())
                .min()
                .orElse(Integer.MAX_VALUE);
    }

    private static double weight(
            List<Element> elements,
            Set<String> path,
            List<Observation> observations,
            Map<String, Double> limits,
            int worn,
            int draws) {
        Set<Element> over = new HashSet<>();
        for (int e = 0; e < elements.size(); e++) {
            if ((worn >> e & 1) == 1) {
                over.add(elements.get(e));
            }
        }
        List<Element> order = new ArrayList<>(elements);
        order.sort(Comparator.<Element>comparingInt(element -> smallestTest(element, observations))
                .thenComparingLong(element -> -observations.stream()
                        .filter(test -> test.elements().contains(element))
                        .count())
                .thenComparingDouble(element -> limits.get(element.name()) * (over.contains(element) ? 100 : 1)));
        double sum = 0;
        for (int k = 1; k <= draws; k++) {
            sum += draw(order, over, observations, limits, k);
        }
        return prior(elements, over, path) * sum / draws;
    }

    private static double prior(List<Element> elements, Set<Element> over, Set<String> path) {
        double product = 1;
        boolean caused = path.isEmpty();
        for (Element element : elements) {
            boolean isWorn = over.contains(element);
            product *= isWorn ? element.prior() : 1 - element.prior();
            caused |= isWorn && path.contains(element.name());
            if (element.seen().isPresent()) {
                boolean fits = isWorn == (element.seen().get() == Element.Seen.WET);
                product *= fits ? 1 - SEEN_WRONGLY : SEEN_WRONGLY;
            }
        }
        return caused ? product : product * WITHOUT_CAUSE;
    }

    /** How probable the results are, by one draw of the leaks. */
    private static double draw(
            List<Element> order, Set<Element> over, List<Observation> tests, Map<String, Double> limits, int k) {
        double weight = 1;
        double[] total = new double[tests.size()];
        double[] told = new double[tests.size()];
        Law[] laws = laws(order, k);
        int[] left = tests.stream().mapToInt(test -> test.elements().size()).toArray();
        for (int e = 0; e < order.size() && weight > 0; e++) {
            Element element = order.get(e);
            List<Integer> own = new ArrayList<>();
            List<Integer> last = new ArrayList<>();
            for (int t = 0; t < left.length; t++) {
                if (tests.get(t).elements().contains(element)) {
                    own.add(t);
                    left[t]--;
                    if (left[t] == 0) {
                        last.add(t);
                    }
                }
            }
            double low = 0;
            double high = Double.POSITIVE_INFINITY;
            for (int t : own) {
                Observation test = tests.get(t);
                high = Math.min(high, test.m3PerS() - total[t] + WINDOW * test.aboveM3PerS());
                if (last.contains(t)) {
                    low = Math.max(low, test.m3PerS() - total[t] - WINDOW * test.belowM3PerS());
                }
            }
            double limit = limits.get(element.name());
            double share = radicalInverse(BASES[e], k);
            double leak;
            if (last.isEmpty()) {
                double room = cumulative(spans(element, over), high / limit);
                weight *= room;
                leak = limit * quantile(spans(element, over), share * room);
            } else {
                double[] leaks = new double[3 * NODES];
                double[] weights = new double[3 * NODES];
                int count = nodes(spans(element, over), low / limit, high / limit, leaks, weights);
                double sum = 0;
                for (int j = 0; j < count; j++) {
                    leaks[j] *= limit;
                    for (int t : last) {
                        weights[j] *= measured(tests.get(t), total[t], told[t], leaks[j], laws[e]);
                    }
                    sum += weights[j];
                }
                weight *= sum;
                leak = picked(leaks, weights, count, share * sum);
            }
            for (int t : own) {
                total[t] += leak;
                told[t] += leak * seen(tests.get(t), laws[e]);
            }
        }
        return weight;
    }

    private static List<Span> spans(Element element, Set<Element> over) {
        return over.contains(element) ? WORN : element.kind().leaksByDesign() ? BY_DESIGN : TIGHT;
    }

    /** The leak, in limits, that this share of such elements does not exceed. */
    private static double quantile(List<Span> spans, double share) {
        double left = share;
        for (Span span : spans) {
            if (left < span.share()) {
                double part = left / span.share();
                return span.from() == 0 ? part * span.to() : span.from() * Math.pow(span.to() / span.from(), part);
            }
            left -= span.share();
        }
        return spans.get(spans.size() - 1).to();
    }

    private static double cumulative(List<Span> spans, double leak) {
        double sum = 0;
        for (Span span : spans) {
            if (leak >= span.to()) {
                sum += span.share();
            } else if (leak > span.from()) {
                double part = span.from() == 0
                        ? leak / span.to()
                        : Math.log(leak / span.from()) / Math.log(span.to() / span.from());
                sum += span.share() * part;
            }
        }
        return sum;
    }

    /** Midpoints of even parts of the spans between two leaks, with the share of the distribution of each. */
    private static int nodes(List<Span> spans, double low, double high, double[] leaks, double[] weights) {
        int count = 0;
        for (Span span : spans) {
            double from = Math.max(low, span.from());
            double to = Math.min(high, span.to());
            if (span.to() == 0 && low <= 0 && high >= 0) {
                leaks[count] = 0;
                weights[count++] = span.share();
            } else if (from < to && span.from() == 0) {
                for (int j = 0; j < NODES; j++) {
                    leaks[count] = from + (j + 0.5) * (to - from) / NODES;
                    weights[count++] = span.share() * (to - from) / span.to() / NODES;
                }
            } else if (from < to) {
                double step = Math.log(to / from) / NODES;
                for (int j = 0; j < NODES; j++) {
                    leaks[count] = from * Math.exp((j + 0.5) * step);
                    weights[count++] = span.share() * step / Math.log(span.to() / span.from());
                }
            }
        }
        return count;
    }

    private static double picked(double[] leaks, double[] weights, int count, double share) {
        double left = share;
        for (int j = 0; j < count; j++) {
            left -= weights[j];
            if (left < 0) {
                return leaks[j];
            }
        }
        return count == 0 ? 0 : leaks[count - 1];
    }

    private static double measured(Observation test, double total, double told, double leak, Law law) {
        double whole = total + leak;
        double off = whole - test.m3PerS();
        double z = off / (off > 0 ? test.aboveM3PerS() : test.belowM3PerS());
        double density = Math.exp(-0.5 * z * z) / (test.aboveM3PerS() + test.belowM3PerS());
        if (test.laws().isEmpty()) {
            return density;
        }
        return density * (whole > 0 ? (told + leak * seen(test, law)) / whole : 0.25);
    }

    /** The law of each element in draw {@code k}: one and the same in every test. */
    private static Law[] laws(List<Element> elements, int k) {
        SplittableRandom random = new SplittableRandom(k);
        Law[] laws = new Law[elements.size()];
        for (int e = 0; e < laws.length; e++) {
            double left = random.nextDouble();
            for (Law law : LAWS) {
                left -= elements.get(e).kind().probabilityOf(law);
                laws[e] = laws[e] == null && left < 0 ? law : laws[e];
            }
            laws[e] = laws[e] == null ? Law.THRESHOLD : laws[e];
        }
        return laws;
    }

    /** How probable what the test saw is where {@code law} is told; 15 % of the belief is spread evenly over the four. */
    private static double seen(Observation test, Law law) {
        return 0.85 * test.laws().getOrDefault(law, 0.0) + 0.15 / LAWS.size();
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
