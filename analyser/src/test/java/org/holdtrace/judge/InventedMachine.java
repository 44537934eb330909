package org.holdtrace.judge;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.testdata.InventedTests;

/**
 * A machine with a complaint whose parts are worn or sound as drawn, and tests of it whose results err as hold tests do.
 * Drawn as {@code docs/case.md} says parts fail and leak; what is measured is drawn in its own way.
 *
 * @param template which circuit
 * @param file the case as the judgement gets it
 * @param leaks true leak of each element at the pressure of the case, m³/s
 * @param laws true law of each element
 * @param seed of what is measured
 */
record InventedMachine(String template, CaseFile file, Map<String, Double> leaks, Map<String, Law> laws, long seed) {
    /** Share of a sum of leaks from which on its law is that of the sum; hold tests of less are those of both laws at once. */
    private static final double MOST_OF_IT = 0.8;

    private static final List<String> TEMPLATES =
            List.of("single cylinder", "load-holding valve", "pilot-check clamp", "valve bank", "single cylinder");

    /** {@code wornOdds}: by how much parts are worn more often than the judgement takes for granted, in odds. */
    static InventedMachine draw(SplittableRandom random, int index, double wornOdds) {
        String template = TEMPLATES.get(index % TEMPLATES.size());
        double spool = logUniform(random, 4, 20);
        double seat = logUniform(random, 0.5, 6);
        double seal = logUniform(random, 0.1, 0.5);
        String function = """
                "name": "lift", "bore": "80 mm", "rod": "45 mm", "stroke": "500 mm", "spoolLimit": "%s cm3/min",
                "seatLimit": "%s cm3/min", "sealLimit": "%s cm3/min", "reliefSetting": "180 bar"
                """.formatted(spool, seat, seal);
        if (template.equals("load-holding valve") && random.nextInt(2) == 0) {
            function += ", \"centre\": \"open to tank\"";
        }
        if (template.equals("valve bank")) {
            function += " }, { " + function.replace("\"lift\"", "\"tilt\"");
        }
        String direction = template.equals("load-holding valve") || random.nextInt(3) > 0 ? "retracts" : "extends";
        return draw(random, template, function, direction, wornOdds);
    }

    /** One of a given circuit. */
    static InventedMachine draw(
            SplittableRandom random, String template, String function, String direction, double wornOdds) {
        CaseFile bare = read(Cases.text(template, function, "").replace("retracts", direction));
        Map<String, Boolean> worn = worn(bare, random, wornOdds);
        StringBuilder looks = new StringBuilder();
        Map<String, Double> leaks = new HashMap<>();
        Map<String, Law> laws = new HashMap<>();
        Map<String, Double> limits = CarriedLimits.of(bare);
        for (Element element : bare.circuit().elements()) {
            boolean over = worn.get(element.name());
            leaks.put(
                    element.name(),
                    limits.get(element.name()) * LeakSize.quantile(element.kind(), over, random.nextDouble()));
            laws.put(element.name(), law(element.kind(), random));
            if (element.kind().leaksOutside()) {
                boolean wet = over == (random.nextDouble() >= 0.03);
                looks.append(looks.isEmpty() ? "" : ", ")
                        .append("{ \"name\": \"" + element.name() + "\", \"seen\": \"" + (wet ? "wet" : "dry")
                                + "\" }");
            }
        }
        CaseFile file = read(Cases.text(template, function, "\"elements\": [ " + looks + " ],")
                .replace("retracts", direction));
        return new InventedMachine(template, file, leaks, laws, random.nextLong());
    }

    private static CaseFile read(String text) {
        try {
            return Cases.read(text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** As often as the priors say, and complained of a twentieth as often with every part of the path in order. */
    private static Map<String, Boolean> worn(CaseFile file, SplittableRandom random, double odds) {
        while (true) {
            Map<String, Boolean> worn = new HashMap<>();
            file.circuit()
                    .elements()
                    .forEach(element -> worn.put(
                            element.name(),
                            random.nextDouble() * (1 - element.prior() + odds * element.prior())
                                    < odds * element.prior()));
            boolean cause =
                    file.circuit().pathOf(file.complaint()).stream().anyMatch(element -> worn.get(element.name()));
            if (cause || random.nextDouble() < 0.05) {
                return worn;
            }
        }
    }

    private static Law law(ElementKind kind, SplittableRandom random) {
        double left = random.nextDouble();
        for (Law law : List.of(Law.LAMINAR, Law.ORIFICE, Law.MIXED)) {
            left -= kind.probabilityOf(law);
            if (left < 0) {
                return law;
            }
        }
        return Law.THRESHOLD;
    }

    private static double logUniform(SplittableRandom random, double from, double to) {
        return from * Math.pow(to / from, random.nextDouble());
    }

    boolean isWorn(String name) {
        return leaks.get(name) > CarriedLimits.of(file).get(name);
    }

    /**
     * The sum of what it implicates, 2 to 6 % off, or by what such a test cannot resolve. A test of the same parts gives the
     * same whenever it is made.
     */
    MeasuredTest measure(CaseTest test, Reach reach) {
        Set<String> names = new TreeSet<>();
        reach.direct().forEach(element -> names.add(element.name()));
        SplittableRandom random = new SplittableRandom(seed + names.hashCode());
        double sum = 0;
        double smallestLimit = Double.POSITIVE_INFINITY;
        Map<Law, Double> byLaw = new EnumMap<>(Law.class);
        for (Element element : reach.direct()) {
            sum += leaks.get(element.name());
            smallestLimit = Math.min(smallestLimit, CarriedLimits.of(file).get(element.name()));
            byLaw.merge(laws.get(element.name()), leaks.get(element.name()), Double::sum);
        }
        double resolved = smallestLimit * logUniform(random, 0.03, 0.12);
        double sd = Math.hypot(sum * logUniform(random, 0.02, 0.06), resolved);
        double estimate = sum + sd * random.nextGaussian();
        boolean none = estimate < 2 * resolved;
        double told = Math.max(0, estimate);
        Map<Law, Double> weights = none ? Map.of(Law.NONE, 1.0) : ToldLaws.draw(ofSum(byLaw, sum), random);
        HoldTestResult with = InventedTests.wornPort().result();
        HoldTestResult result = new HoldTestResult(
                with.holdTest(),
                with.compliance(),
                Optional.of(new HoldTestResult.Leak(
                        told,
                        none ? 0 : Math.max(0, estimate - 1.96 * sd),
                        Math.max(told, estimate) + 1.96 * sd,
                        file.referencePa(),
                        none ? Law.NONE : best(weights),
                        weights,
                        2 * resolved)),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(),
                Optional.empty());
        return new MeasuredTest(test, TestSetup.unknown(), result, Optional.of(result));
    }

    /** Leaks of one law add up to one of that law; a clearance and a seat, neither of which is most of it, are both. */
    private static Law ofSum(Map<Law, Double> leaks, double sum) {
        double both = leaks.getOrDefault(Law.MIXED, 0.0) / 2;
        for (Law law : List.of(Law.LAMINAR, Law.ORIFICE, Law.THRESHOLD)) {
            if (leaks.getOrDefault(law, 0.0) + (law == Law.THRESHOLD ? 0 : both) > MOST_OF_IT * sum) {
                return law;
            }
        }
        return Law.MIXED;
    }

    private static Law best(Map<Law, Double> weights) {
        return weights.entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .orElseThrow()
                .getKey();
    }
}
