package org.holdtrace.adc;

/**
 * Full scale of an ADS1115: one count is a 32768th of it. It scales and does not protect: the pins must stay between
 * 0.3 V below ground and 0.3 V above the chip's own supply (data sheet SBAS444, absolute maximum ratings).
 */
public enum Ads1115Range {
    V6_144(6.144, 0),
    V4_096(4.096, 1),
    V2_048(2.048, 2),
    V1_024(1.024, 3),
    V0_512(0.512, 4),
    V0_256(0.256, 5);

    private static final int COUNTS = 32_768;

    /** Copied once: the simulated converter looks its range up for every conversion. */
    private static final Ads1115Range[] BY_CODE = values();

    private final double fullScaleVolts;
    private final int code;

    Ads1115Range(double fullScaleVolts, int code) {
        this.fullScaleVolts = fullScaleVolts;
        this.code = code;
    }

    /** ± this, V. */
    public double fullScaleVolts() {
        return fullScaleVolts;
    }

    /** V. */
    public double voltsPerCount() {
        return fullScaleVolts / COUNTS;
    }

    /** The PGA field. */
    int code() {
        return code;
    }

    /** The range of a PGA field; codes 5 to 7 all mean 0.256 V. */
    public static Ads1115Range ofCode(int code) {
        return BY_CODE[Math.min(code, V0_256.code)];
    }

    /** The smallest range that still shows {@code volts}. */
    public static Ads1115Range covering(double volts) {
        Ads1115Range best = V6_144;
        for (Ads1115Range range : values()) {
            if (range.fullScaleVolts >= volts) {
                best = range;
            }
        }
        return best;
    }
}
