package org.holdtrace.session;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * How a channel's raw counts become a pressure or temperature: counts to volts by the converter's scale, volts to SI by
 * the straight line through two points.
 *
 * <p>{@code volts = voltsAtZeroCount + count · voltsPerCount},
 * {@code value = low.si + (volts − low.volts) · (high.si − low.si) / (high.volts − low.volts)}.
 *
 * @param voltsPerCount the converter's step, V, not 0
 * @param voltsAtZeroCount the converter's offset, V
 * @param low one point of the line
 * @param high another, at another voltage
 * @param residuals what the line was off by when it was last checked; empty where it never was
 * @param reference what it was checked against
 * @param date when
 */
public record Calibration(
        double voltsPerCount,
        double voltsAtZeroCount,
        Point low,
        Point high,
        List<Residual> residuals,
        Optional<String> reference,
        Optional<LocalDate> date) {

    /**
     * A point of the line.
     *
     * @param volts at the converter, V
     * @param siValue Pa or K
     */
    public record Point(double volts, double siValue) {}

    /**
     * One check against a reference.
     *
     * @param siValue what the reference showed, Pa or K
     * @param offBy reading of the channel less that, Pa or K
     */
    public record Residual(double siValue, double offBy) {}

    public Calibration {
        residuals = List.copyOf(residuals);
        boolean finite = Double.isFinite(voltsPerCount)
                && Double.isFinite(voltsAtZeroCount)
                && Double.isFinite(low.siValue)
                && Double.isFinite(high.siValue)
                && Double.isFinite(high.volts - low.volts);
        if (!finite || voltsPerCount == 0 || high.volts == low.volts) {
            throw new IllegalArgumentException("a calibration needs a step other than 0 V and two finite points at two"
                    + " voltages, has " + voltsPerCount + " V, " + low + " and " + high);
        }
    }

    /** A straight line that was never checked. */
    public static Calibration line(double voltsPerCount, Point low, Point high) {
        return new Calibration(voltsPerCount, 0, low, high, List.of(), Optional.empty(), Optional.empty());
    }

    /** The value of a raw count, Pa or K. */
    public double siValue(int count) {
        return atZeroCount() + count * perCount();
    }

    /** The value of one count more, Pa or K: the resolution. */
    public double perCount() {
        return voltsPerCount * ((high.siValue - low.siValue) / (high.volts - low.volts));
    }

    /** The value at count 0, Pa or K. */
    public double atZeroCount() {
        return low.siValue + (voltsAtZeroCount - low.volts) * ((high.siValue - low.siValue) / (high.volts - low.volts));
    }
}
