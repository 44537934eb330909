package org.holdtrace.judge;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.fluid.Oil;

/**
 * Limits carried to the pressure and temperature the leaks of a case are stated at: by pressure in proportion for
 * clearances and seals, with the root for seats; by viscosity for clearances and seals (LK-01), by nothing worth a figure
 * for seats, whose flow goes with the root of density (LK-09).
 */
final class CarriedLimits {
    private CarriedLimits() {}

    /** The limit of each element of the case by name, m³/s. */
    static Map<String, Double> of(CaseFile file) {
        Map<String, Double> limits = new HashMap<>();
        for (Element element : file.circuit().elements()) {
            limits.put(element.name(), carried(element, file));
        }
        return limits;
    }

    /** The limit of one element where the case states its leaks, m³/s. */
    static double carried(Element element, CaseFile file) {
        Limit limit = element.limit();
        double exponent = element.kind().pressureExponent();
        double byPressure = Math.pow(file.referencePa() / limit.atPa().orElse(file.referencePa()), exponent);
        double byViscosity = 1;
        Optional<Oil> oil = file.oilGrade().flatMap(Oil::ofGrade);
        if (dependsOnTemperature(element) && !isWithoutItsTemperature(element, file)) {
            byViscosity = oil.get().dynamicViscosityPaS(limit.atTemperatureK().getAsDouble())
                    / oil.get().dynamicViscosityPaS(file.referenceTemperatureK().getAsDouble());
        }
        return limit.m3PerS() * byPressure * byViscosity;
    }

    private static boolean dependsOnTemperature(Element element) {
        return element.kind().pressureExponent() == 1
                && element.limit().atTemperatureK().isPresent();
    }

    /** Whether the limit of a clearance or seal is stated at a temperature, and the case does not say what to carry it by. */
    static boolean isWithoutItsTemperature(Element element, CaseFile file) {
        return dependsOnTemperature(element)
                && (file.oilGrade().flatMap(Oil::ofGrade).isEmpty()
                        || file.referenceTemperatureK().isEmpty());
    }
}
