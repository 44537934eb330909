package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The fewest tests on average of any rule that knows only what was measured so far, by dynamic programming over machines
 * drawn: in which order to test until each is decided, where machines whose results so far fall into the same steps cannot
 * be told apart. A rule learnt on some machines and followed on others is one that could be followed, so what it needs is
 * no less than the best rule's; what it needs on those it was learnt on is no more, for steps with few machines in them
 * give away which machine it is.
 */
final class BestRule {
    /** Steps of a result as its judge tells it apart, by test. */
    interface Steps {
        int of(int machine, int test);
    }

    /** Whether the machine is decided by these tests. */
    interface Decided {
        boolean by(int machine, int tests);
    }

    private final int tests;
    private final Steps steps;
    private final Decided decided;
    private final Map<List<Object>, Choice> known = new HashMap<>();

    /** What to do next: {@code cost}: tests all machines together still need; {@code test} -1 where they cannot be decided. */
    private record Choice(double cost, int test) {}

    BestRule(int tests, Steps steps, Decided decided) {
        this.tests = tests;
        this.steps = steps;
        this.decided = decided;
    }

    /** Tests a machine of these, by the rule best for them. */
    double learnt(BitSet machines) {
        return best(0, machines).cost() / machines.cardinality();
    }

    /** The tests {@code machine} needs by the rule that is best for {@code learntOn}. */
    int followed(BitSet learntOn, int machine) {
        int done = 0;
        BitSet alike = learntOn;
        while (!decided.by(machine, done)) {
            BitSet undecided = undecided(done, alike);
            Choice choice = undecided.isEmpty() ? new Choice(0, -1) : best(done, alike);
            int next = choice.test();
            if (next < 0) {
                next = Integer.numberOfTrailingZeros(~done); // nothing like it was learnt: any test not yet done
            }
            if (next >= tests) {
                return tests;
            }
            alike = apart(undecided, next).getOrDefault(steps.of(machine, next), new BitSet());
            done |= 1 << next;
        }
        return Integer.bitCount(done);
    }

    private BitSet undecided(int done, BitSet machines) {
        BitSet left = new BitSet();
        machines.stream().filter(machine -> !decided.by(machine, done)).forEach(left::set);
        return left;
    }

    private Choice best(int done, BitSet machines) {
        BitSet left = undecided(done, machines);
        if (left.isEmpty()) {
            return new Choice(0, -1);
        }
        List<Object> key = List.of(done, left);
        Choice before = known.get(key);
        if (before != null) {
            return before;
        }
        Choice best = new Choice(Double.POSITIVE_INFINITY, -1);
        for (int test = 0; test < tests; test++) {
            if ((done >> test & 1) == 0) {
                double cost = left.cardinality();
                for (BitSet alike : new ArrayList<>(apart(left, test).values())) {
                    cost += best(done | 1 << test, alike).cost();
                }
                best = cost < best.cost() ? new Choice(cost, test) : best;
            }
        }
        known.put(key, best);
        return best;
    }

    private Map<Integer, BitSet> apart(BitSet machines, int test) {
        Map<Integer, BitSet> apart = new TreeMap<>();
        machines.stream()
                .forEach(machine -> apart.computeIfAbsent(steps.of(machine, test), key -> new BitSet())
                        .set(machine));
        return apart;
    }
}
