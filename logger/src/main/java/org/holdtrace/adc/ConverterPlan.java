package org.holdtrace.adc;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import org.holdtrace.adc.Ads1115.Mode;
import org.holdtrace.adc.Ads1115.Setup;

/** Which converter is wired where. From it and the inputs follows how the converter is set up. */
public sealed interface ConverterPlan {
    /** How many inputs such a converter has. */
    int inputs();

    /** Voltages at its pins above this mean nothing, V. */
    double highestVolts();

    /** What it is and where, for messages. */
    String name();

    /**
     * The converter, set up for {@code inputs}; nothing is sent before {@link Converter#restart}.
     *
     * @throws AdcException where the bus is not there or may not be used
     */
    Converter open(PiBoard board, List<SensorInput> inputs, double samplingHz, double supplyVolts, SteadyClock clock)
            throws AdcException;

    /**
     * ADS1115 class.
     *
     * @param bus number of the I²C bus
     * @param address its address there
     * @param readyPin GPIO its ALERT pin is wired to
     */
    record Ads(int bus, int address, OptionalInt readyPin) implements ConverterPlan {
        private static final int INPUTS = 4;

        public Ads {
            if (bus < 0) {
                throw new IllegalArgumentException("an I²C bus has a number from 0, not " + bus);
            }
            if (address < 0x48 || address > 0x4B) {
                throw new IllegalArgumentException(
                        String.format(Locale.ROOT, "an ADS1115 has an address from 0x48 to 0x4B, not 0x%02X", address));
            }
            if (readyPin.isPresent() && !PiBoard.hasGpio(readyPin.getAsInt())) {
                throw new IllegalArgumentException(PiBoard.GPIOS + ", not a ready pin " + readyPin.getAsInt());
            }
        }

        @Override
        public int inputs() {
            return INPUTS;
        }

        @Override
        public double highestVolts() {
            return Ads1115Range.V6_144.fullScaleVolts();
        }

        @Override
        public String name() {
            return String.format(Locale.ROOT, "ADS1115 at 0x%02X on i2c-%d", address, bus);
        }

        /**
         * How the chip is set up for these inputs: each by the smallest range that shows all its signal means; conversions
         * one by one where several inputs are read at every tick, else continuous.
         */
        public static Setup setup(List<SensorInput> inputs, double samplingHz, double supplyVolts) {
            List<Ads1115Range> ranges = new ArrayList<>(Collections.nCopies(INPUTS, Ads1115Range.V6_144));
            int fast = 0;
            int first = inputs.get(0).pin();
            for (SensorInput input : inputs) {
                ranges.set(input.pin(), Ads1115Range.covering(input.highestPinVolts(supplyVolts)));
                fast += input.fast() ? 1 : 0;
            }
            if (fast > 1) {
                return new Setup(Mode.SINGLE, Ads1115Rate.SPS_860, ranges, first);
            }
            // Slow inputs beside the fast one cost it the time of some conversions: the shorter, the better.
            Ads1115Rate rate = inputs.size() > 1 ? Ads1115Rate.SPS_860 : Ads1115Rate.above(samplingHz);
            return new Setup(Mode.CONTINUOUS, rate, ranges, first);
        }

        @Override
        public Converter open(
                PiBoard board, List<SensorInput> inputs, double samplingHz, double supplyVolts, SteadyClock clock)
                throws AdcException {
            RegisterBus chip = board.i2c(bus, address);
            ReadyPin pin = readyPin.isPresent() ? board.readyPin(readyPin.getAsInt()) : null;
            return new Ads1115(chip, setup(inputs, samplingHz, supplyVolts), clock, pin);
        }
    }

    /**
     * MCP3208 class.
     *
     * @param bus number of the SPI bus
     * @param chipSelect its chip select there
     * @param clockHz of the bus, 1/s
     * @param referenceVolts at its reference pin, V
     * @param conversions added up for one count
     */
    record Mcp(int bus, int chipSelect, int clockHz, double referenceVolts, int conversions) implements ConverterPlan {
        private static final int INPUTS = 8;
        private static final int SLOWEST_HZ = 10_000;
        private static final int FASTEST_HZ = 2_000_000;

        public Mcp {
            if (bus < 0 || bus > 1 || chipSelect < 0 || chipSelect > 2) {
                throw new IllegalArgumentException(
                        "SPI has buses 0 and 1 with chip selects 0 to 2, not " + bus + " and " + chipSelect);
            }
            if (clockHz < SLOWEST_HZ || clockHz > FASTEST_HZ) {
                throw new IllegalArgumentException(
                        "an MCP3208 takes a clock from 10 kHz to 2 MHz (1 MHz at 3.3 V), not " + clockHz + " Hz");
            }
            if (!(referenceVolts >= 0.25 && referenceVolts <= 5.5)) {
                throw new IllegalArgumentException(
                        "an MCP3208 has a reference from 0.25 to 5.5 V, not " + referenceVolts + " V");
            }
            if (conversions < 1 || conversions > Mcp3208.MOST_CONVERSIONS) {
                throw new IllegalArgumentException("1 to " + Mcp3208.MOST_CONVERSIONS
                        + " conversions can be added up for one count, not " + conversions);
            }
        }

        @Override
        public int inputs() {
            return INPUTS;
        }

        @Override
        public double highestVolts() {
            return referenceVolts;
        }

        @Override
        public String name() {
            return "MCP3208 at spidev" + bus + "." + chipSelect;
        }

        @Override
        public Converter open(
                PiBoard board, List<SensorInput> inputs, double samplingHz, double supplyVolts, SteadyClock clock)
                throws AdcException {
            return new Mcp3208(board.spi(bus, chipSelect, clockHz), referenceVolts, conversions);
        }
    }
}
