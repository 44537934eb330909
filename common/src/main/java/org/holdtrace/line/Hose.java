package org.holdtrace.line;

import org.holdtrace.quantity.Require;

/**
 * A hose by its volumetric expansion, as makers and standards state it: {@code dV = e L p / p_ref}.
 *
 * @param boreM inner diameter, m
 * @param lengthM length, m
 * @param expansionM3PerM expansion e per length at the reference pressure, m³/m
 * @param referencePa pressure it is stated for, Pa
 */
public record Hose(double boreM, double lengthM, double expansionM3PerM, double referencePa) {
    public Hose {
        Require.positive(boreM, "bore", "m");
        Require.positive(lengthM, "length", "m");
        Require.positive(expansionM3PerM, "expansion", "m3/m");
        Require.positive(referencePa, "reference pressure", "Pa");
    }

    /** What it holds unpressurised, m³. */
    public double volumeM3() {
        return Tube.boreVolumeM3(boreM, lengthM);
    }

    /** Volume it swells by per pressure, m³/Pa. */
    public double complianceM3PerPa() {
        return expansionM3PerM * lengthM / referencePa;
    }

    /** Its swelling as a modulus of its contents, {@code V / (dV/dp)}, Pa. A hose can dominate the compliance. */
    public double apparentModulusPa() {
        return volumeM3() / complianceM3PerPa();
    }
}
