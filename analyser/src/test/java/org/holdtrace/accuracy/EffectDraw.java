package org.holdtrace.accuracy;

import static org.holdtrace.accuracy.Units.BAR;
import static org.holdtrace.accuracy.Units.CM3;

import java.util.SplittableRandom;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.rig.HandPump;
import org.holdtrace.rig.Leaks;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.ShutOff;

/**
 * Draws what the model of the analyser leaves out of a pump, its shut-off valve and the oil, each in half of the tests and
 * from a stream of its own, so that nothing else in a corpus depends on it. Ranges of pump and valve are guesses (no
 * source); of the thickening of mineral oil they are Barus coefficients up to 2.2e-8 1/Pa (order of magnitude from memory).
 */
final class EffectDraw {
    private static final double MOST_THICKENING_PER_PA = 2.2e-8;

    private EffectDraw() {}

    /** The rig with what is drawn. */
    static Rig add(SplittableRandom random, Rig rig, Roughness roughness) {
        Draws chamber = new Draws(random.split());
        Draws valve = new Draws(random.split());
        Draws oil = new Draws(random.split());
        HandPump pump = rig.pump();
        double dead = chamber.chance(0.5) ? chamber.even(0.3, 2) * pump.strokeM3() : 0;
        ShutOff shutOff = valve.chance(0.5) ? shutOff(valve, rig, roughness) : ShutOff.none();
        double perPa = oil.chance(0.5) ? oil.even(0, MOST_THICKENING_PER_PA) : 0;
        return rig.withPump(
                        new HandPump(pump.strokeM3(), pump.scatter(), pump.lossPerPa(), pump.reliefPa(), dead, shutOff))
                .withLeaks(new Leaks(
                        thickened(rig.leaks().component(), perPa),
                        thickened(rig.leaks().line(), perPa)));
    }

    /** A valve that is shut before the oil that flows back has cost more than a share of the pressure. */
    private static ShutOff shutOff(Draws draws, Rig rig, Roughness roughness) {
        double withinS = draws.even(0.3, roughness.shutMostS());
        double lost = draws.even(0, roughness.backMost());
        double targetBar = rig.tests().get(0).targetPa() / BAR;
        double storedM3 = Units.complianceCm3PerBar(rig.fill(), rig.walls(), targetBar) * CM3 * targetBar;
        // It falls to nothing linearly: half of what it is at first, on average.
        double back = 2 * lost * storedM3 / withinS;
        return new ShutOff(withinS, back, draws.even(0, roughness.stemMostCm3()) * CM3);
    }

    /** The same clearance at low pressure: under pressure it passes less. */
    private static LeakLaw thickened(LeakLaw law, double perPa) {
        if (perPa == 0) {
            return law;
        }
        if (law instanceof LeakLaw.Laminar clearance) {
            return new LeakLaw.Thickening(clearance.a(), 0, perPa);
        }
        return law instanceof LeakLaw.Mixed both ? new LeakLaw.Thickening(both.a(), both.b(), perPa) : law;
    }
}
