package org.holdtrace.rig;

import org.holdtrace.quantity.Require;

/**
 * What holds the oil. The hose's compliance falls from {@code c} at low pressure to {@code s c} at high pressure,
 * {@code c (s + (1-s)/(1 + p/p_s)^2)}; it creeps by a share of its elastic swelling in every decade of time.
 *
 * @param rigidM3PerPa swelling of barrel, tubes, gauge, in proportion to pressure, m³/Pa
 * @param hoseM3PerPa compliance c of the hose at low pressure, m³/Pa
 * @param hoseStiffShare s, share of it left at high pressure, 0 to 1
 * @param hoseStiffeningPa p_s, pressure scale of the stiffening, Pa
 * @param creepPerDecade share of the hose's swelling added in every decade of time, 0 for none
 * @param creepFromS shortest creep time, s
 * @param creepToS longest creep time, s, at most six decades more
 * @param expansionPerK volume expansion of the container, 1/K (steel 35e-6); it follows its surroundings at once
 */
public record Walls(
        double rigidM3PerPa,
        double hoseM3PerPa,
        double hoseStiffShare,
        double hoseStiffeningPa,
        double creepPerDecade,
        double creepFromS,
        double creepToS,
        double expansionPerK) {
    public Walls {
        Require.notNegative(rigidM3PerPa, "compliance of rigid parts", "m3/Pa");
        Require.notNegative(hoseM3PerPa, "compliance of the hose", "m3/Pa");
        Require.within(hoseStiffShare, 0, 1, "share of compliance of the stiffened hose", "");
        Require.positive(hoseStiffeningPa, "stiffening pressure of the hose", "Pa");
        Require.within(creepPerDecade, 0, 1, "creep per decade", "");
        Require.positive(creepFromS, "shortest creep time", "s");
        Require.within(creepToS / creepFromS, 1, 1e6, "longest over shortest creep time", "");
        Require.notNegative(expansionPerK, "expansion of the container", "1/K");
    }

    /** Walls that swell in proportion to pressure and do nothing else. */
    public static Walls rigid(double complianceM3PerPa) {
        return new Walls(complianceM3PerPa, 0, 1, 1e7, 0, 1, 1, 0);
    }

    /** Elastic swelling at {@code pressurePa} without creep, m³. */
    double swellingM3(double pressurePa) {
        return rigidM3PerPa * pressurePa + hoseSwellingM3(pressurePa);
    }

    double hoseSwellingM3(double pressurePa) {
        return hoseM3PerPa * pressurePa * (hoseStiffShare + (1 - hoseStiffShare) / (1 + pressurePa / hoseStiffeningPa));
    }

    double hoseCompliance(double pressurePa) {
        double softening = 1 + pressurePa / hoseStiffeningPa;
        return hoseM3PerPa * (hoseStiffShare + (1 - hoseStiffShare) / (softening * softening));
    }

    /** Elastic compliance at {@code pressurePa}, m³/Pa. */
    double complianceM3PerPa(double pressurePa) {
        return rigidM3PerPa + hoseCompliance(pressurePa);
    }

    /** One creep time in the middle of each decade; none where there is no creep. */
    double[] creepTimesS() {
        if (creepPerDecade == 0 || hoseM3PerPa == 0) {
            return new double[0];
        }
        double[] times = new double[Math.max(1, (int) Math.round(StrictMath.log10(creepToS / creepFromS)))];
        double ratio = StrictMath.pow(creepToS / creepFromS, 1.0 / times.length);
        for (int i = 0; i < times.length; i++) {
            times[i] = creepFromS * StrictMath.pow(ratio, i + 0.5);
        }
        return times;
    }
}
