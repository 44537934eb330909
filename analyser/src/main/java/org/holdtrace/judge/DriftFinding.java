package org.holdtrace.judge;

import java.util.List;

/**
 * Whether the leaks found explain the drift complained of.
 *
 * @param outcome the answer
 * @param tests names of the tests whose leaks are counted
 * @param leakM3PerS their leak at the pressure of the load, m³/s
 * @param leakLower95 lower end of its 95 % interval
 * @param leakUpper95 upper end
 * @param atPa pressure of the load, Pa
 * @param areaM2 area that carries the load, m²
 * @param speedMPerS rod speed that leak gives, leak over area, m/s
 * @param speedLower95 lower end of its 95 % interval
 * @param speedUpper95 upper end
 * @param complainedMPerS speed complained of, m/s
 * @param said the answer in sentences, with what shut ports mean for it
 */
public record DriftFinding(
        Outcome outcome,
        List<String> tests,
        double leakM3PerS,
        double leakLower95,
        double leakUpper95,
        double atPa,
        double areaM2,
        double speedMPerS,
        double speedLower95,
        double speedUpper95,
        double complainedMPerS,
        List<String> said) {
    public DriftFinding {
        tests = List.copyOf(tests);
        said = List.copyOf(said);
    }

    /** The answer. */
    public enum Outcome {
        /** The leaks found give the drift complained of, or more. */
        EXPLAINS("explains it"),
        /** They give at least a tenth of it. */
        EXPLAINS_PART("explains a part"),
        /** They give less. */
        CANNOT_EXPLAIN("cannot explain it");

        private final String label;

        Outcome(String label) {
            this.label = label;
        }

        /** The words used in output. */
        public String label() {
            return label;
        }
    }
}
