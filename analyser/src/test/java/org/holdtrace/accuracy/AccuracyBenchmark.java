package org.holdtrace.accuracy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;

/**
 * Simulates hold tests, analyses them and says how right the answers were; docs/benchmarks.md tells how to start it.
 *
 * <pre>--tests N        how many (440)
 * --seed S         of which corpus (1)
 * --profile NAME   plain or rough (plain)
 * --only FAMILY    one family, as in the report
 * --from I         first index, to look at single tests (0)
 * --csv FILE       a row for each test
 * --out FILE       the report, beside printing it</pre>
 */
public final class AccuracyBenchmark {
    private int tests = 440;
    private long seed = 1;
    private int from;
    private Roughness roughness = Roughness.PLAIN;
    private Family only;
    private Path csv;
    private Path out;

    private AccuracyBenchmark() {}

    public static void main(String[] args) throws IOException {
        AccuracyBenchmark benchmark = new AccuracyBenchmark();
        try {
            benchmark.read(args);
        } catch (IllegalArgumentException e) {
            System.err.println(e.getMessage());
            System.exit(2);
        }
        benchmark.run();
    }

    private void read(String[] args) {
        for (int i = 0; i < args.length; i += 2) {
            if (i + 1 == args.length) {
                throw new IllegalArgumentException(args[i] + " needs a value");
            }
            String value = args[i + 1];
            switch (args[i]) {
                case "--tests" -> tests = Integer.parseInt(value);
                case "--seed" -> seed = Long.parseLong(value);
                case "--from" -> from = Integer.parseInt(value);
                case "--profile" -> roughness = Roughness.named(value);
                case "--only" ->
                    only = Family.named(value)
                            .orElseThrow(() -> new IllegalArgumentException("no family is called '" + value + "'"));
                case "--csv" -> csv = Path.of(value);
                case "--out" -> out = Path.of(value);
                default -> throw new IllegalArgumentException("unknown option " + args[i]);
            }
        }
    }

    private void run() throws IOException {
        long start = System.nanoTime();
        List<Score> scores = scores(new Corpus(seed, roughness), indices());
        double wallS = (System.nanoTime() - start) / 1e9;
        String title =
                String.format(Locale.ROOT, "%d tests, profile %s, seed %d", scores.size(), roughness.label(), seed);
        String report = AccuracyReport.write(new Figures(scores), title);
        System.out.print(report);
        System.err.printf(
                Locale.ROOT,
                "%.1f s on %d cores, of it %.1f core seconds simulating%n",
                wallS,
                Runtime.getRuntime().availableProcessors(),
                scores.stream().mapToDouble(Score::simulateS).sum());
        if (out != null) {
            write(out, report);
        }
        if (csv != null) {
            List<String> lines = new ArrayList<>();
            lines.add(ScoreCsv.header());
            scores.forEach(score -> lines.add(ScoreCsv.row(score)));
            write(csv, String.join("\n", lines) + "\n");
        }
    }

    private int[] indices() {
        return IntStream.iterate(from, i -> i + 1)
                .filter(i -> only == null || Corpus.family(i) == only)
                .limit(tests)
                .toArray();
    }

    /** Scores these tests on all cores, in order. */
    static List<Score> scores(Corpus corpus, int... indices) {
        AtomicInteger done = new AtomicInteger();
        return IntStream.of(indices)
                .parallel()
                .mapToObj(index -> {
                    Score score = Scorer.score(corpus, index);
                    int n = done.incrementAndGet();
                    if (n % 100 == 0) {
                        System.err.println(n + " of " + indices.length + " tests");
                    }
                    return score;
                })
                .toList();
    }

    private static void write(Path file, String text) throws IOException {
        Path folder = file.toAbsolutePath().getParent();
        if (folder != null) {
            Files.createDirectories(folder);
        }
        Files.writeString(file, text, StandardCharsets.UTF_8);
    }
}
