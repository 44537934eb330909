package org.holdtrace.line;

import org.holdtrace.quantity.Require;

/**
 * A round tube or cylinder barrel under inner pressure. Its modulus is what its swelling would be as a bulk modulus of
 * its contents, so that {@code 1/B_effective = 1/B_oil + 1/B_container}.
 *
 * @param boreM inner diameter, m
 * @param outerM outer diameter, m
 * @param lengthM length, m
 * @param elasticityPa elastic modulus E of the wall, Pa (steel: 206e9)
 * @param poisson Poisson's ratio of the wall (steel: 0.3)
 */
public record Tube(double boreM, double outerM, double lengthM, double elasticityPa, double poisson) {
    public Tube {
        Require.positive(boreM, "bore", "m");
        Require.positive(outerM - boreM, "outer diameter less bore", "m");
        Require.positive(lengthM, "length", "m");
        Require.positive(elasticityPa, "elastic modulus", "Pa");
        Require.within(poisson, 0, 0.5, "Poisson's ratio", "");
    }

    /** A steel tube. */
    public static Tube ofSteel(double boreM, double outerM, double lengthM) {
        return new Tube(boreM, outerM, lengthM, 206e9, 0.3);
    }

    /** What a bore holds: {@code pi/4 d^2 l}, m³. */
    public static double boreVolumeM3(double boreM, double lengthM) {
        return Math.PI / 4 * boreM * boreM * lengthM;
    }

    /** What it holds, m³. */
    public double volumeM3() {
        return boreVolumeM3(boreM, lengthM);
    }

    /** Container modulus without end load (Lamé): {@code 1/B = (2/E) ((Do²+Di²)/(Do²-Di²) + nu)}, Pa. */
    public double openEndedModulusPa() {
        double inner = boreM * boreM;
        double outer = outerM * outerM;
        return elasticityPa / (2 * ((outer + inner) / (outer - inner) + poisson));
    }

    /**
     * Container modulus where the wall carries the end load (Lamé):
     * {@code 1/B = (3(1-2nu) + 2(1+nu)k²) / (E(k²-1))}, {@code k = Do/Di}, Pa.
     */
    public double closedModulusPa() {
        double k2 = outerM * outerM / (boreM * boreM);
        return elasticityPa * (k2 - 1) / (3 * (1 - 2 * poisson) + 2 * (1 + poisson) * k2);
    }

    /** Thin-wall approximation {@code E t / Di}, Pa: 20 to 45 % too stiff for usual hydraulic tube; for comparison. */
    public double thinWallModulusPa() {
        return elasticityPa * (outerM - boreM) / 2 / boreM;
    }

    /** Volume it swells by per pressure, without end load, m³/Pa. */
    public double complianceM3PerPa() {
        return volumeM3() / openEndedModulusPa();
    }
}
