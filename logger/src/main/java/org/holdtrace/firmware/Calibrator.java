package org.holdtrace.firmware;

import java.io.IOException;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.adc.CalibrationStore;
import org.holdtrace.adc.Converter;
import org.holdtrace.adc.SensorInput;
import org.holdtrace.adc.StoredCalibration;
import org.holdtrace.session.Calibration;
import org.holdtrace.session.Channel;

/**
 * How the inputs' counts become pressure and temperature now, by what is stored and by the supply of the moment. What is
 * stored is read at the start only: a disk that hangs must not stop anything. One thread.
 */
final class Calibrator {
    private final Equipment equipment;
    private final List<SensorInput> inputs;
    private final CalibrationStore store;
    private final Converter converter;
    private final double nominalVolts;
    private Map<String, StoredCalibration> stored;
    private double supplyVolts;

    Calibrator(Equipment equipment) throws IOException {
        this.equipment = equipment;
        inputs = equipment.configuration().inputs();
        store = equipment.calibrations();
        converter = equipment.converter();
        nominalVolts = equipment.configuration().supplyVolts();
        supplyVolts = nominalVolts;
        stored = store.all();
    }

    /** The supply the calibrations go by, V. */
    double supplyVolts() {
        return supplyVolts;
    }

    /** What was measured of the supply, V; what cannot be a supply is not believed. */
    void supply(double measuredVolts) {
        supplyVolts = SensorInput.believedSupplyVolts(measuredVolts, nominalVolts);
    }

    /** The channels as they are calibrated now; channel i is input i. */
    List<Channel> channels() {
        List<Channel> channels = new ArrayList<>();
        for (int i = 0; i < inputs.size(); i++) {
            SensorInput input = inputs.get(i);
            Calibration calibration = input.calibration(
                    converter.voltsPerCount(input.pin()), supplyVolts, Optional.ofNullable(stored.get(input.name())));
            channels.add(new Channel(i, input.kind(), input.name(), equipment.rateHz(input), calibration));
        }
        return channels;
    }

    /**
     * Takes {@code meanCount} of an input for its zero, and keeps that.
     *
     * @throws IllegalArgumentException where that can be no zero, and why
     */
    void zero(int channel, double meanCount, Optional<LocalDate> date) throws IOException {
        SensorInput input = inputs.get(channel);
        double signal = input.signalSize(meanCount * converter.voltsPerCount(input.pin()), supplyVolts);
        StoredCalibration before = stored.getOrDefault(input.name(), StoredCalibration.none());
        store.put(input.name(), input.plausible(before.withZero(signal, date)));
        stored = store.all();
    }

    /** The date of an instant, for what is stored. */
    static Optional<LocalDate> date(WallClock clock) {
        return clock.believed().map(now -> now.atZone(ZoneOffset.UTC).toLocalDate());
    }
}
