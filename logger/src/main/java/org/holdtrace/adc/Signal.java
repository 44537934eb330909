package org.holdtrace.adc;

import java.util.Locale;
import org.holdtrace.quantity.Require;

/**
 * How a transducer says what it measures. A signal's size is a number that does not depend on the supply of the day:
 * share of the supply, V, or A. The voltage at the transducer's output is that number times {@link #voltsPerUnit}.
 */
public sealed interface Signal {
    /** Size at the lower end of the transducer's range. */
    double low();

    /** Size at the upper end. */
    double high();

    /** Volts at the transducer's output for a signal of 1. */
    double voltsPerUnit(double supplyVolts);

    /** Where the signal means a fault. */
    Limits limits();

    /** A size in the words of the trade, such as {@code 3.62 mA}. */
    String say(double size);

    /** Whether the transducer's supply must be known, measured or stated. */
    default boolean needsSupply() {
        return false;
    }

    /**
     * Where a signal's size means a fault; infinite where there is no such limit.
     *
     * @param brokenBelow at or below this the wire is broken, or the supply gone
     * @param doubtfulBelow below this it is outside the range the transducer promises
     * @param doubtfulAbove above this as well
     * @param brokenAbove at or above this the wire is broken or shorted
     */
    record Limits(double brokenBelow, double doubtfulBelow, double doubtfulAbove, double brokenAbove) {
        static final Limits NONE = new Limits(
                Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
    }

    /**
     * A voltage that is a share of the supply, 0.1 to 0.9 of it as a rule: 0.5 to 4.5 V at 5 V. A broken wire leaves the
     * signal at either end, less than 0.05 or more than 0.95 of the supply: 0.25 and 4.75 V at 5 V (common practice, no
     * source).
     *
     * @param low share of the supply at the lower end of the range
     * @param high at the upper end
     */
    record Ratiometric(double low, double high) implements Signal {
        private static final double BROKEN = 0.5;

        public Ratiometric {
            Require.within(low, 0.01, 0.99, "lower end of a ratiometric signal", "of the supply");
            Require.within(high - low, 0.01, 0.99, "span of a ratiometric signal", "of the supply");
            Require.within(high, 0.01, 0.99, "upper end of a ratiometric signal", "of the supply");
        }

        /** 0.5 to 4.5 V at a supply of 5 V. */
        public static Ratiometric common() {
            return new Ratiometric(0.1, 0.9);
        }

        @Override
        public double voltsPerUnit(double supplyVolts) {
            return supplyVolts;
        }

        @Override
        public Limits limits() {
            return new Limits(
                    BROKEN * low, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, 1 - BROKEN * (1 - high));
        }

        @Override
        public String say(double size) {
            return String.format(Locale.ROOT, "%.1f %% of its supply", 100 * size);
        }

        @Override
        public boolean needsSupply() {
            return true;
        }
    }

    /**
     * A plain voltage. One that starts above 0 V shows a broken wire below half its start; one that starts at 0 V cannot:
     * a broken wire looks like no pressure.
     *
     * @param low V at the lower end of the range
     * @param high V at the upper end
     */
    record Voltage(double low, double high) implements Signal {
        /** Transducers go on a little above their range: 5 % of the span (common practice, no source). */
        private static final double ABOVE = 0.05;

        public Voltage {
            Require.finite(low, "lower end of a voltage signal", "V");
            Require.positive(high - low, "span of a voltage signal", "V");
        }

        @Override
        public double voltsPerUnit(double supplyVolts) {
            return 1;
        }

        @Override
        public Limits limits() {
            double brokenBelow = low > 0 ? 0.5 * low : Double.NEGATIVE_INFINITY;
            return new Limits(
                    brokenBelow, Double.NEGATIVE_INFINITY, high + ABOVE * (high - low), Double.POSITIVE_INFINITY);
        }

        @Override
        public String say(double size) {
            return String.format(Locale.ROOT, "%.3f V", size);
        }
    }

    /**
     * 4 to 20 mA through a shunt. A fault is 3.6 mA or less and 21.0 mA or more; between these and 3.8 and 20.5 mA the
     * signal is doubtful (NAMUR NE 43, reference value EL-05).
     *
     * @param shuntOhms resistance across which it is measured, Ω
     */
    record Current(double shuntOhms) implements Signal {
        private static final double LOW_A = 4e-3;
        private static final double HIGH_A = 20e-3;

        public Current {
            Require.within(shuntOhms, 1, 1000, "shunt", "Ohm");
        }

        @Override
        public double low() {
            return LOW_A;
        }

        @Override
        public double high() {
            return HIGH_A;
        }

        @Override
        public double voltsPerUnit(double supplyVolts) {
            return shuntOhms;
        }

        @Override
        public Limits limits() {
            return new Limits(3.6e-3, 3.8e-3, 20.5e-3, 21.0e-3);
        }

        @Override
        public String say(double size) {
            return String.format(Locale.ROOT, "%.2f mA", 1000 * size);
        }
    }

    /**
     * A platinum resistor of 1000 Ω at 0 °C between the pin and ground, with a resistor to the supply above it. Its curve
     * is taken as the straight line through 10 and 60 °C: off by less than 0.8 K from 0 to 80 °C with 10 kΩ above, and by
     * more with less.
     *
     * @param seriesOhms the resistor above it, Ω
     */
    record Pt1000(double seriesOhms) implements Signal {
        /** IEC 60751, above 0 °C; from memory. */
        private static final double A_PER_K = 3.9083e-3;

        private static final double B_PER_K2 = -5.775e-7;
        private static final double OHMS_AT_0 = 1000;

        /** Where the line goes through the curve, °C. */
        static final double LOW_DEG_C = 10;

        static final double HIGH_DEG_C = 60;

        public Pt1000 {
            Require.within(seriesOhms, 100, 100_000, "resistor above the Pt1000", "Ohm");
        }

        /** Resistance at {@code celsius}, °C, Ω. */
        static double ohms(double celsius) {
            return OHMS_AT_0 * (1 + A_PER_K * celsius + B_PER_K2 * celsius * celsius);
        }

        /** Share of the supply at {@code celsius}, °C. */
        double share(double celsius) {
            double ohms = ohms(celsius);
            return ohms / (ohms + seriesOhms);
        }

        @Override
        public double low() {
            return share(LOW_DEG_C);
        }

        @Override
        public double high() {
            return share(HIGH_DEG_C);
        }

        @Override
        public double voltsPerUnit(double supplyVolts) {
            return supplyVolts;
        }

        @Override
        public Limits limits() {
            // No oil is that cold or hot: what reads so is a wire.
            return new Limits(share(-60), share(-40), share(150), share(180));
        }

        @Override
        public String say(double size) {
            return String.format(Locale.ROOT, "%.0f Ohm", seriesOhms * size / (1 - size));
        }

        @Override
        public boolean needsSupply() {
            return true;
        }
    }
}
