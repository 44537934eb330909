package org.holdtrace.rig;

import org.holdtrace.fluid.Oil;

/**
 * True compliance dV/dp of a simulated line at any pressure, creep and heat apart.
 *
 * @param fill oil and air
 * @param walls what holds them
 * @param undissolvedM3 air not dissolved, as volume at atmospheric pressure, m³
 */
record LineCompliance(OilFill fill, Walls walls, double undissolvedM3) {
    /** Isothermal compliance at a gauge pressure, m³/Pa of oil at that pressure. */
    double isothermal(double pressurePa) {
        return oilM3(pressurePa) / Oil.tangentModulusPa(fill.modulusPa(), fill.secantSlope(), pressurePa)
                + airAndWalls(pressurePa);
    }

    /** What a fast stroke sees: oil that keeps its heat of compression. */
    double isentropic(double pressurePa) {
        double heat = fill.expansionPerK() * fill.heatingKPerPa();
        return oilM3(pressurePa) * (1 / Oil.tangentModulusPa(fill.modulusPa(), fill.secantSlope(), pressurePa) - heat)
                + airAndWalls(pressurePa);
    }

    /** Oil in the swollen line beside the bubbles, m³ at this pressure. */
    private double oilM3(double pressurePa) {
        return fill.volumeM3() + walls.swellingM3(pressurePa) - gasM3(pressurePa);
    }

    private double gasM3(double pressurePa) {
        double ratio = Oil.ATMOSPHERE_PA / (Oil.ATMOSPHERE_PA + pressurePa);
        return undissolvedM3 * StrictMath.pow(ratio, 1 / fill.air().polytropicIndex());
    }

    private double airAndWalls(double pressurePa) {
        double stiffness = fill.air().polytropicIndex() * (Oil.ATMOSPHERE_PA + pressurePa);
        return gasM3(pressurePa) / stiffness + walls.complianceM3PerPa(pressurePa);
    }
}
