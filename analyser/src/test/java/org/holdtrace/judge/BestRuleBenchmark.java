package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.wording.ShownUnits;

/**
 * Tests {@code case} asks for against the best rule ({@link BestRule}) and against the fewest with hindsight, on machines of
 * one circuit, hoses and rod seal seen to be dry. It should be one with few tests. {@code docs/benchmarks.md} says how to call it.
 */
public final class BestRuleBenchmark {
    private static final long SEED = 9_000_011L;
    private static final int MOST_TESTS = 24;

    /** A machine that {@code case} decides, what each test of it gives, and how many it asked for. */
    private record Machine(
            InventedMachine drawn, List<MeasuredTest> tests, int asked, Map<List<Observation>, Component> known) {}

    private BestRuleBenchmark() {}

    /** {@code BestRuleBenchmark MACHINES TEMPLATE CENTRE}: so many that are decided, of one circuit. */
    public static void main(String[] args) {
        String template = args[1];
        String function = Cases.FUNCTION + ", \"centre\": \"" + args[2] + "\"";
        List<Machine> machines = new ArrayList<>();
        int drawn = 0;
        while (machines.size() < Integer.parseInt(args[0])) {
            InventedMachine machine = InventedMachine.draw(
                    new SplittableRandom(SEED + 977L * drawn++), template, function, "retracts", 1);
            if (isDry(machine)) {
                Machine judged = judged(machine);
                if (judged.asked() > 0) {
                    machines.add(judged);
                }
            }
        }
        report(machines);
    }

    private static boolean isDry(InventedMachine machine) {
        return machine.file().circuit().elements().stream()
                .allMatch(element -> element.seen().isEmpty() || element.seen().get() == Element.Seen.DRY);
    }

    private static Machine judged(InventedMachine machine) {
        Map<List<Observation>, Component> known = new HashMap<>();
        List<MeasuredTest> asked = new ArrayList<>();
        CaseFindings findings = CaseJudge.judge(machine.file(), asked, ShownUnits.METRIC, known);
        while (findings.standing() == Standing.OPEN && !findings.next().isEmpty() && asked.size() < MOST_TESTS) {
            PlannedTest next = findings.next().get(0);
            asked.add(machine.measure(next.test(), next.reach()));
            findings = CaseJudge.judge(machine.file(), asked, ShownUnits.METRIC, known);
        }
        List<MeasuredTest> all = new ArrayList<>();
        Set<Set<String>> once = new HashSet<>();
        for (CaseTest test : Planner.arrangements(machine.file().circuit())) {
            Reach reach = Reach.of(machine.file().circuit(), test);
            Set<String> names = new HashSet<>();
            reach.direct().forEach(element -> names.add(element.name()));
            if (!names.isEmpty() && once.add(names)) {
                all.add(machine.measure(test, reach));
            }
        }
        return new Machine(machine, all, findings.standing() == Standing.DECIDED ? asked.size() : 0, known);
    }

    private static void report(List<Machine> machines) {
        int tests = machines.get(0).tests().size();
        Map<Long, Boolean> decided = new HashMap<>();
        BestRule.Decided isDecided = (machine, done) ->
                decided.computeIfAbsent((long) machine << 32 | done, key -> isDecided(machines.get(machine), done));
        double asked = machines.stream().mapToInt(Machine::asked).average().orElseThrow();
        int fewest = 0;
        for (int m = 0; m < machines.size(); m++) {
            fewest += fewest(m, tests, isDecided);
        }
        System.out.printf(
                Locale.ROOT,
                "%d machines decided, %d tests each; asked for %.3f; with hindsight %.3f, ratio %.3f%n",
                machines.size(),
                tests,
                asked,
                (double) fewest / machines.size(),
                asked * machines.size() / fewest);
        for (double factor : new double[] {1.5, 2, 3, 6}) {
            rule(machines, tests, factor, asked, isDecided);
        }
    }

    private static void rule(
            List<Machine> machines, int tests, double factor, double asked, BestRule.Decided isDecided) {
        BestRule rule = new BestRule(tests, (machine, test) -> step(machines.get(machine), test, factor), isDecided);
        BitSet all = new BitSet();
        all.set(0, machines.size());
        double learnt = rule.learnt(all);
        int followed = 0;
        for (int part = 0; part < 2; part++) {
            BitSet others = new BitSet();
            for (int m = 0; m < machines.size(); m++) {
                others.set(m, m % 2 == part);
            }
            for (int m = 1 - part; m < machines.size(); m += 2) {
                followed += rule.followed(others, m);
            }
        }
        System.out.printf(
                Locale.ROOT,
                "results told apart by a factor of %.1f: best rule on the machines it was learnt on %.3f, ratio %.3f; on the"
                        + " other half %.3f, ratio %.3f%n",
                factor,
                learnt,
                asked / learnt,
                (double) followed / machines.size(),
                asked * machines.size() / followed);
    }

    private static boolean isDecided(Machine machine, int done) {
        List<MeasuredTest> chosen = new ArrayList<>();
        for (int t = 0; t < machine.tests().size(); t++) {
            if ((done >> t & 1) == 1) {
                chosen.add(machine.tests().get(t));
            }
        }
        return CaseJudge.allAre(
                status -> status == Status.OVER || status == Status.CLEARED,
                element -> true,
                machine.drawn().file(),
                chosen,
                machine.known());
    }

    private static int fewest(int machine, int tests, BestRule.Decided isDecided) {
        int fewest = tests;
        for (int done = 0; done < 1 << tests; done++) {
            if (Integer.bitCount(done) < fewest && isDecided.by(machine, done)) {
                fewest = Integer.bitCount(done);
            }
        }
        return fewest;
    }

    /** The result in limits of the tightest part in the test, in steps of {@code factor}. */
    private static int step(Machine machine, int test, double factor) {
        MeasuredTest made = machine.tests().get(test);
        double smallest = Double.POSITIVE_INFINITY;
        Map<String, Double> limits = CarriedLimits.of(machine.drawn().file());
        for (Element element :
                Reach.of(machine.drawn().file().circuit(), made.test()).direct()) {
            smallest = Math.min(smallest, limits.get(element.name()));
        }
        double leak = made.leak().orElseThrow().m3PerS();
        return (int) Math.floor(Math.log(Math.max(0.05, leak / smallest)) / Math.log(factor));
    }
}
