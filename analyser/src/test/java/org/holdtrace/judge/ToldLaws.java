package org.holdtrace.judge;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.SplittableRandom;
import org.holdtrace.leak.Law;

/**
 * What the analyser said of the law of leaks whose law is known: 600 of 880 hold tests simulated down to the trace, all that
 * leak and were told from zero (the accuracy benchmark, plain, seed 1, its columns of true law and weights).
 */
final class ToldLaws {
    private static final List<Law> LAWS = List.of(Law.LAMINAR, Law.ORIFICE, Law.MIXED, Law.THRESHOLD);
    private static final Map<Law, List<Map<Law, Double>>> BY_TRUE_LAW = read();

    private ToldLaws() {}

    /** What is said of one leak of that law. */
    static Map<Law, Double> draw(Law law, SplittableRandom random) {
        List<Map<Law, Double>> said = BY_TRUE_LAW.get(law);
        return said.get(random.nextInt(said.size()));
    }

    private static Map<Law, List<Map<Law, Double>>> read() {
        Map<Law, List<Map<Law, Double>>> all = new EnumMap<>(Law.class);
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(ToldLaws.class.getResourceAsStream("told-laws.csv")), StandardCharsets.UTF_8))) {
            lines.lines().skip(1).map(line -> line.split(",", -1)).forEach(cells -> {
                Map<Law, Double> weights = new EnumMap<>(Law.class);
                for (int i = 0; i < LAWS.size(); i++) {
                    weights.put(LAWS.get(i), Double.parseDouble(cells[i + 1]));
                }
                all.computeIfAbsent(labelled(cells[0]), key -> new ArrayList<>())
                        .add(weights);
            });
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return all;
    }

    private static Law labelled(String label) {
        return LAWS.stream()
                .filter(law -> law.label().equals(label))
                .findFirst()
                .orElseThrow();
    }
}
