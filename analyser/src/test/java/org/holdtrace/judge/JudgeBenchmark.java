package org.holdtrace.judge;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;

/**
 * How right the judgement is over many simulated machines: whether what it calls probable is so that often, how many tests
 * it asks for against the fewest that would have done, and whether a worn part was ever passed over. Seeded; the same
 * arguments give the same figures. {@code docs/benchmarks.md} says how to call it.
 */
public final class JudgeBenchmark {
    private static final int MOST_TESTS = 14;
    private static final int BINS = 10;
    private static final long SEED = 7_000_003L;

    /** Said in ranges of probability: how often it was said, the sum of what was said, and how often it was so. */
    private final double[][] said = new double[BINS][3];
    /** The same for what is called "90 %": from 85 to 95 %, either way. */
    private final double[] ninety = new double[3];

    private final Map<String, int[]> byTemplate = new TreeMap<>();
    private int cases;
    private int decided;
    private int worn;
    private int wornFound;
    private int wornOpen;
    private int wornPassedOver;
    private int soundBlamed;
    private int compared;
    private double ours;
    private double fewest;

    private JudgeBenchmark() {}

    /** {@code JudgeBenchmark CASES COMPARED OUT.md}: so many cases, the first of them held against the fewest tests. */
    public static void main(String[] args) throws IOException {
        int count = args.length > 0 ? Integer.parseInt(args[0]) : 2000;
        int searched = args.length > 1 ? Integer.parseInt(args[1]) : 60;
        JudgeBenchmark benchmark = new JudgeBenchmark();
        IntStream.range(0, count).parallel().forEach(i -> benchmark.one(i, i < searched));
        String report = benchmark.report();
        System.out.println(report);
        if (args.length > 2) {
            Files.writeString(Path.of(args[2]), report);
        }
    }

    private void one(int index, boolean search) {
        InventedMachine machine = InventedMachine.draw(new SplittableRandom(SEED + 977L * index), index);
        Map<Set<String>, MeasuredTest> seen = new HashMap<>();
        List<MeasuredTest> tests = new ArrayList<>();
        List<CaseFindings> all = new ArrayList<>();
        CaseFindings findings = CaseJudge.judge(machine.file(), tests);
        all.add(findings);
        while (findings.standing() == Standing.OPEN && !findings.next().isEmpty() && tests.size() < MOST_TESTS) {
            PlannedTest next = findings.next().get(0);
            tests.add(seen.computeIfAbsent(names(next.reach()), reach -> machine.measure(next.test(), next.reach())));
            findings = CaseJudge.judge(machine.file(), tests);
            all.add(findings);
        }
        boolean compare = search && findings.standing() == Standing.DECIDED;
        int best = compare ? fewest(machine, seen, tests.size()) : 0;
        synchronized (this) {
            all.forEach(each -> count(each, machine));
            close(findings, machine, tests.size());
            if (compare) {
                compared++;
                ours += tests.size();
                fewest += best;
            }
            if (cases % 100 == 0) {
                System.err.println(report());
            }
        }
    }

    private void close(CaseFindings findings, InventedMachine machine, int tests) {
        cases++;
        int[] template = byTemplate.computeIfAbsent(machine.template(), key -> new int[3]);
        template[0]++;
        template[2] += tests;
        if (findings.standing() == Standing.DECIDED) {
            decided++;
            template[1]++;
        }
        for (ElementFinding found : findings.elements()) {
            boolean isWorn = machine.isWorn(found.element().name());
            worn += isWorn ? 1 : 0;
            wornFound += isWorn && found.status() == Status.OVER ? 1 : 0;
            wornPassedOver += isWorn && found.status() == Status.CLEARED ? 1 : 0;
            wornOpen += isWorn && found.status() != Status.CLEARED && found.status() != Status.OVER ? 1 : 0;
            soundBlamed += !isWorn && found.status() == Status.OVER ? 1 : 0;
        }
    }

    private void count(CaseFindings findings, InventedMachine machine) {
        for (ElementFinding found : findings.elements()) {
            double p = found.probability();
            boolean so = machine.isWorn(found.element().name());
            add(said[Math.min(BINS - 1, (int) (p * BINS))], p, so);
            if (p >= 0.85 && p <= 0.95) {
                add(ninety, p, so);
            } else if (p >= 0.05 && p <= 0.15) {
                add(ninety, 1 - p, !so);
            }
        }
    }

    private static void add(double[] bin, double p, boolean so) {
        bin[0]++;
        bin[1] += p;
        bin[2] += so ? 1 : 0;
    }

    private static Set<String> names(Reach reach) {
        Set<String> names = new HashSet<>();
        reach.direct().forEach(element -> names.add(element.name()));
        return names;
    }

    /** The fewest tests after which the case would have been decided, by trying all sets of tests from small to large. */
    private static int fewest(InventedMachine machine, Map<Set<String>, MeasuredTest> seen, int ours) {
        List<MeasuredTest> all = new ArrayList<>();
        List<Reach> reaches = new ArrayList<>();
        Set<Set<String>> once = new HashSet<>();
        for (CaseTest test : Planner.arrangements(machine.file().circuit())) {
            Reach reach = Reach.of(machine.file().circuit(), test);
            if (!reach.direct().isEmpty() && once.add(names(reach))) {
                all.add(seen.computeIfAbsent(names(reach), key -> machine.measure(test, reach)));
                reaches.add(reach);
            }
        }
        Map<String, Double> limits = CarriedLimits.of(machine.file());
        Set<Element> needed = new HashSet<>(machine.file().circuit().elements());
        needed.removeIf(element -> element.seen().isPresent());
        for (int size = 1; size < ours; size++) {
            if (decides(machine, all, reaches, limits, needed, size, 0, new ArrayList<>())) {
                return size;
            }
        }
        return ours;
    }

    private static boolean decides(
            InventedMachine machine,
            List<MeasuredTest> all,
            List<Reach> reaches,
            Map<String, Double> limits,
            Set<Element> needed,
            int size,
            int from,
            List<Integer> chosen) {
        if (chosen.size() == size) {
            return covers(chosen, reaches, needed, limits)
                    && CaseJudge.standing(
                                    machine.file(),
                                    chosen.stream().map(all::get).toList())
                            == Standing.DECIDED;
        }
        for (int i = from; i < all.size(); i++) {
            chosen.add(i);
            if (decides(machine, all, reaches, limits, needed, size, i + 1, chosen)) {
                return true;
            }
            chosen.remove(chosen.size() - 1);
        }
        return false;
    }

    /** Whether every part is in one of the tests; sets that leave one out cannot decide. */
    private static boolean covers(
            List<Integer> chosen, List<Reach> reaches, Set<Element> needed, Map<String, Double> limits) {
        Set<Element> judged = new HashSet<>();
        for (int i : chosen) {
            judged.addAll(reaches.get(i).direct());
        }
        return judged.containsAll(needed) && !limits.isEmpty();
    }

    private String report() {
        StringBuilder text = new StringBuilder();
        line(text, "%d cases, %d decided; seed 7000003.%n", cases, decided);
        line(text, "| template | cases | decided | tests a case |");
        line(text, "|---|---|---|---|");
        byTemplate.forEach((name, counts) ->
                line(text, "| %s | %d | %d | %.2f |", name, counts[0], counts[1], (double) counts[2] / counts[0]));
        line(text, "");
        line(text, "| said | times | mean of what was said | was so |");
        line(text, "|---|---|---|---|");
        for (int b = 0; b < BINS; b++) {
            double[] bin = said[b];
            line(
                    text,
                    "| %d to %d %% | %.0f | %.1f %% | %.1f %% |",
                    10 * b,
                    10 * b + 10,
                    bin[0],
                    100 * bin[1] / bin[0],
                    100 * bin[2] / bin[0]);
        }
        line(
                text,
                "%nCalled 90 %% (from 85 to 95 %%, either way): %.0f times, mean %.1f %%, so in %.1f %%.",
                ninety[0],
                100 * ninety[1] / ninety[0],
                100 * ninety[2] / ninety[0]);
        line(
                text,
                "Worn parts: %d; found %d, still open and named %d, passed over %d. Sound parts blamed: %d.",
                worn,
                wornFound,
                wornOpen,
                wornPassedOver,
                soundBlamed);
        line(
                text,
                "Tests until decided, %d cases: %.2f a case; the fewest that would have done %.2f; ratio %.3f.",
                compared,
                ours / compared,
                fewest / compared,
                ours / fewest);
        return text.toString();
    }

    private static void line(StringBuilder text, String format, Object... values) {
        text.append(String.format(Locale.ROOT, format, values)).append(System.lineSeparator());
    }
}
