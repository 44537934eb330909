package org.holdtrace.leak;

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
}
