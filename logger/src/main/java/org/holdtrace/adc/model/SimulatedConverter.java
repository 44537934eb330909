package org.holdtrace.adc.model;

import java.util.List;
import org.holdtrace.adc.Ads1115;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.ConverterPlan;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.SteadyClock;

/** The shipped driver on a register-exact model: what the firmware reads when it runs on a simulated line. */
public final class SimulatedConverter {
    private static final double BUS_HZ = 400_000;

    private final Ads1115Model chip;
    private final Converter converter;

    /**
     * A converter set up for {@code inputs} as a real one would be.
     *
     * @param supplyVolts what the transducers should get, V
     * @param source the voltages at its pins, which {@link SensorInput#pinVolts} gives from a pressure
     */
    public SimulatedConverter(
            List<SensorInput> inputs, double samplingHz, double supplyVolts, VoltageSource source, SteadyClock clock) {
        chip = new Ads1115Model(clock, source);
        converter = new Ads1115(
                new ModelRegisterBus(chip, clock, BUS_HZ),
                ConverterPlan.Ads.setup(inputs, samplingHz, supplyVolts),
                clock);
    }

    /** The chip, to do it harm. */
    public Ads1115Model chip() {
        return chip;
    }

    /** The driver. */
    public Converter converter() {
        return converter;
    }
}
