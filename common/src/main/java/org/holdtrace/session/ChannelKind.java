package org.holdtrace.session;

/** What a channel measures. The labels stand in the file. */
public enum ChannelKind {
    /** Gauge pressure at the port under test, Pa. A session has one at least. */
    PRESSURE("pressure"),
    /** Gauge pressure elsewhere, Pa. */
    SECOND_PRESSURE("second pressure"),
    /** Temperature of the oil, K. */
    OIL_TEMPERATURE("oil temperature"),
    /** Temperature of the surroundings, K. */
    AMBIENT_TEMPERATURE("ambient temperature"),
    /** What the transducers are supplied with, V: a ratiometric signal is a share of it. */
    SUPPLY("supply voltage"),
    /** Something that a later version knows. */
    OTHER("other");

    private final String label;

    ChannelKind(String label) {
        this.label = label;
    }

    /** The word in the file. */
    public String label() {
        return label;
    }

    /** The kind of that label, {@link #OTHER} where it is not known. */
    public static ChannelKind of(String label) {
        for (ChannelKind kind : values()) {
            if (kind.label.equals(label)) {
                return kind;
            }
        }
        return OTHER;
    }
}
