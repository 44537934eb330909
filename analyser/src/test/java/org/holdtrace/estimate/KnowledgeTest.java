package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdtrace.session.TestSetup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class KnowledgeTest {
    private static Prior air(String stated) {
        return Knowledge.of(
                        new Known().air(stated).setup(), Double.NaN, 100, OilKnowledge.of(TestSetup.unknown()), true)
                .prior(Knowledge.AIR);
    }

    /** The moments are those of the half-normal distribution, mean u √(2/π) and variance u² (1 − 2/π): textbook. */
    @ParameterizedTest
    @CsvSource({"0 ± 0.3 %, 0.003", "0.1 ± 0.3 %, 0.003", "0 %, 0.0001"})
    void airStatedAsNoneIsSpreadAsAHalfNormal(String stated, double u) {
        Prior air = air(stated);
        assertTrue(air.logarithmic());
        double sum = 0;
        double squares = 0;
        int n = 20_000;
        for (int i = 0; i < n; i++) {
            // Sum over the standard normal density, ±8 standard deviations.
            double x = -8 + 16 * (i + 0.5) / n;
            double weight = 16.0 / n * Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
            sum += weight * air.at(x);
            squares += weight * air.at(x) * air.at(x);
        }
        assertEquals(0.797885 * u, sum, 1e-5 * u);
        assertEquals(0.363380 * u * u, squares - sum * sum, 1e-4 * u * u);
    }

    @Test
    void airStatedWithoutUncertaintyIsNotExact() {
        assertEquals(0.005, air("0.5 %").centre());
        assertEquals(Prior.LEAST_AIR, air("0.5 %").spread());
    }
}
