package org.holdtrace.firmware;

import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.model.VoltageSource;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.RigFile;
import org.holdtrace.rig.Sensor;
import org.holdtrace.rig.WorkedRig;

/**
 * A simulated test line whose hand does the planned hold tests by itself, as voltages at the pins of a converter. Time
 * passes on the converter's clock. One thread.
 */
final class SimulatedLine implements VoltageSource {
    /** So fine a step that the converter's own is the only one that shows. */
    private static final double FINE_COUNTS = 1.6e9;

    private final WorkedRig rig;
    private final List<SensorInput> inputs;
    private final double supplyVolts;
    private boolean begun;
    private long startNs;

    /**
     * @param rateHz how often the pressure is looked at, 1/s: noise is drawn anew so often
     */
    SimulatedLine(RigFile file, List<SensorInput> inputs, double supplyVolts, double rateHz) {
        this.inputs = inputs;
        this.supplyVolts = supplyVolts;
        Sensor sensor = file.rig().sensor();
        double toPa = sensor.scale().maxPa();
        Sensor.Scale fine = new Sensor.Scale(-0.1 * toPa, 1.5 * toPa, 0, FINE_COUNTS, 0, Integer.MAX_VALUE);
        Rig read = file.rig()
                .withSensor(new Sensor(
                        rateHz,
                        0,
                        fine,
                        sensor.errors(),
                        sensor.noise(),
                        sensor.faults(),
                        sensor.oilChannel(),
                        sensor.ambientChannel()));
        rig = new WorkedRig(read, new SplittableRandom(file.seed()));
    }

    @Override
    public double volts(int pin, long timeNs) {
        if (!begun) {
            begun = true;
            startNs = timeNs;
        }
        for (SensorInput input : inputs) {
            if (input.pin() == pin) {
                return input.pinVolts(value(input, timeNs), supplyVolts);
            }
        }
        return 0;
    }

    private double value(SensorInput input, long timeNs) {
        rig.advanceTo((timeNs - startNs) / 1e9);
        return switch (input.kind()) {
            case PRESSURE, SECOND_PRESSURE -> rig.readingPa();
            case OIL_TEMPERATURE -> rig.oilTemperatureK();
            case AMBIENT_TEMPERATURE -> rig.ambientTemperatureK();
            case SUPPLY, OTHER -> supplyVolts;
        };
    }
}
