package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.holdtrace.leak.LeakLaw;
import org.junit.jupiter.api.Test;

class LiveRigTest {
    private static final double BAR = 1e5;

    @Test
    void aHandCanWorkItStepByStep() {
        LiveRig rig = new LiveRig(RigExamples.plain(new LeakLaw.Laminar(4e-16)), new SplittableRandom(1));
        rig.advance(2);
        assertEquals(0, rig.pressurePa());
        double before = 0;
        for (int i = 0; i < 5; i++) {
            assertTrue(rig.stroke());
            assertFalse(rig.stroke(), "a second push during a stroke does nothing");
            while (rig.isStroking()) {
                rig.advance(0.004);
            }
            assertTrue(rig.pressurePa() > before + 3 * BAR);
            before = rig.pressurePa();
        }
        rig.advance(30);
        assertTrue(rig.pressurePa() < before && rig.pressurePa() > 0.8 * before);
        assertEquals(rig.pressurePa(), rig.readingPa(), 1);
        rig.letOff();
        rig.advance(4);
        assertEquals(0, rig.pressurePa(), 10);
        assertTrue(rig.bledM3() > 1e-6);
        rig.shut();
        rig.stroke();
        rig.advance(1);
        assertTrue(rig.pressurePa() > 3 * BAR);
    }

    @Test
    void itCanBeBrokenAndMendedUnderPressure() {
        LiveRig rig = new LiveRig(RigExamples.plain(LeakLaw.none()), new SplittableRandom(1));
        rig.stroke();
        rig.advance(5);
        double tight = rig.pressurePa();
        rig.advance(10);
        assertEquals(tight, rig.pressurePa(), 1e-9 * tight);
        rig.setLeaks(Leaks.of(new LeakLaw.Laminar(4e-15)));
        rig.advance(10);
        double leaking = rig.pressurePa();
        // p exp(-a t/C) with C = V/K + walls, which the oil's stiffening changes by less than a percent at 12 bar.
        double complianceM3PerPa = 500e-6 / 1.5e9 + 5e-14;
        assertEquals(tight * Math.exp(-4e-15 * 10 / complianceM3PerPa), leaking, 0.01 * tight);
        rig.setLeaks(Leaks.of(LeakLaw.none()));
        rig.advance(10);
        assertEquals(leaking, rig.pressurePa(), 1e-9 * tight);
    }

    @Test
    void itMakesNoOddsHowTimeIsCut() {
        // 1 ms here, 20 ms there: the rig cuts long spans itself.
        double fine = afterOneStroke(0.001);
        assertEquals(fine, afterOneStroke(0.02), 1e-4 * fine);
    }

    private static double afterOneStroke(double spanS) {
        LiveRig rig = new LiveRig(RigExamples.plain(new LeakLaw.Laminar(4e-15)), new SplittableRandom(1));
        rig.stroke();
        int spans = (int) Math.round(2 / spanS);
        for (int i = 0; i < spans; i++) {
            rig.advance(spanS);
        }
        return rig.pressurePa();
    }
}
