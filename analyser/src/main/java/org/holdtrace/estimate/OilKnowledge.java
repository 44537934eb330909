package org.holdtrace.estimate;

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

    static Knowledge.OilPrior of(TestSetup setup) {
        double temperature = setup.oilTemperatureK().map(q -> q.value()).orElse(USUAL_TEMPERATURE_K);
        Oil oil = setup.oilGrade().flatMap(Oil::ofGrade).orElseGet(() -> Oil.ofViscosityAt40(USUAL_VISCOSITY_M2_PER_S));
        double modulus = oil.isothermalModulusPa(temperature).value();
        boolean told = setup.oilGrade().isPresent() && setup.oilTemperatureK().isPresent();
        double spread = told ? oil.isothermalModulusPa(temperature).relativeUncertainty() : ASSUMED_SPREAD;
        double heatShare = 1 - 1 / oil.isentropicRatio(modulus, temperature);
        return new Knowledge.OilPrior(modulus * 1e-5, spread, heatShare);
    }
}
