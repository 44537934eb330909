package org.holdtrace.accuracy;

import java.io.PrintStream;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.IntStream;
import org.holdtrace.leak.Law;

/**
 * How wide intervals must be: {@code AchievableWidth TESTS SEED PROFILE known|open} prints, for the tests of a corpus whose leak was
 * told from zero and to which {@link IdealBound} applies, medians of its half-width over the unavoidable one and of the
 * analyser's half-width over it.
 */
public final class AchievableWidth {
    private record Widths(String family, String inputs, double unavoidable, double ideal, double ours) {}

    private AchievableWidth() {}

    public static void main(String[] arguments) {
        Corpus corpus = new Corpus(Long.parseLong(arguments[1]), Roughness.named(arguments[2]));
        List<Widths> all = IntStream.range(0, Integer.parseInt(arguments[0]))
                .parallel()
                .mapToObj(i -> widths(corpus, i, arguments[3].equals("open")))
                .filter(Objects::nonNull)
                .toList();
        PrintStream out = System.out;
        print(out, "all", all);
        for (KnownInputs inputs : KnownInputs.values()) {
            print(
                    out,
                    inputs.label(),
                    all.stream().filter(w -> w.inputs.equals(inputs.label())).toList());
        }
        for (Family family : Family.values()) {
            print(
                    out,
                    family.label(),
                    all.stream().filter(w -> w.family.equals(family.label())).toList());
        }
    }

    private static Widths widths(Corpus corpus, int index, boolean open) {
        Score score = Scorer.score(corpus, index);
        if (score.answer().isEmpty()) {
            return null;
        }
        Score.Answer answer = score.answer().get();
        if (answer.law() == Law.NONE || !(answer.unavoidableRelative() < 1)) {
            return null;
        }
        return IdealBound.relative(score.test(), answer.atPa(), open)
                .map(u -> new Widths(
                        score.test().family().label(),
                        score.test().inputs().label(),
                        1.96 * answer.unavoidableRelative(),
                        1.96 * u,
                        answer.halfWidth() / answer.truth()))
                .orElse(null);
    }

    private static void print(PrintStream out, String name, List<Widths> widths) {
        if (widths.isEmpty()) {
            return;
        }
        out.printf(
                Locale.ROOT,
                "| %s | %d | %.2f | %.2f | %.2f |%n",
                name,
                widths.size(),
                median(widths.stream().mapToDouble(w -> w.ideal / w.unavoidable).toArray()),
                median(widths.stream().mapToDouble(w -> w.ours / w.unavoidable).toArray()),
                median(widths.stream().mapToDouble(w -> w.ours / w.ideal).toArray()));
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        int n = values.length;
        return 0.5 * (values[(n - 1) / 2] + values[n / 2]);
    }
}
