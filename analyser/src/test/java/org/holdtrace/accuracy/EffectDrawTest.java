package org.holdtrace.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.BinomialDistribution;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.rig.HandPump;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.ShutOff;
import org.junit.jupiter.api.Test;

class EffectDrawTest {
    private static final double RARE = 1e-4;

    @Test
    void halfOfTheRigsHaveEachEffectWithinItsRangeAndAreOtherwiseTheSame() {
        int rigs = 400;
        int dead = 0;
        int late = 0;
        int thick = 0;
        for (int i = 0; i < rigs; i++) {
            Draws draws = new Draws(new SplittableRandom(i));
            Rig plain = RigDraw.draw(draws, Family.SPOOL_WORN, Roughness.ROUGH, false)
                    .rig();
            Rig rig = EffectDraw.add(new SplittableRandom(1000 + i), plain, Roughness.ROUGH);
            HandPump pump = rig.pump();
            ShutOff valve = pump.shutOff();
            dead += within(pump.deadVolumeM3() / pump.strokeM3(), 0.3, 2);
            late += within(valve.withinS(), 0.3, 5);
            assertTrue(valve.stemM3() <= 0.02e-6);
            if (rig.leaks().component() instanceof LeakLaw.Thickening law) {
                thick += within(law.perPa(), 0, 2.2e-8);
                LeakLaw before = plain.leaks().component();
                assertEquals(before.law(), law.law());
                assertEquals(before.slope(0), law.slope(0));
                assertTrue(law.flow(1e7) < before.flow(1e7));
            }
            HandPump without = new HandPump(pump.strokeM3(), pump.scatter(), pump.lossPerPa(), pump.reliefPa());
            assertEquals(plain, rig.withPump(without).withLeaks(plain.leaks()));
        }
        BinomialDistribution half = new BinomialDistribution(rigs, 0.5);
        for (int count : new int[] {dead, late, thick}) {
            assertEquals(rigs / 2.0, count, half.inverseCumulativeProbability(1 - RARE) - rigs / 2.0);
        }
    }

    private static int within(double value, double low, double high) {
        if (value == 0) {
            return 0;
        }
        assertTrue(low <= value && value <= high, () -> value + " is not from " + low + " to " + high);
        return 1;
    }
}
