package org.holdtrace.judge;

import org.holdtrace.leak.Law;

/**
 * Kinds of elements oil can leak through. What is said here of how often and by which law a kind leaks is a starting
 * point without a published source, save the ratio of 19 to 1 between a port's relief and anti-cavitation valves and its
 * spool bore, which is common practice (no source); a case file may state its own, and a finding that hangs on them says
 * so ({@code docs/case.md}).
 */
public enum ElementKind {
    /** Seal between the two sides of a cylinder. */
    PISTON_SEAL("piston seal", false, 0.05, 0.45, 0.25, 0.25, 0.05),
    /** Seal between the rod side and the world. */
    ROD_SEAL("rod seal", false, 0.03, 0.45, 0.25, 0.25, 0.05),
    /** Gap between spool and bore, which leaks by design. */
    SPOOL_CLEARANCE("spool clearance", true, 0.005, 0.82, 0.04, 0.12, 0.02),
    /** Relief valve of a work port. */
    PORT_RELIEF("port relief valve", false, 0.06, 0.10, 0.35, 0.20, 0.35),
    /** Check valve that lets oil into a work port. */
    ANTI_CAVITATION("anti-cavitation valve", false, 0.035, 0.10, 0.55, 0.30, 0.05),
    /** Valve that holds a load and opens by pilot or above its setting. */
    LOAD_HOLDING("load-holding valve", false, 0.06, 0.10, 0.40, 0.20, 0.30),
    /** Check valve opened by a pilot. */
    PILOT_CHECK("pilot check valve", false, 0.06, 0.10, 0.55, 0.30, 0.05),
    /** Check valve between pump and spool. */
    LOAD_CHECK("load check valve", false, 0.03, 0.10, 0.55, 0.30, 0.05),
    /** Hose or tube with its fittings: joins two nodes and may leak to the outside. */
    LINE("line", false, 0.01, 0.15, 0.60, 0.20, 0.05);

    private final String label;
    private final boolean leaksByDesign;
    private final double usuallyWorn;
    private final double laminar;
    private final double orifice;
    private final double mixed;
    private final double threshold;

    ElementKind(
            String label,
            boolean leaksByDesign,
            double usuallyWorn,
            double laminar,
            double orifice,
            double mixed,
            double threshold) {
        this.label = label;
        this.leaksByDesign = leaksByDesign;
        this.usuallyWorn = usuallyWorn;
        this.laminar = laminar;
        this.orifice = orifice;
        this.mixed = mixed;
        this.threshold = threshold;
    }

    /** The word used in case files, output and on screens. */
    public String label() {
        return label;
    }

    /** Whether a sound one leaks too (a clearance), or is tight by design (a poppet, a check, an elastomer seal). */
    public boolean leaksByDesign() {
        return leaksByDesign;
    }

    /** Probability that such an element is over its limit before anything is known, complaint included. */
    public double usuallyWorn() {
        return usuallyWorn;
    }

    /** Whether a leak of it comes out where it can be seen. */
    public boolean leaksOutside() {
        return this == ROD_SEAL || this == LINE;
    }

    /**
     * Whether oil goes freely through it from {@link Element#to} to {@link Element#from}: it is tight only the other way, and
     * a test that presses its far side presses both.
     */
    public boolean opensTowardsFrom() {
        return this == LOAD_HOLDING || this == PILOT_CHECK || this == LOAD_CHECK;
    }

    /** Probability that such an element, where it leaks, leaks by {@code law}; those of the four laws sum to 1. */
    public double probabilityOf(Law law) {
        return switch (law) {
            case LAMINAR -> laminar;
            case ORIFICE -> orifice;
            case MIXED -> mixed;
            case THRESHOLD -> threshold;
            case NONE -> 0;
        };
    }

    /** Exponent of pressure by which its limit is carried to another pressure: 1 for clearances and seals, ½ for seats. */
    public double pressureExponent() {
        return this == SPOOL_CLEARANCE || this == PISTON_SEAL || this == ROD_SEAL ? 1 : 0.5;
    }
}
