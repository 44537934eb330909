package org.holdtrace.estimate;

import java.util.Optional;
import org.holdtrace.fluid.Oil;
import org.holdtrace.session.TestSetup;

/** What grade and temperature of the oil tell of its modulus and of the heat of compression. */
final class OilKnowledge {
    /** Grade and temperature taken where they were not stated: a middling hydraulic oil in a workshop. */
    private static final double USUAL_VISCOSITY_M2_PER_S = 46e-6;

    private static final double USUAL_TEMPERATURE_K = 295;

    /** Log spread of the modulus where grade or temperature had to be assumed. */
    private static final double ASSUMED_SPREAD = 0.12;

    private OilKnowledge() {}

    /** The oil by its stated grade. */
    static Optional<Oil> graded(TestSetup setup) {
        return setup.oilGrade().isPresent() ? Oil.ofGrade(setup.oilGrade().get()) : Optional.empty();
    }

    static Knowledge.OilPrior of(TestSetup setup) {
        double temperature = WorkingUnits.in(1, setup.oilTemperatureK(), USUAL_TEMPERATURE_K);
        Optional<Oil> graded = graded(setup);
        Oil oil = graded.isPresent() ? graded.get() : Oil.ofViscosityAt40(USUAL_VISCOSITY_M2_PER_S);
        double modulus = oil.isothermalModulusPa(temperature).value();
        boolean told = setup.oilGrade().isPresent() && setup.oilTemperatureK().isPresent();
        double spread = told ? oil.isothermalModulusPa(temperature).relativeUncertainty() : ASSUMED_SPREAD;
        double heatShare = 1 - 1 / oil.isentropicRatio(modulus, temperature);
        return new Knowledge.OilPrior(modulus * 1e-5, spread, heatShare);
    }
}
