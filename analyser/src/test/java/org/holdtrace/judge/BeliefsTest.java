package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.holdtrace.leak.Law;
import org.junit.jupiter.api.Test;

/** Beliefs held against an enumeration of all combinations ({@link Enumerated}). Leaks here are in limits. */
class BeliefsTest {
    private static final int DRAWS = 2000;
    private static final Map<Law, Double> NO_LAW = Map.of();
    private static final Map<Law, Double> SEAT =
            Map.of(Law.LAMINAR, 0.05, Law.ORIFICE, 0.9, Law.MIXED, 0.04, Law.THRESHOLD, 0.01);
    private static final Map<Law, Double> CLEARANCE =
            Map.of(Law.LAMINAR, 0.93, Law.ORIFICE, 0.01, Law.MIXED, 0.05, Law.THRESHOLD, 0.01);

    private final Element spool = element("spool", ElementKind.SPOOL_CLEARANCE);
    private final Element relief = element("relief", ElementKind.PORT_RELIEF);
    private final Element check = element("check", ElementKind.ANTI_CAVITATION);
    private final Element seal = element("seal", ElementKind.PISTON_SEAL);

    @Test
    void oneTestOfOneElementNearItsLimit() {
        compare(List.of(seal), Set.of("seal"), List.of(observed(1.05, 0.05, NO_LAW, seal)));
    }

    @Test
    void oneTestOfAPortWithThreeElements() {
        compare(
                List.of(spool, relief, check),
                Set.of("spool", "relief", "check"),
                List.of(observed(4.0, 0.2, SEAT, spool, relief, check)));
    }

    @Test
    void theLawOfAClearancePointsToTheSpool() {
        List<Element> port = List.of(spool, relief, check);
        double ofClearance = beliefs(port, Set.of(), List.of(observed(4.0, 0.2, CLEARANCE, spool, relief, check)))
                .probabilityOver("spool");
        double ofSeat = beliefs(port, Set.of(), List.of(observed(4.0, 0.2, SEAT, spool, relief, check)))
                .probabilityOver("spool");
        assertTrue(ofClearance > 5 * ofSeat, ofClearance + " against " + ofSeat);
    }

    @Test
    void aSecondTestWithOneElementOutTellsThemApart() {
        compare(
                List.of(spool, relief, check, seal),
                Set.of("spool", "relief", "check"),
                List.of(
                        observed(4.0, 0.2, SEAT, spool, relief, check),
                        observed(0.6, 0.1, NO_LAW, spool, check),
                        observed(0.0, 0.05, NO_LAW, seal)));
    }

    @Test
    void aSmallLeakBesideALargeOneIsNotBlurredByIt() {
        compare(
                List.of(spool, relief, seal),
                Set.of("spool", "relief"),
                List.of(observed(60, 2.0, SEAT, spool, relief), observed(0.8, 0.06, CLEARANCE, spool, seal)));
    }

    @Test
    void threeTestsThatOverlap() {
        compare(
                List.of(spool, relief, seal),
                Set.of("relief"),
                List.of(
                        observed(3.0, 0.3, SEAT, spool, relief),
                        observed(1.4, 0.15, NO_LAW, spool, seal),
                        observed(3.6, 0.4, SEAT, relief, seal)));
    }

    @Test
    void combinationsAddUpToTheProbabilitiesOfTheirElements() {
        List<Element> port = List.of(spool, relief, check);
        Beliefs beliefs = beliefs(port, Set.of("relief"), List.of(observed(4.0, 0.2, SEAT, spool, relief, check)));
        double sum = 0;
        double relieved = 0;
        for (Beliefs.Combination combination : beliefs.combinations(8)) {
            sum += combination.probability();
            relieved += combination.over().contains("relief") ? combination.probability() : 0;
        }
        assertEquals(1, sum, 1e-9);
        assertEquals(beliefs.probabilityOver("relief"), relieved, 1e-9);
    }

    /** Eleven elements, each in a test with the next: every one is in tests of its own. */
    @Test
    void ofTestsThatOverlapInTooManyWaysThoseOfTheMostElementsAreLeftOut() {
        List<Element> many = new ArrayList<>();
        List<Observation> tests = new ArrayList<>();
        for (int e = 0; e < 11; e++) {
            many.add(element("seal " + e, ElementKind.PISTON_SEAL));
        }
        for (int e = 0; e < 10; e++) {
            tests.add(observed(1, 0.1, NO_LAW, many.get(e), many.get(e + 1)));
        }
        Observation whole = observed(9, 0.3, NO_LAW, many.toArray(Element[]::new));
        tests.add(whole);
        List<Observation> kept = Observation.weighable(tests);
        assertTrue(kept.size() >= 8, kept.size() + " kept");
        assertFalse(kept.contains(whole));
    }

    /**
     * By hand: a seat seen three times is right each time with 0.85 + 0.15 / 4 = 0.8875, wrong with 0.0375. A relief valve
     * leaks so with 0.35: 0.35 * 0.8875^3 + 0.65 * 0.0375^3 = 0.24470; a spool with 0.04: 0.02801. So 8.7 times as
     * often the valve, as near as readings of 0.0375 wrong allow to 0.35 / 0.04, and not that to the power of three.
     */
    @Test
    void aLawSeenThriceOfOnePartIsNotThreeSignsOfItsKind() {
        Element valve = element("valve", ElementKind.PORT_RELIEF);
        Observation seat =
                observed(5, 0.1, Map.of(Law.ORIFICE, 1.0, Law.LAMINAR, 0.0, Law.MIXED, 0.0, Law.THRESHOLD, 0.0), valve);
        List<Observation> thrice = List.of(seat, seat, seat);
        assertEquals(0.24470, Observation.lawLikelihood(ElementKind.PORT_RELIEF, thrice), 1e-5);
        assertEquals(0.02801, Observation.lawLikelihood(ElementKind.SPOOL_CLEARANCE, thrice), 1e-5);
    }

    private static void compare(List<Element> elements, Set<String> path, List<Observation> tests) {
        Beliefs beliefs = beliefs(elements, path, tests);
        Enumerated exact = Enumerated.of(elements, path, tests, limits(elements), DRAWS);
        for (Element element : elements) {
            assertEquals(exact.over(element.name()), beliefs.probabilityOver(element.name()), 0.015, element.name());
        }
        for (int worn = 0; worn < 1 << elements.size(); worn++) {
            Map<String, Boolean> states = new HashMap<>();
            List<String> names = new ArrayList<>();
            for (int e = 0; e < elements.size(); e++) {
                boolean over = (worn >> e & 1) == 1;
                states.put(elements.get(e).name(), over);
                names.add(elements.get(e).name() + (over ? " over" : " within"));
            }
            assertEquals(exact.set(worn), beliefs.probability(states), 0.015, String.join(", ", names));
        }
    }

    private static Beliefs beliefs(List<Element> elements, Set<String> path, List<Observation> tests) {
        List<Element> onPath = elements.stream()
                .filter(element -> path.contains(element.name()))
                .toList();
        return Beliefs.of(elements, onPath, tests, limits(elements));
    }

    private static Map<String, Double> limits(List<Element> elements) {
        Map<String, Double> limits = new HashMap<>();
        elements.forEach(element -> limits.put(element.name(), 1.0));
        return limits;
    }

    private static Observation observed(double leak, double deviation, Map<Law, Double> laws, Element... elements) {
        return new Observation(List.of(elements), leak, deviation, deviation, laws);
    }

    private static Element element(String name, ElementKind kind) {
        return new Element(
                name,
                kind,
                "a",
                Node.TANK,
                Limit.ofMaker(1, OptionalDouble.empty(), OptionalDouble.empty()),
                kind.usuallyWorn(),
                false,
                OptionalDouble.empty(),
                false,
                Optional.empty());
    }
}
