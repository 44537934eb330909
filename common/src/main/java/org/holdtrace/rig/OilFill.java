package org.holdtrace.rig;

import org.holdtrace.fluid.BulkModulus;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.quantity.Require;

/**
 * What is trapped: oil, and air in it. The oil's volume is {@code M (1 - p/(K0 + m p)) (1 + a T)} with T the warming
 * since the start.
 *
 * @param volumeM3 trapped volume at atmospheric pressure, air included, m³
 * @param modulusPa isothermal tangent modulus K0 of the air-free oil at low pressure, Pa
 * @param secantSlope m, rise of the secant modulus with pressure, Pa/Pa (mineral oil 5.6); 0.5 makes the tangent modulus
 *     all but constant
 * @param expansionPerK thermal expansion a, 1/K
 * @param temperatureK temperature at the start, K
 * @param heatingKPerPa warming by fast compression, K/Pa; with the expansion it makes the oil stiffer in a stroke than in
 *     the hold
 * @param air entrained air at the start
 * @param airDissolvingS time constant at which bubbles under pressure dissolve, s; infinite for never
 */
public record OilFill(
        double volumeM3,
        double modulusPa,
        double secantSlope,
        double expansionPerK,
        double temperatureK,
        double heatingKPerPa,
        EntrainedAir air,
        double airDissolvingS) {
    public OilFill {
        Require.positive(volumeM3, "trapped volume", "m3");
        Require.positive(modulusPa, "bulk modulus", "Pa");
        Require.within(secantSlope, 0.5, 20, "secant slope", "Pa/Pa");
        Require.notNegative(expansionPerK, "thermal expansion", "1/K");
        Require.positive(temperatureK, "oil temperature", "K");
        Require.notNegative(heatingKPerPa, "compression heating", "K/Pa");
        if (!(airDissolvingS > 0)) {
            throw new IllegalArgumentException(
                    "the time air needs to dissolve must be above 0 s or infinite, was " + airDissolvingS);
        }
    }

    /** Volume at a gauge pressure of what is 1 at atmospheric pressure, air-free and no warmer. */
    double relativeVolume(double pressurePa) {
        return 1 - pressurePa / (modulusPa + secantSlope * pressurePa);
    }

    /** A fill of an oil with the heat that its temperature gives it. */
    public static OilFill of(
            Oil oil, double temperatureK, double volumeM3, double modulusPa, EntrainedAir air, double airDissolvingS) {
        return new OilFill(
                volumeM3,
                modulusPa,
                BulkModulus.SECANT_SLOPE,
                oil.expansionPerK(temperatureK),
                temperatureK,
                oil.compressionHeatingKPerPa(temperatureK),
                air,
                airDissolvingS);
    }
}
