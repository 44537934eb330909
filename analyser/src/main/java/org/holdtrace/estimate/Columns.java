package org.holdtrace.estimate;

/**
 * The terms of the volume balance, in the order the reduction stores them. Working units of this package are bar, cm³
 * and s, in which everything is of order one; SI is left on entry and taken up again on the way out.
 *
 * <p>Every row of the reduced data says: the sum over columns of (coefficient × column) is a constant, but for noise.
 */
final class Columns {
    /** Pressure, bar: compliance that does not change with pressure. */
    static final int PRESSURE = 0;
    /** ln(1 + μp)/μ − p: what a modulus that grows with pressure takes off, bar. */
    static final int STIFFENING = 1;
    /** −p²/2: a hose that stiffens, bar². */
    static final int HOSE_CURVE = 2;
    /** 1 − p_a/(p_a + p): entrained air compressed isothermally. */
    static final int AIR = 3;
    /** Volume the air keeps for being warm from compression, bubbles that cool in {@link #AIR_COOLING_S}[0]. */
    static final int AIR_WARM = 4;
    /** Share of the compressed air that has gone into solution. */
    static final int AIR_DISSOLVED = 6;
    /** Time, s: a steady drift of temperature. */
    static final int TIME = 7;
    /** What a straight line through the recorded oil temperature has risen by, K. */
    static final int OIL_TEMPERATURE = 8;
    /** What a straight line through the recorded ambient temperature has risen by, K. */
    static final int AMBIENT_TEMPERATURE = 9;
    /** Number of full strokes delivered. */
    static final int STROKES = 10;
    /** 1 once the oil has been caught, else 0. */
    static final int BLED = 11;
    /** Sum of the pressures the full strokes ended at, bar: what a pump delivers less of, the higher it pumps. */
    static final int STROKES_BAR = 12;
    /** ∫ p dt, bar s: laminar leak. */
    static final int LAMINAR = 13;
    /** ∫ √p dt, bar^½ s: orifice leak. */
    static final int ORIFICE = 14;
    /** ∫ p² dt, bar² s: what a clearance passes more or less of than in proportion to pressure. */
    static final int LAMINAR_CURVE = 15;
    /** First of the low-passed pressures, one a time constant of {@link #RELAXATION_S}. */
    static final int RELAXATION = 16;

    /**
     * Time constants (s) at which heat may leave the oil and a hose may creep. A factor of 2 apart: sums of two
     * neighbours imitate any time constant between them to better than a hundredth of the amplitude.
     */
    static final double[] RELAXATION_S = {0.75, 1.5, 3, 6, 12, 24, 48, 96, 192, 384, 768, 1536, 3072};

    /** Times in which bubbles give off the heat of compression, s: small ones at once, pockets slowly. */
    static final double[] AIR_COOLING_S = {0.3, 3};

    /** (κ − 1)/κ of air: what the logarithm of temperature gains with that of pressure in adiabatic compression. */
    static final double AIR_HEATING = 2.0 / 7.0;

    /** How many opening pressures are tried for a valve that opens too early. */
    static final int THRESHOLDS = 12;
    /** First of ∫ max(0, p − p_c) dt, bar s. */
    static final int THRESHOLD = RELAXATION + RELAXATION_S.length;
    /** First of ∫ [p > p_c] dt, s: what a small change of p_c does. */
    static final int OPEN_TIME = THRESHOLD + THRESHOLDS;

    static final int COUNT = OPEN_TIME + THRESHOLDS;

    /** Atmospheric pressure, bar (standard atmosphere). */
    static final double ATMOSPHERE_BAR = 1.01325;

    private Columns() {}
}
