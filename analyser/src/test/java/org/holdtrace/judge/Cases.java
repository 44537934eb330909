package org.holdtrace.judge;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.testdata.InventedTests;

/** Invented cases and results for tests of the judgement. */
final class Cases {
    static final double CM3_PER_MIN = 1e-6 / 60;

    /** A function whose limits are easy to reckon with. */
    static final String FUNCTION = """
            "name": "lift", "bore": "80 mm", "rod": "45 mm", "stroke": "500 mm", "spoolLimit": "12 cm3/min",
            "seatLimit": "4 cm3/min", "sealLimit": "0.2 cm3/min", "reliefSetting": "180 bar"
            """;

    private Cases() {}

    /** A case on a template; {@code more} are further fields of the file, each with a comma behind it. */
    static String text(String template, String function, String more) {
        return """
                { "machine": "Press 9", %s
                  "complaint": { "actuator": "lift", "direction": "retracts", "speed": "2.0 ± 0.2 mm/min",
                                 "loadPressure": "100 bar" },
                  "circuit": { "template": "%s", "functions": [ { %s } ] },
                  "referencePressure": "100 bar",
                  "testLine": { "ratings": [ { "part": "hose", "pressure": "250 bar" } ], "volume": "20 cm3" } }
                """.formatted(more, template, function);
    }

    static CaseFile read(String text) throws IOException {
        return CaseReader.read(text.getBytes(StandardCharsets.UTF_8), "x.case.json");
    }

    static CaseFile of(String template, String more) throws IOException {
        return read(text(template, FUNCTION, more));
    }

    /** The elements of these names. */
    static List<Element> elements(Circuit circuit, String... names) {
        return List.of(names).stream().map(circuit::element).toList();
    }

    static CaseTest test(String name, String node, List<String> open, List<String> blanked) {
        return new CaseTest(name, name + ".hold", 1, node, List.of(), open, List.of(), blanked, OptionalDouble.empty());
    }

    /** A test whose leak, in cm³/min, has this standard uncertainty, by this law; none where the leak is 0. */
    static MeasuredTest measured(CaseTest test, double leak, double uncertainty, Law law) {
        HoldTestResult with = InventedTests.wornPort().result();
        Law told = leak == 0 ? Law.NONE : law;
        Map<Law, Double> weights = new EnumMap<>(Law.class);
        weights.put(told, 0.9);
        weights.put(told == Law.MIXED ? Law.LAMINAR : Law.MIXED, 0.1);
        HoldTestResult result = new HoldTestResult(
                with.holdTest(),
                with.compliance(),
                Optional.of(new HoldTestResult.Leak(
                        leak * CM3_PER_MIN,
                        Math.max(0, leak - 1.96 * uncertainty) * CM3_PER_MIN,
                        (leak + 1.96 * uncertainty) * CM3_PER_MIN,
                        100e5,
                        told,
                        weights,
                        uncertainty * CM3_PER_MIN)),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(),
                Optional.empty());
        return new MeasuredTest(test, TestSetup.unknown(), result, Optional.of(result));
    }
}
