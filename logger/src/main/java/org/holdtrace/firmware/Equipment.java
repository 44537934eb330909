package org.holdtrace.firmware;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.acquire.Sampler;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.SteadyClock;
import org.holdtrace.panel.Panel;

/**
 * What the firmware is put together from.
 *
 * @param configuration how the logger is wired and where it keeps its things
 * @param simulated whether no oil is under pressure
 * @param converter what reads the inputs
 * @param clock what sampling goes by
 * @param panel button, lamps and beeper
 * @param calibrations what is known of the transducers
 */
record Equipment(
        Configuration configuration,
        boolean simulated,
        Converter converter,
        SteadyClock clock,
        Panel panel,
        CalibrationStore calibrations) {

    /** How the inputs are read: the fast ones at every tick, the others now and then. Channel i is input i. */
    List<Sampler.Input> sampled() {
        List<Sampler.Input> all = new ArrayList<>();
        List<SensorInput> inputs = configuration.inputs();
        for (int i = 0; i < inputs.size(); i++) {
            all.add(new Sampler.Input(i, inputs.get(i).pin(), ticks(inputs.get(i))));
        }
        return all;
    }

    private int ticks(SensorInput input) {
        return input.fast() ? 1 : (int) Math.max(1, Math.round(configuration.rateHz() * configuration.slowEveryS()));
    }

    /** Samples a second of an input. */
    double rateHz(SensorInput input) {
        return configuration.rateHz() / ticks(input);
    }
}
