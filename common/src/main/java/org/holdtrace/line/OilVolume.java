package org.holdtrace.line;

import java.util.List;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.quantity.Require;

/**
 * How much oil parts of a line hold, each with its standard uncertainty from those of its measures, taken as independent
 * and small (GUM 5.1.2).
 */
public final class OilVolume {
    private OilVolume() {}

    /** A round bore: {@code V = pi/4 d² l}, {@code (u/V)² = (2 u_d/d)² + (u_l/l)²}; lengths in m above 0, volume in m³. */
    public static Quantity ofBore(Quantity boreM, Quantity lengthM) {
        double volume = Tube.boreVolumeM3(positive(boreM), positive(lengthM));
        return new Quantity(
                volume, volume * Math.hypot(2 * boreM.relativeUncertainty(), lengthM.relativeUncertainty()));
    }

    /**
     * Round a rod in a bore: {@code V = pi/4 (D² - d²) l}; lengths in m above 0, volume in m³.
     *
     * @throws IllegalArgumentException where the rod fills the bore
     */
    public static Quantity aroundRod(Quantity boreM, Quantity rodM, Quantity lengthM) {
        if (!(positive(rodM) < positive(boreM))) {
            throw new IllegalArgumentException("the rod must be thinner than the bore");
        }
        double volume =
                Tube.boreVolumeM3(boreM.value(), positive(lengthM)) - Tube.boreVolumeM3(rodM.value(), lengthM.value());
        double perM = Math.PI / 2 * lengthM.value();
        double cross = Math.hypot(
                perM * boreM.value() * boreM.standardUncertainty(), perM * rodM.value() * rodM.standardUncertainty());
        return new Quantity(volume, Math.hypot(cross, volume * lengthM.relativeUncertainty()));
    }

    /** Parts together, m³: volumes add, uncertainties by their squares. */
    public static Quantity sum(List<Quantity> partsM3) {
        double volume = 0;
        double deviation = 0;
        for (Quantity part : partsM3) {
            volume += part.value();
            deviation = Math.hypot(deviation, part.standardUncertainty());
        }
        return new Quantity(volume, deviation);
    }

    private static double positive(Quantity lengthM) {
        return Require.positive(lengthM.value(), "length", "m");
    }
}
