package org.holdtrace.adc;

/**
 * Nominal conversions a second of an ADS1115. Its oscillator is off by up to {@link #TOLERANCE}, so a computer's clock
 * never keeps step with it.
 */
public enum Ads1115Rate {
    SPS_8(8, 0),
    SPS_16(16, 1),
    SPS_32(32, 2),
    SPS_64(64, 3),
    SPS_128(128, 4),
    SPS_250(250, 5),
    SPS_475(475, 6),
    SPS_860(860, 7);

    /** Largest relative error of the rate (data sheet SBAS444: ±10 %). */
    public static final double TOLERANCE = 0.10;

    /** Copied once: the simulated converter looks its rate up for every conversion. */
    private static final Ads1115Rate[] BY_CODE = values();

    private final int hertz;
    private final int code;

    Ads1115Rate(int hertz, int code) {
        this.hertz = hertz;
        this.code = code;
    }

    /** 1/s. */
    public int hertz() {
        return hertz;
    }

    /** The DR field. */
    int code() {
        return code;
    }

    /** Duration of a conversion by the slowest oscillator allowed, ns. */
    long longestNs() {
        return (long) Math.ceil(1e9 / (hertz * (1 - TOLERANCE)));
    }

    /** The rate of a DR field. */
    public static Ads1115Rate ofCode(int code) {
        return BY_CODE[code];
    }

    /**
     * The slowest rate at which every reading at {@code samplingHz} finds a new conversion even where the oscillator is
     * slow; the fastest there is where none suffices. Slower is better for noise.
     */
    public static Ads1115Rate above(double samplingHz) {
        for (Ads1115Rate rate : values()) {
            if (rate.hertz * (1 - TOLERANCE) >= samplingHz) {
                return rate;
            }
        }
        return SPS_860;
    }
}
