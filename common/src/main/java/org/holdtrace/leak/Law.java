package org.holdtrace.leak;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;

/** How leak flow depends on pressure. The labels are those of the machine-readable output. */
public enum Law {
    /** No leak that can be told from zero. */
    NONE("none"),
    /** A clearance: q = a p. */
    LAMINAR("laminar"),
    /** A damaged seat: q = b √p. */
    ORIFICE("orifice"),
    /** Both: q = a p + b √p. */
    MIXED("mixed"),
    /** A valve that opens too early: q = g max(0, p − p_c). */
    THRESHOLD("threshold");

    private final String label;

    Law(String label) {
        this.label = label;
    }

    /** The word used in output and on screens. */
    public String label() {
        return label;
    }

    /** A copy in the order of the laws: sums over its values come out the same, to the last digit, in every run. */
    public static <V> Map<Law, V> ordered(Map<Law, V> values) {
        Map<Law, V> copy = new EnumMap<>(Law.class);
        copy.putAll(values);
        return Collections.unmodifiableMap(copy);
    }
}
