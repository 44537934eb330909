package org.holdtrace.fluid;

import org.holdtrace.quantity.Require;

/**
 * Air bubbles in oil, as a volume balance: gas that takes the fraction f of the volume at atmospheric pressure p_a takes
 * {@code f (p_a / (p_a + p))^(1/n)} at gauge pressure p (polytropic; n = 1 slow, 1.4 fast).
 *
 * @param fraction volume of air divided by the whole volume at atmospheric pressure, 0 to 0.5
 * @param polytropicIndex n, 1 (isothermal) to 1.4 (adiabatic)
 */
public record EntrainedAir(double fraction, double polytropicIndex) {
    public EntrainedAir {
        Require.within(fraction, 0, 0.5, "air fraction", "");
        Require.within(polytropicIndex, 1, 1.4, "polytropic index of air", "");
    }

    /** No air. */
    public static EntrainedAir none() {
        return new EntrainedAir(0, 1);
    }

    /** Volume of the air at {@code pressurePa} as a fraction of the whole volume at atmospheric pressure. */
    public double volumeFraction(double pressurePa) {
        return fraction * shrinkage(pressurePa);
    }

    /** Compliance {@code -dV/dp} of the air per volume of the whole at atmospheric pressure, 1/Pa. */
    public double compliancePerPa(double pressurePa) {
        return volumeFraction(pressurePa) / (polytropicIndex * (Oil.ATMOSPHERE_PA + pressurePa));
    }

    /**
     * Effective tangent modulus {@code -V dp/dV} of oil with this air, Pa: volume balance of a liquid that shrinks in
     * proportion to pressure, {@code V = (1-f)(1 - p/E) + f (p_a/(p_a+p))^(1/n)}.
     *
     * @param liquidModulusPa modulus E of the oil alone
     * @param pressurePa gauge pressure, at least 0
     */
    public double mixtureModulusPa(double liquidModulusPa, double pressurePa) {
        Require.positive(liquidModulusPa, "modulus of the oil", "Pa");
        Require.notNegative(pressurePa, "pressure", "Pa");
        double liquid = 1 - fraction;
        double volume = liquid * (1 - pressurePa / liquidModulusPa) + volumeFraction(pressurePa);
        return volume / (liquid / liquidModulusPa + compliancePerPa(pressurePa));
    }

    private double shrinkage(double pressurePa) {
        double ratio = Oil.ATMOSPHERE_PA / (Oil.ATMOSPHERE_PA + pressurePa);
        return polytropicIndex == 1 ? ratio : Math.pow(ratio, 1 / polytropicIndex);
    }
}
