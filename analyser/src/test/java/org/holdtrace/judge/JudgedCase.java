package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;

/**
 * What was said of one invented machine, and what was so; a line of the benchmark's file.
 *
 * @param index which machine
 * @param template its circuit
 * @param decided whether the case was decided
 * @param tests tests asked for
 * @param minutes time the plans gave for them
 * @param found after how many tests all worn parts were called over their limits; 0 where none is worn or that never came
 * @param fewestDeciding what one who knows all results beforehand needs to decide the case
 * @param fewestFinding what that one needs until all worn parts are called over their limits
 * @param during every probability said before any and after each test
 * @param parts what was said of each part at the end
 * @param clearedOver probability said at the end that one of the parts tested and cleared is over its limit
 */
record JudgedCase(
        int index,
        String template,
        boolean decided,
        int tests,
        double minutes,
        int found,
        Fewest fewestDeciding,
        Fewest fewestFinding,
        List<Said> during,
        List<Part> parts,
        double clearedOver) {
    /** A probability said, and whether it was so. */
    record Said(double probability, boolean isSo) {
        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%.6g", probability) + (isSo ? "+" : "-");
        }

        static Said of(String text) {
            int end = text.length() - 1;
            return new Said(Double.parseDouble(text.substring(0, end)), text.charAt(end) == '+');
        }
    }

    /** A number of tests; where the search was given up it is the least it can be, and not known; 0 where not asked for. */
    record Fewest(int tests, boolean isKnown) {
        static final Fewest NOT_ASKED = new Fewest(0, false);

        @Override
        public String toString() {
            return tests + (isKnown ? "=" : ">");
        }

        static Fewest of(String text) {
            int end = text.length() - 1;
            return new Fewest(Integer.parseInt(text.substring(0, end)), text.charAt(end) == '=');
        }
    }

    /** A part at the end; {@code limits}: how many limits it leaks. */
    record Part(String name, Said said, double highest, Status status, boolean tested, double limits) {
        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%s,%s,%.6g,%s,%s,%.6g", name, said, highest, status, tested, limits);
        }

        static Part of(String text) {
            String[] of = text.split(",", -1);
            return new Part(
                    of[0],
                    Said.of(of[1]),
                    Double.parseDouble(of[2]),
                    Status.valueOf(of[3]),
                    Boolean.parseBoolean(of[4]),
                    Double.parseDouble(of[5]));
        }
    }

    /** {@code all}: the findings before any and after each test. */
    static JudgedCase of(
            int index,
            InventedMachine machine,
            List<CaseFindings> all,
            double minutes,
            Fewest deciding,
            Fewest finding) {
        CaseFindings last = all.get(all.size() - 1);
        List<Said> during = new ArrayList<>();
        for (CaseFindings findings : all) {
            for (ElementFinding found : findings.elements()) {
                during.add(new Said(
                        found.probability(), machine.isWorn(found.element().name())));
            }
        }
        List<Part> parts = new ArrayList<>();
        for (ElementFinding found : last.elements()) {
            String name = found.element().name();
            parts.add(new Part(
                    name,
                    new Said(found.probability(), machine.isWorn(name)),
                    found.highest(),
                    found.status(),
                    last.tests().stream().anyMatch(test -> test.reach().direct().contains(found.element())),
                    machine.leaks().get(name) / CarriedLimits.of(machine.file()).get(name)));
        }
        return new JudgedCase(
                index,
                machine.template(),
                last.standing() == Standing.DECIDED,
                all.size() - 1,
                minutes,
                found(all, machine),
                deciding,
                finding,
                during,
                parts,
                last.probabilityClearedOver());
    }

    /** After how many tests all worn parts were called over their limits; 0 where that never came. */
    static int found(List<CaseFindings> all, InventedMachine machine) {
        for (int i = 1; i < all.size(); i++) {
            if (all.get(i).elements().stream()
                    .allMatch(each -> !machine.isWorn(each.element().name()) || each.status() == Status.OVER)) {
                return i;
            }
        }
        return 0;
    }

    @Override
    public String toString() {
        return String.format(
                Locale.ROOT,
                "%d;%s;%s;%d;%.1f;%d;%s;%s;%s;%s;%.6g",
                index,
                template,
                decided,
                tests,
                minutes,
                found,
                fewestDeciding,
                fewestFinding,
                joined(during),
                joined(parts),
                clearedOver);
    }

    private static String joined(List<?> all) {
        return String.join("|", all.stream().map(Object::toString).toList());
    }

    /** From its line. */
    static JudgedCase of(String line) {
        String[] of = line.split(";", -1);
        return new JudgedCase(
                Integer.parseInt(of[0]),
                of[1],
                Boolean.parseBoolean(of[2]),
                Integer.parseInt(of[3]),
                Double.parseDouble(of[4]),
                Integer.parseInt(of[5]),
                Fewest.of(of[6]),
                Fewest.of(of[7]),
                List.of(of[8].split("\\|", -1)).stream().map(Said::of).toList(),
                List.of(of[9].split("\\|", -1)).stream().map(Part::of).toList(),
                Double.parseDouble(of[10]));
    }
}
