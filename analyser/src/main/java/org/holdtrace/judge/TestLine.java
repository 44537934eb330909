package org.holdtrace.judge;

import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.quantity.Quantity;

/**
 * The hand pump with everything up to the port.
 *
 * @param ratingsPa rated pressure of hose, adapter, pump, plug and transducer, by name, Pa
 * @param pumpStrokeM3 one full stroke, m³
 * @param complianceM3PerPa what hose and fittings swell by, m³/Pa
 * @param volumeM3 oil in it, m³
 * @param transducerMaxPa end of the transducer's range, Pa
 * @param transducerAccuracy share of that range
 * @param lineCheck a session of the line alone, relative to the case file
 */
public record TestLine(
        Map<String, Double> ratingsPa,
        Optional<Quantity> pumpStrokeM3,
        Optional<Quantity> complianceM3PerPa,
        double volumeM3,
        OptionalDouble transducerMaxPa,
        OptionalDouble transducerAccuracy,
        Optional<String> lineCheck) {}
