package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Which elements a test can judge. A test measures a sum: an element whose limit is smaller than what the others usually
 * leak and yet are sound is hidden behind them, unless the difference from an earlier test takes the others off.
 *
 * @param seen elements whose limit stands out of what the others in the test may leak
 * @param byDifference elements of the one test that an earlier one has not, or the other way round, as far as the difference judges them
 */
record Sight(List<Element> seen, List<Element> byDifference) {
    Sight {
        seen = List.copyOf(seen);
        byDifference = List.copyOf(byDifference);
    }

    /**
     * @param direct what the test implicates
     * @param done what earlier tests that gave a leak rate implicate
     * @param limits limit of each element where the case states its leaks, m³/s
     */
    static Sight of(List<Element> direct, Collection<List<Element>> done, Map<String, Double> limits) {
        Set<Element> apart = new LinkedHashSet<>();
        for (List<Element> earlier : done) {
            apart.addAll(beyond(direct, earlier, limits));
            apart.addAll(beyond(earlier, direct, limits));
        }
        return new Sight(standingOut(direct, limits), List.copyOf(apart));
    }

    /** Those whose limit is not smaller than what the others usually leak. */
    private static List<Element> standingOut(Collection<Element> elements, Map<String, Double> limits) {
        double sound = elements.stream()
                .mapToDouble(element -> soundLeak(element, limits))
                .sum();
        return elements.stream()
                .filter(element -> limits.get(element.name()) >= sound - soundLeak(element, limits))
                .toList();
    }

    private static double soundLeak(Element element, Map<String, Double> limits) {
        return LeakSize.usualOfSound(element.kind()) * limits.get(element.name());
    }

    /** What {@code more} has beyond {@code fewer}, which it has all of, as far as their difference can judge it. */
    private static List<Element> beyond(List<Element> more, List<Element> fewer, Map<String, Double> limits) {
        if (fewer.isEmpty() || fewer.size() >= more.size() || !more.containsAll(fewer)) {
            return List.of();
        }
        List<Element> beyond = new ArrayList<>(more);
        beyond.removeAll(fewer);
        return standingOut(beyond, limits);
    }

    /** All elements it can judge. */
    Set<Element> judged() {
        Set<Element> all = new LinkedHashSet<>(seen);
        all.addAll(byDifference);
        return all;
    }
}
