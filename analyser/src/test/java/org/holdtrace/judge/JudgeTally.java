package org.holdtrace.judge;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.holdtrace.judge.CaseFindings.Status;

/** What was said of many machines against what was so. */
final class JudgeTally {
    private static final int BINS = 10;
    private static final double FROM_90 = 0.88;
    private static final double TO_90 = 0.92;

    /** What was said, how often it was so; by case, for parts of one machine and one part after several tests go together. */
    private static final class Said {
        private int times;
        private double said;
        private int so;
        private final Map<Integer, int[]> byCase = new HashMap<>();

        void add(int index, double p, boolean isSo) {
            times++;
            said += p;
            so += isSo ? 1 : 0;
            int[] own = byCase.computeIfAbsent(index, key -> new int[2]);
            own[0]++;
            own[1] += isSo ? 1 : 0;
        }

        /** The same of what is called "90 %", either way. */
        void addIf90(int index, double p, boolean isSo) {
            if (p >= FROM_90 && p <= TO_90) {
                add(index, p, isSo);
            } else if (1 - p >= FROM_90 && 1 - p <= TO_90) {
                add(index, 1 - p, !isSo);
            }
        }

        double share() {
            return (double) so / times;
        }

        /** Standard deviation of the share, cases being independent of one another (a ratio of sums over clusters). */
        double deviation() {
            double sum = 0;
            for (int[] own : byCase.values()) {
                double off = own[1] - share() * own[0];
                sum += off * off;
            }
            return Math.sqrt(sum) / times;
        }
    }

    /** Tests asked for against the fewest. */
    private static final class Compared {
        private int cases;
        private int known;
        private int ours;
        private int fewest;
        private int oursKnown;
        private int fewestKnown;

        void add(int own, JudgedCase.Fewest least) {
            if (least.tests() > 0) {
                cases++;
                ours += own;
                fewest += least.tests();
                if (least.isKnown()) {
                    known++;
                    oursKnown += own;
                    fewestKnown += least.tests();
                }
            }
        }

        String words() {
            return String.format(
                    Locale.ROOT,
                    "%d cases: %.2f a case, by one who knows all results at least %.2f, ratio at most %.3f; %d of them searched to the"
                            + " end: %.2f, %.2f, ratio %.3f",
                    cases,
                    (double) ours / cases,
                    (double) fewest / cases,
                    (double) ours / fewest,
                    known,
                    (double) oursKnown / known,
                    (double) fewestKnown / known,
                    (double) oursKnown / fewestKnown);
        }
    }

    /** By template: cases, decided, tests, minutes. */
    private final Map<String, double[]> byTemplate = new TreeMap<>();

    private final Map<String, Compared> decidingByTemplate = new TreeMap<>();
    private final Said[] afterEach = new Said[BINS];
    private final Said[] atEnd = new Said[BINS];
    private final Said ninetyAfterEach = new Said();
    private final Said ninetyAtEnd = new Said();
    private final Compared deciding = new Compared();
    private final Compared finding = new Compared();
    private final StringBuilder passed = new StringBuilder();
    private int cases;
    private int decided;
    private int worn;
    private int wornFound;
    private int wornOpen;
    private int passedOver;
    private int passedOverNamed;
    private int soundBlamed;
    private int cleared;
    private double clearedExpected;
    private int casesWithOneOver;
    private double casesWithOneOverExpected;
    private int foundAll;
    private int testsUntilFound;

    JudgeTally() {
        for (int b = 0; b < BINS; b++) {
            afterEach[b] = new Said();
            atEnd[b] = new Said();
        }
    }

    void add(JudgedCase one) {
        cases++;
        double[] template = byTemplate.computeIfAbsent(one.template(), key -> new double[4]);
        template[0]++;
        template[1] += one.decided() ? 1 : 0;
        template[2] += one.tests();
        template[3] += one.minutes();
        decided += one.decided() ? 1 : 0;
        foundAll += one.found() > 0 ? 1 : 0;
        testsUntilFound += one.found();
        one.during().forEach(said -> {
            afterEach[bin(said.probability())].add(one.index(), said.probability(), said.isSo());
            ninetyAfterEach.addIf90(one.index(), said.probability(), said.isSo());
        });
        one.parts().forEach(part -> atEnd(one, part));
        casesWithOneOverExpected += one.clearedOver();
        casesWithOneOver += one.parts().stream()
                        .anyMatch(part -> part.tested()
                                && part.status() == Status.CLEARED
                                && part.said().isSo())
                ? 1
                : 0;
        deciding.add(one.tests(), one.fewestDeciding());
        decidingByTemplate
                .computeIfAbsent(one.template(), key -> new Compared())
                .add(one.tests(), one.fewestDeciding());
        finding.add(one.found(), one.fewestFinding());
    }

    private static int bin(double p) {
        return Math.min(BINS - 1, (int) (p * BINS));
    }

    private void atEnd(JudgedCase one, JudgedCase.Part part) {
        double p = part.said().probability();
        boolean isWorn = part.said().isSo();
        atEnd[bin(p)].add(one.index(), p, isWorn);
        ninetyAtEnd.addIf90(one.index(), p, isWorn);
        soundBlamed += !isWorn && part.status() == Status.OVER ? 1 : 0;
        if (part.status() == Status.CLEARED) {
            cleared++;
            clearedExpected += p;
        }
        if (!isWorn) {
            return;
        }
        worn++;
        if (part.status() == Status.OVER) {
            wornFound++;
        } else if (part.status() != Status.CLEARED) {
            wornOpen++;
        } else {
            passedOver++;
            passedOverNamed += !part.tested() || part.highest() >= CaseWords.DOUBT_WORTH_TELLING ? 1 : 0;
            line(
                    passed,
                    "- case %d, %s, %s: %.3f of its limit, said %.4f, at most %.4f; %s; one of the cleared: at most %.4f",
                    one.index(),
                    one.template(),
                    part.name(),
                    part.limits(),
                    p,
                    part.highest(),
                    part.tested() ? "tested" : "looked at",
                    one.clearedOver());
        }
    }

    String report() {
        StringBuilder text = new StringBuilder();
        line(text, "%d cases, %d decided; seed 7000003.", cases, decided);
        line(
                text,
                "%n| template | cases | decided | tests a case | minutes a case | tests until decided against one who knows all |");
        line(text, "|---|---|---|---|---|---|");
        byTemplate.forEach((name, sums) -> line(
                text,
                "| %s | %.0f | %.0f | %.2f | %.0f | %s |",
                name,
                sums[0],
                sums[1],
                sums[2] / sums[0],
                sums[3] / sums[0],
                decidingByTemplate.get(name).words()));
        line(
                text,
                "%n| said | after each test: times | mean of what was said | was so | at the end: times | mean | was so |");
        line(text, "|---|---|---|---|---|---|---|");
        for (int b = 0; b < BINS; b++) {
            line(text, "| %d to %d %% %s %s |", 10 * b, 10 * b + 10, row(afterEach[b]), row(atEnd[b]));
        }
        line(
                text,
                "%nCalled 90 %% (from 88 to 92 %%, either way): %s; at the end %s.",
                words(ninetyAfterEach),
                words(ninetyAtEnd));
        line(
                text,
                "Worn parts: %d; found %d, still open and named %d, cleared %d, of which %d are named as only looked at or with"
                        + " the doubt left. Sound parts blamed: %d.",
                worn,
                wornFound,
                wornOpen,
                passedOver,
                passedOverNamed,
                soundBlamed);
        text.append(passed);
        line(
                text,
                "Parts called cleared: %d; by what was said of them %.1f of these are worn.",
                cleared,
                clearedExpected);
        line(
                text,
                "Cases in which a part tested and cleared is worn: %d; said, with the priors that make it most: %.1f.",
                casesWithOneOver,
                casesWithOneOverExpected);
        line(
                text,
                "All worn parts found in %d cases, after %.2f tests.",
                foundAll,
                (double) testsUntilFound / foundAll);
        line(text, "Tests until decided, %s.", deciding.words());
        line(text, "Tests until every worn part is found, %s.", finding.words());
        return text.toString();
    }

    private static String row(Said said) {
        return said.times == 0
                ? "| 0 | | "
                : String.format(
                        Locale.ROOT,
                        "| %d | %.1f %% | %.1f ± %.1f %%",
                        said.times,
                        100 * said.said / said.times,
                        100 * said.share(),
                        100 * said.deviation());
    }

    private static String words(Said said) {
        return String.format(
                Locale.ROOT,
                "%d times, mean %.2f %%, so in %.2f ± %.2f %%",
                said.times,
                100 * said.said / said.times,
                100 * said.share(),
                100 * said.deviation());
    }

    private static void line(StringBuilder text, String format, Object... values) {
        text.append(String.format(Locale.ROOT, format, values)).append(System.lineSeparator());
    }
}
