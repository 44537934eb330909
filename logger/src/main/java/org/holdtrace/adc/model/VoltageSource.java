package org.holdtrace.adc.model;

/** The voltages at a simulated converter's pins. */
@FunctionalInterface
public interface VoltageSource {
    /**
     * Voltage at a pin against ground.
     *
     * @param input number of the pin, from 0
     * @param timeNs on the clock of the simulation, ns; never earlier than in the call before
     * @return V
     */
    double volts(int input, long timeNs);
}
