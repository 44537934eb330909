package org.holdtrace.judge;

import org.holdtrace.leak.CylinderDrift;
import org.holdtrace.quantity.Require;

/**
 * A double-acting cylinder with one rod.
 *
 * @param name its name
 * @param boreM bore, m
 * @param rodM rod diameter, m, below the bore
 * @param strokeM stroke, m
 * @param boreNode node on the side without rod
 * @param rodNode node on the rod side
 * @param unloaded what becomes of the side that carries no load while the spool stands in its middle position
 */
public record Cylinder(
        String name, double boreM, double rodM, double strokeM, String boreNode, String rodNode, Centre unloaded) {
    public Cylinder {
        Require.positive(boreM, "bore", "m");
        Require.positive(rodM, "rod", "m");
        Require.positive(strokeM, "stroke", "m");
        if (!(rodM < boreM)) {
            throw new IllegalArgumentException("the rod is as thick as the bore of " + name);
        }
    }

    /** What a spool in its middle position does with a work port. */
    public enum Centre {
        /** It is blocked. */
        BLOCKED("blocked"),
        /** It is open to the reservoir, as it must be behind valves that hold a load. */
        OPEN_TO_TANK("open to tank");

        private final String label;

        Centre(String label) {
            this.label = label;
        }

        /** The words used in case files. */
        public String label() {
            return label;
        }
    }

    /** Area of the piston, m². */
    public double boreAreaM2() {
        return CylinderDrift.pistonAreaM2(boreM);
    }

    /** Area on the rod side, m². */
    public double rodSideAreaM2() {
        return CylinderDrift.annulusAreaM2(boreM, rodM);
    }

    /** Area of the rod, m². */
    public double rodAreaM2() {
        return CylinderDrift.pistonAreaM2(rodM);
    }

    /** Area on the side of {@code node}, m². */
    public double areaAtM2(String node) {
        return node.equals(boreNode) ? boreAreaM2() : rodSideAreaM2();
    }

    /** The node on the other side of the piston from {@code node}. */
    public String across(String node) {
        return node.equals(boreNode) ? rodNode : boreNode;
    }

    /** Whether {@code node} is one of its sides. */
    public boolean has(String node) {
        return node.equals(boreNode) || node.equals(rodNode);
    }
}
