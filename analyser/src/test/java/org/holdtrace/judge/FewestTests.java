package org.holdtrace.judge;

import java.util.ArrayList;
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

    private JudgedCase.Fewest fewest(int ours, Set<String> needed, Predicate<Status> enough, Predicate<Element> which) {
        tried = 0;
        for (int size = 1; size < ours; size++) {
            if (search(size, 0, new ArrayList<>(), needed, enough, which)) {
                return new JudgedCase.Fewest(size, true);
            }
            if (tried > MOST_SETS) {
                return new JudgedCase.Fewest(size, false);
            }
        }
        return new JudgedCase.Fewest(ours, true);
    }

    private boolean search(
            int left,
            int from,
            List<Integer> chosen,
            Set<String> uncovered,
            Predicate<Status> enough,
            Predicate<Element> which) {
        if (left == 0) {
            tried++;
            return CaseJudge.allAre(
                    enough,
                    which,
                    machine.file(),
                    chosen.stream().map(tests::get).toList(),
                    known);
        }
        for (int i = from; i < tests.size() && tried <= MOST_SETS; i++) {
            Set<String> still = new HashSet<>(uncovered);
            still.removeAll(names.get(i));
            if (still.size() > (left - 1) * most(i + 1, still)) {
                continue; // those to come cannot reach all that is left
            }
            chosen.add(i);
            if (search(left - 1, i + 1, chosen, still, enough, which)) {
                return true;
            }
            chosen.remove(chosen.size() - 1);
        }
        return false;
    }

    /** The most of {@code uncovered} that one test from {@code from} on reaches. */
    private int most(int from, Set<String> uncovered) {
        int most = 0;
        for (Set<String> parts : names.subList(from, names.size())) {
            most = Math.max(
                    most, (int) uncovered.stream().filter(parts::contains).count());
        }
        return most;
    }
}
