package org.holdtrace.desk.classroom;

import org.holdtrace.leak.LeakLaw;
import org.holdtrace.quantity.Unit;

/** What can be the matter with the simulated line. Sizes are those of the invented demo workshop, at 120 bar. */
enum Fault {
    /** As good as tight. */
    SOUND("1", "sound", 0.02),
    /** A cut piston seal: a clearance that should not be there. */
    SEAL("2", "cut seal", 3),
    /** A worn spool: a clearance that has become too wide. */
    SPOOL("3", "worn spool", 36),
    /** A nick in a seat: a hole. */
    SEAT("4", "nicked seat", 6),
    /** A relief that opens at {@value #RELIEF_OPENS_BAR} bar. */
    RELIEF("5", "early relief", 4);

    /** Least and greatest badness. */
    static final int SLIGHT = 0;

    static final int BAD = 2;

    private static final double[] FACTORS = {1.0 / 3, 1, 3};
    private static final String[] WORDS = {" · slight", "", " · bad"};
    private static final double AT_BAR = 120;
    private static final double RELIEF_OPENS_BAR = 90;

    private final String key;
    private final String words;
    private final double cm3PerMin;

    Fault(String key, String words, double cm3PerMin) {
        this.key = key;
        this.words = words;
        this.cm3PerMin = cm3PerMin;
    }

    /** The key that brings it about. */
    String key() {
        return key;
    }

    /** In two words. */
    String words() {
        return words;
    }

    /** The same with how bad it is. */
    String words(int badness) {
        return this == SOUND ? words : words + WORDS[badness];
    }

    /** Where oil is lost; three times as much with each step of {@code badness} from 0 to 2. */
    LeakLaw law(int badness) {
        double atPa = Unit.BAR.toSi(AT_BAR);
        double flow = Unit.CM3_PER_MIN.toSi(cm3PerMin) * (this == SOUND ? 1 : FACTORS[badness]);
        return switch (this) {
            case SOUND, SEAL, SPOOL -> new LeakLaw.Laminar(flow / atPa);
            case SEAT -> new LeakLaw.Orifice(flow / Math.sqrt(atPa));
            case RELIEF -> {
                double opensPa = Unit.BAR.toSi(RELIEF_OPENS_BAR);
                yield new LeakLaw.Threshold(flow / (atPa - opensPa), opensPa);
            }
        };
    }
}
