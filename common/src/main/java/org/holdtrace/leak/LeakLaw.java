package org.holdtrace.leak;

import org.holdtrace.quantity.Require;

/**
 * Leak flow against gauge pressure. Flow is a volume of oil at line pressure, m³/s; pressure is in Pa above what is
 * behind the leak. At and below zero pressure nothing flows.
 */
public sealed interface LeakLaw {
    /** Leak flow at {@code pressurePa}, m³/s. Never falls as pressure rises. */
    double flow(double pressurePa);

    /** Slope dq/dp at {@code pressurePa}, m³/(s Pa): 0 below zero; from the right where the law has a bend. */
    double slope(double pressurePa);

    /** Which law it is. */
    Law law();

    /**
     * The same leak with other oil or at another temperature: laminar shares go with 1/viscosity, orifice shares with
     * 1/sqrt(density).
     *
     * @param viscosityRatio new dynamic viscosity over old, above 0
     * @param densityRatio new density over old, above 0
     */
    LeakLaw at(double viscosityRatio, double densityRatio);

    /** No leak. */
    static LeakLaw none() {
        return new None();
    }

    /** No leak: q = 0. */
    record None() implements LeakLaw {
        @Override
        public double flow(double pressurePa) {
            return 0;
        }

        @Override
        public double slope(double pressurePa) {
            return 0;
        }

        @Override
        public Law law() {
            return Law.NONE;
        }

        @Override
        public LeakLaw at(double viscosityRatio, double densityRatio) {
            return this;
        }
    }

    /**
     * A clearance: q = a p.
     *
     * @param a conductance, m³/(s Pa), at least 0
     */
    record Laminar(double a) implements LeakLaw {
        public Laminar {
            Require.notNegative(a, "laminar conductance", "m3/(s Pa)");
        }

        @Override
        public double flow(double pressurePa) {
            return pressurePa > 0 ? a * pressurePa : 0;
        }

        @Override
        public double slope(double pressurePa) {
            return pressurePa >= 0 ? a : 0;
        }

        @Override
        public Law law() {
            return Law.LAMINAR;
        }

        @Override
        public LeakLaw at(double viscosityRatio, double densityRatio) {
            return new Laminar(a / ratio(viscosityRatio, "viscosity"));
        }
    }

    /**
     * A damaged seat or a hole: q = b √p. Its slope at zero pressure is infinite.
     *
     * @param b coefficient, m³/(s √Pa), at least 0
     */
    record Orifice(double b) implements LeakLaw {
        public Orifice {
            Require.notNegative(b, "orifice coefficient", "m3/(s sqrt(Pa))");
        }

        @Override
        public double flow(double pressurePa) {
            return pressurePa > 0 ? b * Math.sqrt(pressurePa) : 0;
        }

        @Override
        public double slope(double pressurePa) {
            return b > 0 && pressurePa >= 0 ? b / (2 * Math.sqrt(pressurePa)) : 0;
        }

        @Override
        public Law law() {
            return Law.ORIFICE;
        }

        @Override
        public LeakLaw at(double viscosityRatio, double densityRatio) {
            return new Orifice(b / Math.sqrt(ratio(densityRatio, "density")));
        }
    }

    /**
     * A clearance and a hole side by side: q = a p + b √p.
     *
     * @param a conductance of the clearance, m³/(s Pa), at least 0
     * @param b coefficient of the hole, m³/(s √Pa), at least 0
     */
    record Mixed(double a, double b) implements LeakLaw {
        public Mixed {
            Require.notNegative(a, "laminar conductance", "m3/(s Pa)");
            Require.notNegative(b, "orifice coefficient", "m3/(s sqrt(Pa))");
        }

        @Override
        public double flow(double pressurePa) {
            return pressurePa > 0 ? a * pressurePa + b * Math.sqrt(pressurePa) : 0;
        }

        @Override
        public double slope(double pressurePa) {
            if (!(pressurePa >= 0)) {
                return 0;
            }
            return a + (b > 0 ? b / (2 * Math.sqrt(pressurePa)) : 0);
        }

        @Override
        public Law law() {
            return Law.MIXED;
        }

        @Override
        public LeakLaw at(double viscosityRatio, double densityRatio) {
            return new Mixed(a / ratio(viscosityRatio, "viscosity"), b / Math.sqrt(ratio(densityRatio, "density")));
        }
    }

    /**
     * A clearance, and a hole beside it where there is one, passed by oil that pressure thickens: viscosity goes with
     * e^(αp) (Barus), and as pressure falls along the clearance, q = a (1 − e^(−αp))/α + b √p. It is the kind of leak
     * that {@link Laminar} and {@link Mixed} are.
     *
     * @param a conductance of the clearance at low pressure, m³/(s Pa), at least 0
     * @param b coefficient of the hole, m³/(s √Pa), 0 for none
     * @param perPa α, 1/Pa, above 0 and at most 1e-7; mineral oil 1.5e-8 to 2.5e-8 (order of magnitude from memory)
     */
    record Thickening(double a, double b, double perPa) implements LeakLaw {
        public Thickening {
            Require.notNegative(a, "laminar conductance", "m3/(s Pa)");
            Require.notNegative(b, "orifice coefficient", "m3/(s sqrt(Pa))");
            Require.within(Require.positive(perPa, "thickening with pressure", "1/Pa"), 0, 1e-7, "thickening", "1/Pa");
        }

        @Override
        public double flow(double pressurePa) {
            return pressurePa > 0 ? a * -StrictMath.expm1(-perPa * pressurePa) / perPa + b * Math.sqrt(pressurePa) : 0;
        }

        @Override
        public double slope(double pressurePa) {
            if (!(pressurePa >= 0)) {
                return 0;
            }
            return a * StrictMath.exp(-perPa * pressurePa) + (b > 0 ? b / (2 * Math.sqrt(pressurePa)) : 0);
        }

        @Override
        public Law law() {
            return b > 0 ? Law.MIXED : Law.LAMINAR;
        }

        @Override
        public LeakLaw at(double viscosityRatio, double densityRatio) {
            return new Thickening(
                    a / ratio(viscosityRatio, "viscosity"), b / Math.sqrt(ratio(densityRatio, "density")), perPa);
        }
    }

    /**
     * A valve that opens too early: q = g max(0, p − p_c).
     *
     * @param g conductance once open, m³/(s Pa), at least 0
     * @param openingPa opening pressure p_c, Pa, at least 0
     */
    record Threshold(double g, double openingPa) implements LeakLaw {
        public Threshold {
            Require.notNegative(g, "conductance once open", "m3/(s Pa)");
            Require.notNegative(openingPa, "opening pressure", "Pa");
        }

        @Override
        public double flow(double pressurePa) {
            return pressurePa > openingPa ? g * (pressurePa - openingPa) : 0;
        }

        @Override
        public double slope(double pressurePa) {
            return pressurePa >= openingPa ? g : 0;
        }

        @Override
        public Law law() {
            return Law.THRESHOLD;
        }

        @Override
        public LeakLaw at(double viscosityRatio, double densityRatio) {
            return new Threshold(g / ratio(viscosityRatio, "viscosity"), openingPa);
        }
    }

    private static double ratio(double value, String name) {
        return Require.positive(value, name + " ratio", "");
    }
}
