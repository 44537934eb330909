package org.holdtrace.estimate;

import java.util.Optional;
import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;

/**
 * Carries a leak from the oil temperature of the test to another: flow through a clearance goes with 1/μ (LK-01), flow
 * through an orifice with 1/√ρ (LK-09).
 *
 * @param laminar factor on laminar flow
 * @param orifice factor on orifice flow
 * @param relativeUncertainty standard uncertainty of the laminar factor, relative
 */
record Carry(double laminar, double orifice, double relativeUncertainty) {
    /** Stated where it was measured. */
    static final Carry NONE = new Carry(1, 1, 0);

    /** Viscosity by grade is ±10 % at 40 °C (VI-01), but its ratio between temperatures is known better. */
    private static final double RATIO_UNCERTAINTY = 0.03;

    /**
     * The factors from the temperature of the test to another.
     *
     * @param setup tells grade and temperature of the test
     * @param atTemperatureK temperature to carry to
     * @return empty where the setup tells no grade or no temperature, so that nothing can be carried
     */
    static Optional<Carry> to(TestSetup setup, double atTemperatureK) {
        Optional<Oil> graded = OilKnowledge.graded(setup);
        if (setup.oilTemperatureK().isEmpty() || graded.isEmpty()) {
            return Optional.empty();
        }
        Quantity from = setup.oilTemperatureK().get();
        Oil oil = graded.get();
        double ratio = oil.dynamicViscosityPaS(from.value()) / oil.dynamicViscosityPaS(atTemperatureK);
        double warmer = oil.dynamicViscosityPaS(from.value() + from.standardUncertainty());
        double colder = oil.dynamicViscosityPaS(from.value() - from.standardUncertainty());
        double byTemperature = 0.5 * Math.log(colder / warmer);
        double density = oil.densityKgPerM3(from.value()) / oil.densityKgPerM3(atTemperatureK);
        return Optional.of(new Carry(ratio, Math.sqrt(density), Math.hypot(byTemperature, RATIO_UNCERTAINTY)));
    }
}
