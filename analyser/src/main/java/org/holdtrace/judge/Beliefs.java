package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * How probable it is that each element, and each combination of them, is over its limit: Bayes' rule over all
 * combinations, with priors, complaint, what was seen from outside, and what the hold tests measured.
 *
 * <p>The complaint ties the elements of its path together: with none of them over its limit it would be made only
 * {@value #COMPLAINT_WITHOUT_CAUSE} times as often. So two suspects and one cleared leaves the other.
 */
public final class Beliefs {
    /** How often the complaint is made with every element of its path in order, against one made with a cause. */
    static final double COMPLAINT_WITHOUT_CAUSE = 0.05;

    /** How often a leak to the outside that is over its limit leaves the part dry, or one within it leaves it wet. */
    private static final double SEEN_WRONGLY = 0.03;

    private final List<Component> components;
    private final Map<String, Double> priors;
    private final Set<String> path;
    private final double evidence;

    private Beliefs(List<Component> components, Map<String, Double> priors, Set<String> path) {
        this.components = components;
        this.priors = priors;
        this.path = path;
        this.evidence = weight(Map.of());
    }

    /**
     * @param elements the elements of the circuit
     * @param path those that can explain the complaint
     * @param observations what the tests measured
     * @param limitsM3PerS limit of each element, carried to where the tests are stated, by name
     */
    static Beliefs of(
            List<Element> elements,
            Collection<Element> path,
            List<Observation> observations,
            Map<String, Double> limitsM3PerS) {
        return of(elements, path, observations, limitsM3PerS, new HashMap<>());
    }

    /** The same; what is in {@code known} already is not reckoned again, and what is not is put there. */
    static Beliefs of(
            List<Element> elements,
            Collection<Element> path,
            List<Observation> observations,
            Map<String, Double> limitsM3PerS,
            Map<List<Observation>, Component> known) {
        Map<String, Double> priors = new HashMap<>();
        elements.forEach(element -> priors.put(element.name(), element.prior()));
        Set<String> names = new HashSet<>();
        path.forEach(element -> names.add(element.name()));
        return of(components(elements, observations, limitsM3PerS, known), priors, names);
    }

    /** From what tests say of groups of elements, their priors by name, and the names of those that explain the complaint. */
    static Beliefs of(List<Component> components, Map<String, Double> priors, Set<String> path) {
        return new Beliefs(List.copyOf(components), Map.copyOf(priors), Set.copyOf(path));
    }

    /** What the same tests say under other priors. */
    Beliefs withPriors(Map<String, Double> other) {
        return of(components, other, path);
    }

    private static List<Component> components(
            List<Element> elements,
            List<Observation> observations,
            Map<String, Double> limits,
            Map<List<Observation>, Component> known) {
        Map<String, Integer> root = new LinkedHashMap<>();
        elements.forEach(element -> root.put(element.name(), root.size()));
        for (Observation observation : observations) {
            int smallest = Integer.MAX_VALUE;
            Set<Integer> tied = new HashSet<>();
            for (Element element : observation.elements()) {
                tied.add(root.get(element.name()));
                smallest = Math.min(smallest, root.get(element.name()));
            }
            int to = smallest;
            root.replaceAll((name, from) -> tied.contains(from) ? to : from);
        }
        Map<Integer, List<Element>> byRoot = new LinkedHashMap<>();
        elements.forEach(element -> byRoot.computeIfAbsent(root.get(element.name()), key -> new ArrayList<>())
                .add(element));
        List<Component> components = new ArrayList<>();
        for (List<Element> tied : byRoot.values()) {
            List<Observation> own = observations.stream()
                    .filter(observation -> tied.containsAll(observation.elements())
                            && !observation.elements().isEmpty())
                    .toList();
            components.add(
                    own.isEmpty()
                            ? Component.untested(tied.get(0))
                            : known.computeIfAbsent(own, key -> Component.of(tied, key, limits)));
        }
        return components;
    }

    /** Probability that element {@code name} is over its limit. */
    public double probabilityOver(String name) {
        return weight(Map.of(name, true)) / evidence;
    }

    /** Probability that all of {@code names} are within their limits. */
    public double probabilityAllSound(Collection<String> names) {
        Map<String, Boolean> sound = new HashMap<>();
        names.forEach(name -> sound.put(name, false));
        return weight(sound) / evidence;
    }

    /** Probability that those told true are over their limits and those told false are not. */
    public double probability(Map<String, Boolean> states) {
        return weight(states) / evidence;
    }

    /** Leaks of all elements drawn as probable as they are. */
    LeakDraws draws(Map<String, Double> limitsM3PerS) {
        Map<String, double[]> weights = new HashMap<>();
        components.forEach(component -> component
                .elements()
                .forEach(element -> weights.put(element.name(), weights(element, Map.of(), false))));
        return new LeakDraws(components, weights, path, COMPLAINT_WITHOUT_CAUSE, limitsM3PerS);
    }

    /** Groups of elements whose tests could not all be right before their uncertainties were widened. */
    List<Component> strained() {
        return components.stream().filter(component -> component.widened() > 1).toList();
    }

    /** The most probable combinations of elements over their limits, most probable first; at most {@code most}. */
    public List<Combination> combinations(int most) {
        List<Combination> best = List.of(new Combination(List.of(), 1 / evidence));
        for (Component component : components) {
            List<Combination> longer = new ArrayList<>();
            for (int worn = 0; worn < component.likelihood().length; worn++) {
                double weight = component.likelihood()[worn];
                List<String> names = new ArrayList<>();
                for (int e = 0; e < component.elements().size(); e++) {
                    boolean over = (worn >> e & 1) == 1;
                    Element element = component.elements().get(e);
                    weight *= weights(element, Map.of(), false)[over ? 1 : 0];
                    if (over) {
                        names.add(element.name());
                    }
                }
                if (weight > 0) {
                    for (Combination shorter : best) {
                        List<String> all = new ArrayList<>(shorter.over());
                        all.addAll(names);
                        longer.add(new Combination(all, shorter.probability() * weight));
                    }
                }
            }
            longer.sort(Combination.MOST_PROBABLE_FIRST);
            best = List.copyOf(longer.subList(0, Math.min(longer.size(), KEPT)));
        }
        return best.stream()
                .map(combination -> explains(combination)
                        ? combination
                        : new Combination(combination.over(), combination.probability() * COMPLAINT_WITHOUT_CAUSE))
                .sorted(Combination.MOST_PROBABLE_FIRST)
                .limit(most)
                .toList();
    }

    /** Combinations carried on while they are put together; what falls off is far less probable than what is shown. */
    private static final int KEPT = 512;

    private boolean explains(Combination combination) {
        return path.isEmpty() || combination.over().stream().anyMatch(path::contains);
    }

    private double weight(Map<String, Boolean> states) {
        double any = product(states, false);
        boolean caused = path.isEmpty()
                || states.entrySet().stream().anyMatch(state -> state.getValue() && path.contains(state.getKey()));
        return caused ? any : any - (1 - COMPLAINT_WITHOUT_CAUSE) * product(states, true);
    }

    private double product(Map<String, Boolean> states, boolean pathSound) {
        double product = 1;
        for (Component component : components) {
            double[][] weights = new double[component.elements().size()][];
            for (int e = 0; e < weights.length; e++) {
                weights[e] = weights(component.elements().get(e), states, pathSound);
            }
            product *= component.sum(weights);
        }
        return product;
    }

    private double[] weights(Element element, Map<String, Boolean> states, boolean pathSound) {
        double prior = priors.get(element.name());
        double[] weights = {1 - prior, prior};
        if (element.seen().isPresent()) {
            boolean wet = element.seen().get() == Element.Seen.WET;
            weights[0] *= wet ? SEEN_WRONGLY : 1 - SEEN_WRONGLY;
            weights[1] *= wet ? 1 - SEEN_WRONGLY : SEEN_WRONGLY;
        }
        Boolean state = states.get(element.name());
        if (pathSound && path.contains(element.name())) {
            state = Boolean.FALSE;
        }
        if (state != null) {
            weights[state ? 0 : 1] = 0;
        }
        return weights;
    }

    /**
     * A set of elements over their limits, all others within.
     *
     * @param over their names
     * @param probability of this very set
     */
    public record Combination(List<String> over, double probability) {
        static final Comparator<Combination> MOST_PROBABLE_FIRST =
                Comparator.comparingDouble(Combination::probability).reversed();

        public Combination {
            over = List.copyOf(over);
        }
    }
}
