package org.holdtrace.trace;

import java.time.Instant;
import java.util.Optional;

/**
 * Samples of one recording in the order they were taken: time, gauge pressure as the transducer gave it, and
 * temperatures where they were recorded. Immutable; arrays handed in are not copied and must not be changed after.
 *
 * <p>Time never decreases; it may repeat or leave gaps. Pressure is the reading, zero error included.
 */
public final class Trace {
    private final double[] timeS;
    private final double[] pressurePa;
    private final double[] oilTemperatureK;
    private final double[] ambientTemperatureK;
    private final Optional<Instant> start;

    /**
     * @param timeS seconds since the first sample's origin, never decreasing
     * @param pressurePa gauge pressure readings in Pa, same length
     * @param oilTemperatureK oil temperature in K of the same length (NaN where one sample has none), or null
     * @param ambientTemperatureK ambient temperature in K likewise, or null
     * @param start the wall-clock instant of time 0 where known
     */
    public Trace(
            double[] timeS,
            double[] pressurePa,
            double[] oilTemperatureK,
            double[] ambientTemperatureK,
            Optional<Instant> start) {
        if (timeS.length != pressurePa.length
                || (oilTemperatureK != null && oilTemperatureK.length != timeS.length)
                || (ambientTemperatureK != null && ambientTemperatureK.length != timeS.length)) {
            throw new IllegalArgumentException("the columns of a trace must be of one length");
        }
        this.timeS = timeS;
        this.pressurePa = pressurePa;
        this.oilTemperatureK = oilTemperatureK;
        this.ambientTemperatureK = ambientTemperatureK;
        this.start = start;
    }

    /** A trace of pressure alone. */
    public static Trace of(double[] timeS, double[] pressurePa) {
        return new Trace(timeS, pressurePa, null, null, Optional.empty());
    }

    /** Number of samples. */
    public int size() {
        return timeS.length;
    }

    /** Time of sample {@code i} in s. */
    public double timeS(int i) {
        return timeS[i];
    }

    /** Gauge pressure reading of sample {@code i} in Pa. */
    public double pressurePa(int i) {
        return pressurePa[i];
    }

    /** Whether the recording has an oil temperature. */
    public boolean hasOilTemperature() {
        return oilTemperatureK != null;
    }

    /** Oil temperature of sample {@code i} in K, NaN where there is none. */
    public double oilTemperatureK(int i) {
        return oilTemperatureK == null ? Double.NaN : oilTemperatureK[i];
    }

    /** Whether the recording has an ambient temperature. */
    public boolean hasAmbientTemperature() {
        return ambientTemperatureK != null;
    }

    /** Ambient temperature of sample {@code i} in K, NaN where there is none. */
    public double ambientTemperatureK(int i) {
        return ambientTemperatureK == null ? Double.NaN : ambientTemperatureK[i];
    }

    /** Wall-clock instant of time 0, where the recording tells it. */
    public Optional<Instant> start() {
        return start;
    }

    /** Index of the first sample at or after {@code t} (s); {@link #size()} where there is none. */
    public int indexAt(double t) {
        int low = 0;
        int high = timeS.length;
        while (low < high) {
            int mid = (low + high) >>> 1;
            if (timeS[mid] < t) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return low;
    }
}
