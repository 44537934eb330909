package org.holdtrace.accuracy;

import org.holdtrace.fluid.Oil;
import org.holdtrace.rig.OilFill;
import org.holdtrace.rig.Walls;

/** Units a workshop speaks in, and the true compliance of a drawn line. */
final class Units {
    static final double BAR = 1e5;
    static final double CM3 = 1e-6;
    static final double CM3_PER_MIN = 1e-6 / 60;
    static final double CM3_PER_BAR = 1e-11;

    private Units() {}

    /** What walls swell by, creep apart, m³; the law of {@link Walls}. */
    static double swellingM3(Walls walls, double pa) {
        double soft = (1 - walls.hoseStiffShare()) / (1 + pa / walls.hoseStiffeningPa());
        return walls.rigidM3PerPa() * pa + walls.hoseM3PerPa() * pa * (walls.hoseStiffShare() + soft);
    }

    /** Compliance of the oil alone at a pressure, cm³/bar. */
    static double oilCm3PerBar(OilFill fill, double bar) {
        return fill.volumeM3() / Oil.tangentModulusPa(fill.modulusPa(), fill.secantSlope(), bar * BAR) / CM3_PER_BAR;
    }

    /** Compliance of the air alone at a pressure, cm³/bar. */
    static double airCm3PerBar(OilFill fill, double bar) {
        return fill.volumeM3() * fill.air().compliancePerPa(bar * BAR) / CM3_PER_BAR;
    }

    /** Tangent compliance of the walls at a pressure, cm³/bar. */
    static double wallsCm3PerBar(Walls walls, double bar) {
        double soft = 1 + bar * BAR / walls.hoseStiffeningPa();
        return (walls.rigidM3PerPa()
                        + walls.hoseM3PerPa() * (walls.hoseStiffShare() + (1 - walls.hoseStiffShare()) / (soft * soft)))
                / CM3_PER_BAR;
    }

    static double complianceCm3PerBar(OilFill fill, Walls walls, double bar) {
        return oilCm3PerBar(fill, bar) + airCm3PerBar(fill, bar) + wallsCm3PerBar(walls, bar);
    }
}
