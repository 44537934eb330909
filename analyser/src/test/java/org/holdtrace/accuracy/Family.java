package org.holdtrace.accuracy;

import java.util.Locale;
import java.util.Optional;

/** What is tested. The analyser never learns it; only the free text of a setup may hint at it. */
public enum Family {
    SPOOL_SOUND("spool port, sound", "spool valve port"),
    SPOOL_WORN("spool port, worn", "spool valve port"),
    SPOOL_PLATEAU("spool port, plateau only", "spool valve port"),
    DAMAGED_SEAT("damaged seat", "seat valve"),
    MIXED("clearance and seat", "spool valve port"),
    RELIEF_EARLY("relief opens early", "relief valve"),
    CYLINDER_TIGHT("cylinder, tight", "cylinder"),
    CYLINDER_LEAKING("cylinder, leaking", "cylinder"),
    CHECK_TIGHT("check valve, tight", "check valve"),
    CHECK_LEAKING("check valve, leaking", "check valve"),
    LINE_CHECK("line check", "test line");

    private final String label;
    private final String kind;

    Family(String label, String kind) {
        this.label = label;
        this.kind = kind;
    }

    /** Its name in reports. */
    public String label() {
        return label;
    }

    /** What a technician would write into the setup. */
    String kind() {
        return kind;
    }

    boolean isCylinder() {
        return this == CYLINDER_TIGHT || this == CYLINDER_LEAKING;
    }

    boolean isCheck() {
        return this == CHECK_TIGHT || this == CHECK_LEAKING;
    }

    /** The family whose constant or label is {@code name}, in any case. */
    public static Optional<Family> named(String name) {
        String wanted = name.strip().toUpperCase(Locale.ROOT).replace(' ', '_').replace('-', '_');
        for (Family family : values()) {
            if (family.name().equals(wanted) || family.label.equalsIgnoreCase(name.strip())) {
                return Optional.of(family);
            }
        }
        return Optional.empty();
    }
}
