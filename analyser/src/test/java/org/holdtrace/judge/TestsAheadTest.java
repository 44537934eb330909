package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** By hand: two piston seals of limit 1, as often worn as not, that can be tested together and each alone. */
class TestsAheadTest {
    private static final Element A = Seals.seal("a", 1);
    private static final Element B = Seals.seal("b", 1);
    private static final List<List<Element>> TESTS = List.of(List.of(A, B), List.of(A), List.of(B));
    private static final Map<String, Double> LIMITS = Map.of("a", 1.0, "b", 1.0);
    private static final List<String> NAMES = List.of("a", "b");

    private static boolean[] decided(double a, double b, Integer... tests) {
        WhatTestsLeave.Circuit circuit = WhatTestsLeave.Circuit.of(TESTS, NAMES, LIMITS, NAMES, List.of());
        return new WhatTestsLeave(circuit, new double[] {a, b}).decided(List.of(tests));
    }

    /** A leak of 3.2 together may be of either; with b alone, at most 0.2 + 2 * 0.06, at least 3.2 - 2 * 0.14 - 0.32 is a's. */
    @Test
    void whatOneLeaksAtMostIsWhatTheOtherLeaksAtLeast() {
        assertArrayEquals(new boolean[] {false, false}, decided(3, 0.2, 0));
        assertArrayEquals(new boolean[] {true, true}, decided(3, 0.2, 0, 2));
        assertArrayEquals(new boolean[] {true, true}, decided(3, 0.2, 0, 1), "b by the difference: 0.2 + 2 * 0.19");
        assertArrayEquals(new boolean[] {true, false}, decided(3, 0.2, 1));
        assertArrayEquals(new boolean[] {true, true}, decided(0.3, 0.4, 0), "0.7 together is within either's limit");
        assertArrayEquals(new boolean[] {false, true}, decided(1.02, 0.4, 1, 2), "1.02 cannot be told from 0.98");
        assertArrayEquals(new boolean[] {true, false}, decided(30, 0.2, 0, 1), "4 % of 30 hide a leak of 1");
    }

    private static double[] shares(double together, double a, double b) {
        List<TestsAhead.Way> ways = List.of(
                new TestsAhead.Way(TESTS.get(0), together, List.of(), 0),
                new TestsAhead.Way(TESTS.get(1), a, List.of(), 0),
                new TestsAhead.Way(TESTS.get(2), b, List.of(), 0));
        LeakDraws draws =
                Beliefs.of(List.of(A, B), List.of(), List.of(), LIMITS).draws(new HashMap<>(LIMITS));
        return new TestsAhead(ways, List.of(), NAMES, List.of(), LIMITS, draws).shares();
    }

    /** Both together is the only test wherever their sum is within 1, a quarter of times or less; else any two do, the quickest count. */
    @Test
    void aTestOfBothIsNeededWhereBothHoldOrWhereItIsQuick() {
        double[] slow = shares(3000, 1000, 2000);
        assertTrue(slow[0] > 0.05 && slow[0] < 0.3, "together " + slow[0]);
        assertEquals(1, slow[0] + slow[1], 0.06);
        assertEquals(slow[1], slow[2], 0.06);
        double[] quick = shares(1000, 2000, 3000);
        assertTrue(quick[0] > 0.6, "together " + quick[0]);
        assertTrue(quick[2] < quick[1], "the slowest of three is seldom among the quickest two");
    }

    /** On a clamp the pilot check has to be tested with the side behind it in any case, and that often settles both. */
    @Test
    void theSideWithoutItsCheckIsNotPressedFirst() throws IOException {
        CaseFile file = Cases.read(Cases.text(
                "pilot-check clamp",
                Cases.FUNCTION + ", \"centre\": \"open to tank\"",
                "\"elements\": [ { \"name\": \"rod seal\", \"seen\": \"dry\" } ],"));
        PlannedTest first = CaseJudge.judge(file, List.of()).next().get(0);
        assertTrue(
                first.reach().direct().stream().anyMatch(element -> element.kind() == ElementKind.PILOT_CHECK),
                first.test().name());
        assertTrue(
                first.reach().direct().stream().anyMatch(element -> element.kind() == ElementKind.PISTON_SEAL),
                first.test().name());
    }
}
