package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import org.holdtrace.judge.CaseFindings.Status;

/**
 * The fewest tests that would have done for a machine, by one who knows beforehand what each of them gives: all sets of
 * tests are tried, small ones first. A test gives the same whenever it is done.
 */
final class FewestTests {
    /** Sets tried before the search is given up. */
    private static final int MOST_SETS = 1_000;

    private final InventedMachine machine;
    private final Map<List<Observation>, Component> known;
    private final List<MeasuredTest> tests = new ArrayList<>();
    private final List<Set<String>> names = new ArrayList<>();
    private int tried;

    private FewestTests(InventedMachine machine, Map<List<Observation>, Component> known) {
        this.machine = machine;
        this.known = known;
    }

    /** {@code seen}: tests made already, by the parts they implicate; the others are made now. */
    static FewestTests of(
            InventedMachine machine, Map<Set<String>, MeasuredTest> seen, Map<List<Observation>, Component> known) {
        FewestTests all = new FewestTests(machine, known);
        Set<Set<String>> once = new HashSet<>();
        for (CaseTest test : Planner.arrangements(machine.file().circuit())) {
            Reach reach = Reach.of(machine.file().circuit(), test);
            Set<String> parts = new HashSet<>();
            reach.direct().forEach(element -> parts.add(element.name()));
            if (!parts.isEmpty() && once.add(parts)) {
                all.tests.add(seen.computeIfAbsent(parts, key -> machine.measure(test, reach)));
                all.names.add(parts);
            }
        }
        return all;
    }

    /** The fewest after which the case is decided, where {@code ours} do. */
    JudgedCase.Fewest deciding(int ours) {
        Set<String> needed = new HashSet<>();
        machine.file().circuit().elements().stream()
                .filter(element -> element.seen().isEmpty())
                .forEach(element -> needed.add(element.name()));
        return fewest(ours, needed, status -> status == Status.OVER || status == Status.CLEARED, element -> true);
    }

    /** The fewest after which every worn part is called over its limit, where {@code ours} do; not asked where none is worn. */
    JudgedCase.Fewest finding(int ours) {
        Set<String> worn = new HashSet<>();
        Set<String> needed = new HashSet<>();
        for (Element element : machine.file().circuit().elements()) {
            if (machine.isWorn(element.name())) {
                worn.add(element.name());
                if (element.seen().isEmpty()) {
                    needed.add(element.name());
                }
            }
        }
        return worn.isEmpty() || ours == 0
                ? JudgedCase.Fewest.NOT_ASKED
                : fewest(ours, needed, status -> status == Status.OVER, element -> worn.contains(element.name()));
    }

    /**
     * Tests that have no part in common, directly or by others, are searched apart: what the ones give says nothing of the
     * parts of the others, so the sum of their fewest is no more than the fewest of all. It is that where these together do;
     * that all that are cleared are in order is one claim, which may take more.
     */
    private JudgedCase.Fewest fewest(int ours, Set<String> needed, Predicate<Status> enough, Predicate<Element> which) {
        List<Integer> together = new ArrayList<>();
        int sum = 0;
        boolean known = true;
        for (List<Integer> part : apart()) {
            Set<String> parts = new HashSet<>();
            part.forEach(i -> parts.addAll(names.get(i)));
            Set<String> own = new HashSet<>(needed);
            own.retainAll(parts);
            Found found = fewestOf(
                    part, ours - sum, own, enough, element -> which.test(element) && parts.contains(element.name()));
            sum += found.fewest();
            known &= found.isKnown();
            together.addAll(found.chosen());
        }
        return sum >= ours
                ? new JudgedCase.Fewest(ours, true)
                : new JudgedCase.Fewest(sum, known && areEnough(together, enough, which));
    }

    /** Places of tests, those together that have parts in common, directly or by others. */
    private List<List<Integer>> apart() {
        List<List<Integer>> apart = new ArrayList<>();
        for (int i = 0; i < tests.size(); i++) {
            Set<String> parts = new HashSet<>(names.get(i));
            List<Integer> joined = new ArrayList<>(List.of(i));
            for (List<Integer> other : List.copyOf(apart)) {
                if (other.stream().anyMatch(j -> !Collections.disjoint(parts, names.get(j)))) {
                    joined.addAll(other);
                    apart.remove(other);
                }
            }
            Collections.sort(joined);
            apart.add(joined);
        }
        return apart;
    }

    /** What a search came to: the fewest, or the least it can be, and tests that do. */
    private record Found(int fewest, boolean isKnown, List<Integer> chosen) {}

    private Found fewestOf(
            List<Integer> of, int most, Set<String> needed, Predicate<Status> enough, Predicate<Element> which) {
        tried = 0;
        for (int size = 0; size < most; size++) {
            List<Integer> chosen = new ArrayList<>();
            if (search(of, size, 0, chosen, needed, enough, which)) {
                return new Found(size, true, chosen);
            }
            if (tried > MOST_SETS) {
                return new Found(size, false, List.of());
            }
        }
        return new Found(most, true, of);
    }

    private boolean areEnough(List<Integer> chosen, Predicate<Status> enough, Predicate<Element> which) {
        return CaseJudge.allAre(
                enough, which, machine.file(), chosen.stream().map(tests::get).toList(), known);
    }

    private boolean search(
            List<Integer> of,
            int left,
            int from,
            List<Integer> chosen,
            Set<String> uncovered,
            Predicate<Status> enough,
            Predicate<Element> which) {
        if (left == 0) {
            tried++;
            return uncovered.isEmpty() && areEnough(chosen, enough, which);
        }
        for (int i = from; i < of.size() && tried <= MOST_SETS; i++) {
            Set<String> still = new HashSet<>(uncovered);
            still.removeAll(names.get(of.get(i)));
            if (still.size() > (left - 1) * most(of.subList(i + 1, of.size()), still)) {
                continue; // those to come cannot reach all that is left
            }
            chosen.add(of.get(i));
            if (search(of, left - 1, i + 1, chosen, still, enough, which)) {
                return true;
            }
            chosen.remove(chosen.size() - 1);
        }
        return false;
    }

    /** The most of {@code uncovered} that one of these tests reaches. */
    private int most(List<Integer> of, Set<String> uncovered) {
        int most = 0;
        for (int i : of) {
            most = Math.max(most, (int)
                    uncovered.stream().filter(names.get(i)::contains).count());
        }
        return most;
    }
}
