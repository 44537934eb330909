package org.holdtrace.judge;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.wording.ShownUnits;

/**
 * How right the judgement is over many simulated machines: whether what it calls probable is so that often, how many tests
 * it asks for against the fewest that would have done, and whether a worn part was ever passed over. Seeded; the same
 * arguments give the same figures. Each case is a line of a file as soon as it is done; what stands there is not done
 * again. {@code docs/benchmarks.md} says how to call it.
 */
public final class JudgeBenchmark {
    private static final int MOST_TESTS = 24;
    private static final long SEED = 7_000_003L;
    private static final double MINUTE_S = 60;

    private final double wornOdds;
    private final Path lines;

    private JudgeBenchmark(double wornOdds, Path lines) {
        this.wornOdds = wornOdds;
        this.lines = lines;
    }

    /**
     * {@code JudgeBenchmark CASES COMPARED ODDS OUT.md}: so many cases, the first of them held against the fewest tests, and
     * by how much the odds of wear of the machines drawn are those the judgement takes for granted. Cases that stand in
     * {@code OUT.md.cases} already are taken from there.
     */
    public static void main(String[] args) throws IOException {
        int count = Integer.parseInt(args[0]);
        int compared = Integer.parseInt(args[1]);
        Path lines = Path.of(args[3] + ".cases");
        JudgeBenchmark benchmark = new JudgeBenchmark(Double.parseDouble(args[2]), lines);
        Map<Integer, JudgedCase> done = read(lines);
        IntStream.range(0, count)
                .filter(i -> !done.containsKey(i))
                .parallel()
                .forEach(i -> benchmark.write(benchmark.one(i, i < compared)));
        JudgeTally tally = new JudgeTally();
        read(lines).values().stream().filter(each -> each.index() < count).forEach(tally::add);
        String report = tally.report();
        System.out.println(report);
        Files.writeString(Path.of(args[3]), report);
    }

    private static Map<Integer, JudgedCase> read(Path lines) throws IOException {
        Map<Integer, JudgedCase> done = new TreeMap<>();
        if (Files.exists(lines)) {
            String text = Files.readString(lines);
            String whole = text.substring(0, text.lastIndexOf('\n') + 1); // one cut short is done again
            whole.lines().map(JudgedCase::of).forEach(each -> done.put(each.index(), each));
            Files.writeString(lines, whole);
        }
        return done;
    }

    private synchronized void write(JudgedCase done) {
        try {
            Files.writeString(
                    lines, done + "\n", StandardCharsets.UTF_8, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private JudgedCase one(int index, boolean compare) {
        InventedMachine machine = InventedMachine.draw(new SplittableRandom(SEED + 977L * index), index, wornOdds);
        Map<Set<String>, MeasuredTest> seen = new HashMap<>();
        Map<List<Observation>, Component> known = new HashMap<>();
        List<MeasuredTest> tests = new ArrayList<>();
        List<CaseFindings> all = new ArrayList<>();
        double minutes = 0;
        CaseFindings findings = CaseJudge.judge(machine.file(), tests, ShownUnits.METRIC, known);
        all.add(findings);
        while (findings.standing() == Standing.OPEN && !findings.next().isEmpty() && tests.size() < MOST_TESTS) {
            PlannedTest next = findings.next().get(0);
            minutes += next.wholeS() / MINUTE_S;
            tests.add(seen.computeIfAbsent(names(next.reach()), reach -> machine.measure(next.test(), next.reach())));
            findings = CaseJudge.judge(machine.file(), tests, ShownUnits.METRIC, known);
            all.add(findings);
        }
        JudgedCase.Fewest deciding = JudgedCase.Fewest.NOT_ASKED;
        JudgedCase.Fewest finding = JudgedCase.Fewest.NOT_ASKED;
        if (compare && findings.standing() == Standing.DECIDED) {
            FewestTests fewest = FewestTests.of(machine, seen, known);
            deciding = fewest.deciding(tests.size());
            finding = fewest.finding(JudgedCase.found(all, machine));
        }
        return JudgedCase.of(index, machine, all, minutes, deciding, finding);
    }

    private static Set<String> names(Reach reach) {
        Set<String> names = new HashSet<>();
        reach.direct().forEach(element -> names.add(element.name()));
        return names;
    }
}
