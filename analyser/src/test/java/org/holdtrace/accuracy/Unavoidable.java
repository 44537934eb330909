package org.holdtrace.accuracy;

import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.OilFill;
import org.holdtrace.rig.Rig;
import org.holdtrace.session.TestSetup;

/**
 * The relative standard uncertainty of a leak rate that the stated uncertainties of a setup leave though the trace were
 * perfect and every law of the line known.
 *
 * <p>A perfect trace gives pressure against time and so the <i>shape</i> of everything: relative compliance at any
 * pressure, settling, law. One scale is missing, volume per pressure, and the leak is in proportion to it. Each stated
 * input that sets the scale gives a route of its own:
 *
 * <ul>
 *   <li>strokes: the scale is the stroke, so {@code u = u(stroke)};
 *   <li>oil let off: likewise {@code u = u(bled)};
 *   <li>volume, modulus and line: {@code C = V/K + V a + L} with {@code a} the air's share, so with the shares
 *       {@code s = part/C} at the pressure of the leak {@code u² = ((s_oil + s_air) u(V))² + (s_oil u(K))² + (s_line u(L))²}.
 *       The air content itself shows in the shape of the pump-up and costs nothing. Where no modulus is stated, grade and
 *       temperature give it to 10 %. Without a stated line compliance there is no such route: what the hose swells by is
 *       then not known at all.
 * </ul>
 *
 * The routes are independent, so the best combination has {@code 1/u² = sum 1/u_i²}. Transducer accuracy and stroke
 * scatter would make it larger; they are left out, so that this is a lower bound.
 */
final class Unavoidable {
    private static final double MODULUS_FROM_GRADE = 0.10;

    private Unavoidable() {}

    /**
     * The unavoidable uncertainty of the leak at a pressure.
     *
     * @param setup what is stated
     * @param rig the truth, for the shares of oil, air and line in the compliance
     * @param showsPumping whether strokes are in the recording
     * @param bar the pressure, bar
     * @return the relative standard uncertainty; infinite where nothing stated sets the scale
     */
    static double relative(TestSetup setup, Rig rig, boolean showsPumping, double bar) {
        double weight = 0;
        if (showsPumping) {
            weight += setup.pumpStrokeM3().map(Unavoidable::weight).orElse(0.0);
        }
        weight += setup.bledVolumeM3().map(Unavoidable::weight).orElse(0.0);
        if (setup.trappedVolumeM3().isPresent() && setup.lineComplianceM3PerPa().isPresent()) {
            weight += 1 / square(volumeRoute(setup, rig, bar));
        }
        return weight > 0 ? 1 / Math.sqrt(weight) : Double.POSITIVE_INFINITY;
    }

    private static double volumeRoute(TestSetup setup, Rig rig, double bar) {
        OilFill fill = rig.fill();
        double oil = Units.oilCm3PerBar(fill, bar);
        double air = Units.airCm3PerBar(fill, bar);
        double line = Units.wallsCm3PerBar(rig.walls(), bar);
        double whole = oil + air + line;
        double ofVolume = setup.trappedVolumeM3().orElseThrow().relativeUncertainty();
        double ofModulus =
                setup.bulkModulusPa().map(Quantity::relativeUncertainty).orElse(MODULUS_FROM_GRADE);
        double ofLine = setup.lineComplianceM3PerPa().orElseThrow().relativeUncertainty();
        return Math.sqrt(square((oil + air) / whole * ofVolume)
                + square(oil / whole * ofModulus)
                + square(line / whole * ofLine));
    }

    private static double weight(Quantity quantity) {
        return 1 / square(quantity.relativeUncertainty());
    }

    private static double square(double x) {
        return x * x;
    }
}
