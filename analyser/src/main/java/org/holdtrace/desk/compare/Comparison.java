package org.holdtrace.desk.compare;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/**
 * Leak rates of several hold tests at one pressure. Leaks grow with pressure, so rates at different pressures say
 * nothing of one another: all are taken at the lowest pressure any of them is stated at.
 *
 * @param tests the hold tests; the first is what the others are compared with
 * @param atPa the pressure, Pa; empty where none of them has a leak rate
 */
public record Comparison(List<Compared> tests, OptionalDouble atPa) {
    /** What two intervals say of each other. */
    public enum Difference {
        /** The second leaks less, beyond both intervals. */
        LESS,
        /** The second leaks more, beyond both intervals. */
        MORE,
        /** The intervals overlap: no difference that can be told. */
        NONE_TO_TELL,
        /** One of them has no rate at that pressure. */
        UNKNOWN
    }

    public Comparison {
        tests = List.copyOf(tests);
    }

    /** Compares {@code tests} with the first of them. */
    public static Comparison of(List<Compared> tests) {
        return new Comparison(
                tests,
                tests.stream()
                        .flatMap(each -> each.result().leak().stream())
                        .mapToDouble(leak -> leak.atPa())
                        .min());
    }

    /** The rate of test {@code i} at the pressure all are compared at. */
    public Optional<Compared.Rate> rate(int i) {
        return atPa.isEmpty() ? Optional.empty() : tests.get(i).rateAt(atPa.getAsDouble());
    }

    /** How test {@code i} differs from the first. */
    public Difference difference(int i) {
        Optional<Compared.Rate> first = rate(0);
        Optional<Compared.Rate> other = rate(i);
        if (first.isEmpty() || other.isEmpty()) {
            return Difference.UNKNOWN;
        }
        if (other.get().upper95() < first.get().lower95()) {
            return Difference.LESS;
        }
        return other.get().lower95() > first.get().upper95() ? Difference.MORE : Difference.NONE_TO_TELL;
    }

    /** The difference in a few words: "leaks less, beyond both intervals". */
    public String words(int i) {
        if (i == 0) {
            return "what the others are compared with";
        }
        return switch (difference(i)) {
            case LESS -> "leaks less, beyond both intervals";
            case MORE -> "leaks more, beyond both intervals";
            case NONE_TO_TELL -> "no difference that can be told: the intervals overlap";
            case UNKNOWN -> "not to be told: a rate at this pressure is missing";
        };
    }

    /** "1.21 (1.05 to 1.38)", or why there is none. */
    public String rateWords(int i, ShownUnits units) {
        return rate(i).map(each -> Phrases.rateWithInterval(each.m3PerS(), each.lower95(), each.upper95(), units))
                .orElse(tests.get(i).result().leak().isEmpty() ? "no leak rate" : "not measured at this pressure");
    }

    /** What stands above the rates: "leak at 118 bar [cm³/min], 95 %". */
    public String heading(ShownUnits units) {
        return atPa.isEmpty()
                ? "leak"
                : "leak at " + Phrases.pressure(atPa.getAsDouble(), units) + " [" + ShownUnits.name(units.flow())
                        + "], 95 %";
    }
}
