package org.holdtrace.judge;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;

/** What was said of many machines against what was so. */
final class JudgeTally {
    private static final int BINS = 10;
    private static final double FROM_90 = 0.88;
    private static final double TO_90 = 0.92;
    private static final int REPORT_EVERY = 100;

    /** What was said, how often it was so. */
    private static final class Said {
        private int times;
        private double said;
        private int so;

        void add(double p, boolean isSo) {
            times++;
            said += p;
            so += isSo ? 1 : 0;
        }

        /** The same of what is called "90 %", either way. */
        void addIf90(double p, boolean isSo) {
            if (p >= FROM_90 && p <= TO_90) {
                add(p, isSo);
            } else if (1 - p >= FROM_90 && 1 - p <= TO_90) {
                add(1 - p, !isSo);
            }
        }
    }

    private final Said[] afterEach = new Said[BINS];
    private final Said[] atEnd = new Said[BINS];
    private final Said ninetyAfterEach = new Said();
    private final Said ninetyAtEnd = new Said();
    private final Map<String, int[]> byTemplate = new TreeMap<>();
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
    private int comparedDeciding;
    private int oursDeciding;
    private int fewestDeciding;
    private int comparedFinding;
    private int oursFinding;
    private int fewestFinding;

    JudgeTally() {
        for (int b = 0; b < BINS; b++) {
            afterEach[b] = new Said();
            atEnd[b] = new Said();
        }
    }

    /** A machine and what was said of it before any test and after each. */
    void add(InventedMachine machine, List<CaseFindings> all) {
        CaseFindings last = all.get(all.size() - 1);
        cases++;
        int[] template = byTemplate.computeIfAbsent(machine.template(), key -> new int[3]);
        template[0]++;
        template[2] += all.size() - 1;
        if (last.standing() == Standing.DECIDED) {
            decided++;
            template[1]++;
        }
        for (CaseFindings findings : all) {
            for (ElementFinding found : findings.elements()) {
                boolean isWorn = machine.isWorn(found.element().name());
                afterEach[bin(found.probability())].add(found.probability(), isWorn);
                ninetyAfterEach.addIf90(found.probability(), isWorn);
            }
        }
        last.elements().forEach(found -> atEnd(machine, last, found));
        if (cases % REPORT_EVERY == 0) {
            System.err.println(report());
        }
    }

    private static int bin(double p) {
        return Math.min(BINS - 1, (int) (p * BINS));
    }

    private void atEnd(InventedMachine machine, CaseFindings last, ElementFinding found) {
        String name = found.element().name();
        boolean isWorn = machine.isWorn(name);
        atEnd[bin(found.probability())].add(found.probability(), isWorn);
        ninetyAtEnd.addIf90(found.probability(), isWorn);
        soundBlamed += !isWorn && found.status() == Status.OVER ? 1 : 0;
        if (found.status() == Status.CLEARED) {
            cleared++;
            clearedExpected += found.probability();
        }
        if (!isWorn) {
            return;
        }
        worn++;
        if (found.status() == Status.OVER) {
            wornFound++;
        } else if (found.status() != Status.CLEARED) {
            wornOpen++;
        } else {
            passedOver++;
            boolean tested =
                    last.tests().stream().anyMatch(test -> test.reach().direct().contains(found.element()));
            passedOverNamed += !tested || found.highest() >= CaseWords.DOUBT_WORTH_TELLING ? 1 : 0;
            System.err.printf(
                    Locale.ROOT,
                    "passed over: %s, %s, %.3f of its limit, said %.4f, at most %.4f, %s%n",
                    machine.template(),
                    name,
                    machine.leaks().get(name) / CarriedLimits.of(machine.file()).get(name),
                    found.probability(),
                    found.highest(),
                    tested ? "tested" : "looked at");
        }
    }

    /** Tests asked for against the fewest that would have done; 0 where that is not known. */
    void compare(int ours, int fewest, int oursFound, int fewestFound) {
        if (fewest > 0) {
            comparedDeciding++;
            oursDeciding += ours;
            fewestDeciding += fewest;
        }
        if (fewestFound > 0) {
            comparedFinding++;
            oursFinding += oursFound;
            fewestFinding += fewestFound;
        }
    }

    String report() {
        StringBuilder text = new StringBuilder();
        line(text, "%d cases, %d decided; seed 7000003.%n", cases, decided);
        line(text, "| template | cases | decided | tests a case |");
        line(text, "|---|---|---|---|");
        byTemplate.forEach((name, counts) ->
                line(text, "| %s | %d | %d | %.2f |", name, counts[0], counts[1], (double) counts[2] / counts[0]));
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
        line(
                text,
                "Parts called cleared: %d; by what was said of them %.1f of these are worn.",
                cleared,
                clearedExpected);
        line(
                text,
                "Tests until decided, %d cases: %s.",
                comparedDeciding,
                ratio(oursDeciding, fewestDeciding, comparedDeciding));
        line(
                text,
                "Tests until every worn part is found, %d cases: %s.",
                comparedFinding,
                ratio(oursFinding, fewestFinding, comparedFinding));
        return text.toString();
    }

    private static String ratio(int ours, int fewest, int cases) {
        return String.format(
                Locale.ROOT,
                "%.2f a case, the fewest by one who knows all results %.2f, ratio %.3f",
                (double) ours / cases,
                (double) fewest / cases,
                (double) ours / fewest);
    }

    private static String row(Said said) {
        return String.format(
                Locale.ROOT,
                "| %d | %.1f %% | %.1f %%",
                said.times,
                100 * said.said / said.times,
                100.0 * said.so / said.times);
    }

    /** With the standard deviation there would be if all were independent. */
    private static String words(Said said) {
        double share = (double) said.so / said.times;
        return String.format(
                Locale.ROOT,
                "%d times, mean %.2f %%, so in %.2f ± %.2f %%",
                said.times,
                100 * said.said / said.times,
                100 * share,
                100 * Math.sqrt(share * (1 - share) / said.times));
    }

    private static void line(StringBuilder text, String format, Object... values) {
        text.append(String.format(Locale.ROOT, format, values)).append(System.lineSeparator());
    }
}
