package org.holdtrace.judge;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.wording.ShownUnits;

/**
 * How right the judgement is over many simulated machines: whether what it calls probable is so that often, how many tests
 * it asks for against the fewest that would have done, and whether a worn part was ever passed over. Seeded; the same
 * arguments give the same figures. {@code docs/benchmarks.md} says how to call it.
 */
public final class JudgeBenchmark {
    private static final int MOST_TESTS = 24;
    private static final long SEED = 7_000_003L;

    private final double wornOdds;
    private final JudgeTally tally = new JudgeTally();

    private JudgeBenchmark(double wornOdds) {
        this.wornOdds = wornOdds;
    }

    /**
     * {@code JudgeBenchmark CASES COMPARED ODDS OUT.md}: so many cases, the first of them held against the fewest tests, and
     * by how much the odds of wear of the machines drawn are those the judgement takes for granted.
     */
    public static void main(String[] args) throws IOException {
        int count = Integer.parseInt(args[0]);
        int searched = Integer.parseInt(args[1]);
        JudgeBenchmark benchmark = new JudgeBenchmark(Double.parseDouble(args[2]));
        IntStream.range(0, count).parallel().forEach(i -> benchmark.one(i, i < searched));
        String report = benchmark.tally.report();
        System.out.println(report);
        Files.writeString(Path.of(args[3]), report);
    }

    private void one(int index, boolean search) {
        InventedMachine machine = InventedMachine.draw(new SplittableRandom(SEED + 977L * index), index, wornOdds);
        Map<Set<String>, MeasuredTest> seen = new HashMap<>();
        Map<List<Observation>, Component> known = new HashMap<>();
        List<MeasuredTest> tests = new ArrayList<>();
        List<CaseFindings> all = new ArrayList<>();
        CaseFindings findings = CaseJudge.judge(machine.file(), tests, ShownUnits.METRIC, known);
        all.add(findings);
        while (findings.standing() == Standing.OPEN && !findings.next().isEmpty() && tests.size() < MOST_TESTS) {
            PlannedTest next = findings.next().get(0);
            tests.add(seen.computeIfAbsent(names(next.reach()), reach -> machine.measure(next.test(), next.reach())));
            findings = CaseJudge.judge(machine.file(), tests, ShownUnits.METRIC, known);
            all.add(findings);
        }
        int deciding = 0;
        int finding = 0;
        if (search && findings.standing() == Standing.DECIDED) {
            FewestTests fewest = FewestTests.of(machine, seen, known);
            deciding = fewest.deciding(tests.size());
            finding = fewest.finding(firstFound(all, machine));
        }
        synchronized (tally) {
            tally.add(machine, all);
            tally.compare(tests.size(), deciding, firstFound(all, machine), finding);
        }
    }

    /** After how many tests all worn parts were called over their limits; 0 where that never came. */
    private static int firstFound(List<CaseFindings> all, InventedMachine machine) {
        for (int i = 1; i < all.size(); i++) {
            if (all.get(i).elements().stream()
                    .allMatch(each -> !machine.isWorn(each.element().name()) || each.status() == Status.OVER)) {
                return i;
            }
        }
        return 0;
    }

    private static Set<String> names(Reach reach) {
        Set<String> names = new HashSet<>();
        reach.direct().forEach(element -> names.add(element.name()));
        return names;
    }
}
