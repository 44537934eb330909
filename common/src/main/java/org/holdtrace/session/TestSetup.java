package org.holdtrace.session;

import java.util.Optional;
import org.holdtrace.quantity.Quantity;

/**
 * What is known of a test beside its samples. Everything is optional; what is missing widens the interval or removes
 * an estimate. All quantities in SI.
 *
 * @param machine which machine
 * @param component which component
 * @param componentKind kind of component, free text ("spool valve port", "cylinder", …)
 * @param port which port
 * @param oilGrade viscosity grade, e.g. "ISO VG 46"
 * @param oilTemperatureK oil temperature, K
 * @param bulkModulusPa isothermal tangent modulus of the air-free oil at low pressure, Pa
 * @param airFraction entrained air, volume fraction at atmospheric pressure (0.005 is 0.5 %)
 * @param trappedVolumeM3 oil volume under pressure, m³
 * @param lineComplianceM3PerPa what hose, gauge and fittings swell by beyond the trapped oil, m³/Pa
 * @param pumpStrokeM3 volume of one full stroke, m³
 * @param bledVolumeM3 oil caught from the end of the hold to the end of the trace, m³
 * @param transducerMinPa lower end of the transducer's range, Pa
 * @param transducerMaxPa upper end, Pa
 * @param transducerAccuracy accuracy as a fraction of the span (0.0025 is 0.25 %)
 * @param referencePressurePa pressure the leak is to be stated at, Pa
 * @param reliefSettingPa relief setting, Pa
 * @param limitM3PerS leak limit, m³/s
 */
public record TestSetup(
        Optional<String> machine,
        Optional<String> component,
        Optional<String> componentKind,
        Optional<String> port,
        Optional<String> oilGrade,
        Optional<Quantity> oilTemperatureK,
        Optional<Quantity> bulkModulusPa,
        Optional<Quantity> airFraction,
        Optional<Quantity> trappedVolumeM3,
        Optional<Quantity> lineComplianceM3PerPa,
        Optional<Quantity> pumpStrokeM3,
        Optional<Quantity> bledVolumeM3,
        Optional<Double> transducerMinPa,
        Optional<Double> transducerMaxPa,
        Optional<Double> transducerAccuracy,
        Optional<Quantity> referencePressurePa,
        Optional<Quantity> reliefSettingPa,
        Optional<Quantity> limitM3PerS) {

    /** A setup that knows nothing. */
    public static TestSetup unknown() {
        return new TestSetup(
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    /** The same with this line compliance, m³/Pa. */
    public TestSetup withLineCompliance(Quantity m3PerPa) {
        return new TestSetup(
                machine,
                component,
                componentKind,
                port,
                oilGrade,
                oilTemperatureK,
                bulkModulusPa,
                airFraction,
                trappedVolumeM3,
                Optional.of(m3PerPa),
                pumpStrokeM3,
                bledVolumeM3,
                transducerMinPa,
                transducerMaxPa,
                transducerAccuracy,
                referencePressurePa,
                reliefSettingPa,
                limitM3PerS);
    }
}
