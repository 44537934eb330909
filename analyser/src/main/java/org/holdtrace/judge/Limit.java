package org.holdtrace.judge;

import java.util.OptionalDouble;
import org.holdtrace.quantity.Require;

/**
 * What an element may leak.
 *
 * @param m3PerS largest leak that is still in order, m³/s
 * @param atPa pressure it is stated for, Pa; empty: at the pressure the case states its leaks at
 * @param atTemperatureK oil temperature it is stated for, K; empty: at that of the case
 * @param basis who says so
 * @param source publication with edition and clause, or "the maker's figure"
 */
public record Limit(double m3PerS, OptionalDouble atPa, OptionalDouble atTemperatureK, Basis basis, String source) {
    public Limit {
        Require.positive(m3PerS, "limit", "m3/s");
    }

    /** Who says what a limit is. */
    public enum Basis {
        /** The maker of the part, who comes first. */
        MAKER("maker"),
        /** A published standard, read in a document that quotes it. */
        STANDARD("standard, read in a document that quotes it"),
        /** A published standard, from memory: look it up before anything depends on it. */
        STANDARD_FROM_MEMORY("standard, from memory: look it up before anything depends on it"),
        /** What the trade does, without a published source. */
        COMMON_PRACTICE("common practice, no source");

        private final String label;

        Basis(String label) {
            this.label = label;
        }

        /** The words used in output. */
        public String label() {
            return label;
        }
    }

    /** The maker's figure. */
    public static Limit ofMaker(double m3PerS, OptionalDouble atPa, OptionalDouble atTemperatureK) {
        return new Limit(m3PerS, atPa, atTemperatureK, Basis.MAKER, "the maker's figure");
    }
}
