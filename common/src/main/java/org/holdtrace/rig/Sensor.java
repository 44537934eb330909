package org.holdtrace.rig;

import org.holdtrace.quantity.Require;

/**
 * Transducer and converter: from true pressure to counts.
 *
 * @param rateHz sampling rate, 1/s
 * @param jitterS scatter of the sampling instant (uniform, early by up to this, but by no more than a time step of the
 *     simulation), s; the time recorded is the true one
 * @param scale how pressure becomes counts
 * @param errors what is wrong with the transducer
 * @param noise what is added to it
 * @param faults spikes and lost samples
 * @param oilChannel whether oil temperature is recorded
 * @param ambientChannel whether ambient temperature is recorded
 */
public record Sensor(
        double rateHz,
        double jitterS,
        Scale scale,
        Errors errors,
        Noise noise,
        Faults faults,
        boolean oilChannel,
        boolean ambientChannel) {
    public Sensor {
        Require.within(rateHz, 1, 100_000, "sampling rate", "1/s");
        Require.within(jitterS, 0, 0.9 / rateHz, "jitter", "s");
    }

    /**
     * What the converter makes of the transducer's range.
     *
     * @param minPa pressure at {@code countAtMin}, Pa
     * @param maxPa pressure at {@code countAtMax}, Pa
     * @param countAtMin counts at the lower end
     * @param countAtMax counts at the upper end
     * @param lowestCount lowest count the converter gives
     * @param highestCount highest count
     */
    public record Scale(
            double minPa, double maxPa, double countAtMin, double countAtMax, int lowestCount, int highestCount) {
        public Scale {
            Require.finite(minPa, "lower end of range", "Pa");
            Require.positive(maxPa - minPa, "span of range", "Pa");
            Require.positive(countAtMax - countAtMin, "counts over the range", "");
            Require.positive((double) highestCount - lowestCount, "counts of the converter", "");
        }

        /**
         * A transducer of 0.5 to 4.5 V on a 16-bit converter of ±6.144 V (187.5 µV a count: 2666.7 to 24 000 counts).
         */
        public static Scale sixteenBit(double maxPa) {
            return new Scale(0, maxPa, 0.5 / 187.5e-6, 4.5 / 187.5e-6, -32768, 32767);
        }

        /** The same transducer on a 12-bit converter of 0 to 5 V. */
        public static Scale twelveBit(double maxPa) {
            return new Scale(0, maxPa, 0.1 * 4096, 0.9 * 4096, 0, 4095);
        }

        /** Pressure of one count, Pa. */
        public double paPerCount() {
            return (maxPa - minPa) / (countAtMax - countAtMin);
        }

        /** The count for a pressure, cut off at the converter's ends. */
        public int count(double pressurePa) {
            double count = countAtMin + (pressurePa - minPa) / paPerCount();
            return (int) Math.max(lowestCount, Math.min(highestCount, Math.round(count)));
        }

        /** The pressure the nominal calibration gives a count, Pa. */
        public double pressurePa(int count) {
            return minPa + (count - countAtMin) * paPerCount();
        }
    }

    /**
     * Errors of the transducer: {@code reading = p (1 + gain) + bow 4 x (1 - x) + zero + drift t}, x = p/max.
     *
     * @param gain relative error of the slope
     * @param zeroPa reading at no pressure, Pa
     * @param bowPa largest departure from the straight line, in mid-span, Pa
     * @param driftPaPerS steady drift of zero, Pa/s
     * @param lagS time constant of its answer, s
     */
    public record Errors(double gain, double zeroPa, double bowPa, double driftPaPerS, double lagS) {
        public Errors {
            Require.within(gain, -0.5, 0.5, "gain error", "");
            Require.finite(zeroPa, "zero error", "Pa");
            Require.finite(bowPa, "bow", "Pa");
            Require.finite(driftPaPerS, "zero drift", "Pa/s");
            Require.within(lagS, 0, 1, "lag", "s");
        }

        /** No errors. */
        public static Errors none() {
            return new Errors(0, 0, 0, 0, 0);
        }
    }

    /**
     * Noise: white, coloured (first-order autoregressive) and a random walk of zero.
     *
     * @param whitePa standard deviation of the white share, Pa
     * @param colouredPa standard deviation of the coloured share, Pa
     * @param colouredS its correlation time, s
     * @param walkPaPerRootS the walk's standard deviation after one second, Pa/√s
     */
    public record Noise(double whitePa, double colouredPa, double colouredS, double walkPaPerRootS) {
        public Noise {
            Require.notNegative(whitePa, "white noise", "Pa");
            Require.notNegative(colouredPa, "coloured noise", "Pa");
            Require.positive(colouredS, "correlation time", "s");
            Require.notNegative(walkPaPerRootS, "walk of zero", "Pa/sqrt(s)");
        }

        /** No noise. */
        public static Noise none() {
            return new Noise(0, 0, 1, 0);
        }
    }

    /**
     * What goes wrong now and then.
     *
     * @param spikesPerS spikes of one to three samples, 1/s
     * @param spikePa their usual size, Pa
     * @param gapsPerS stretches of lost samples, 1/s
     * @param gapSamples longest stretch, samples
     */
    public record Faults(double spikesPerS, double spikePa, double gapsPerS, int gapSamples) {
        public Faults {
            Require.notNegative(spikesPerS, "spikes", "1/s");
            Require.notNegative(spikePa, "size of spikes", "Pa");
            Require.notNegative(gapsPerS, "gaps", "1/s");
            Require.within(gapSamples, 0, 100_000, "samples lost in a gap", "");
        }

        /** None. */
        public static Faults none() {
            return new Faults(0, 0, 0, 0);
        }
    }

    /** A transducer without errors on a fine converter: what is true, at {@code rateHz}. */
    public static Sensor perfect(double rateHz, double maxPa) {
        Scale fine = new Scale(-0.1 * maxPa, 1.5 * maxPa, 0, 1.6e9, 0, Integer.MAX_VALUE);
        return new Sensor(rateHz, 0, fine, Errors.none(), Noise.none(), Faults.none(), false, false);
    }
}
