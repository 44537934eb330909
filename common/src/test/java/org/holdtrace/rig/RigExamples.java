package org.holdtrace.rig;

import java.util.List;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;

/** Rigs the tests share. */
final class RigExamples {
    private static final double BAR = 1e5;

    private RigExamples() {}

    /** Everything the simulator knows at once. */
    static Rig everything() {
        Oil oil = Oil.ofGrade("ISO VG 46").orElseThrow();
        OilFill fill = OilFill.of(oil, 295.15, 60e-6, 1.5e9, new EntrainedAir(0.006, 1.2), 400);
        Walls walls = new Walls(1e-15, 8e-14, 0.5, 90 * BAR, 0.02, 0.3, 3000, 35e-6);
        Heat heat = new Heat(
                List.of(new Heat.Mode(3, 0.6), new Heat.Mode(30, 0.3), new Heat.Mode(200, 0.1)), 0.2 / 600, 0.05, 90);
        HandPump pump = new HandPump(0.45e-6, 0.02, 1e-10, 250 * BAR);
        Hand hand = new Hand(
                0.5,
                0.5,
                0.15,
                0.4,
                List.of(StrokeShape.values()),
                new Hand.Irregularities(0.1, 0.1, 0.3, 0.05, 2),
                0.08,
                false);
        Sensor sensor = new Sensor(
                250,
                2e-4,
                Sensor.Scale.sixteenBit(250 * BAR),
                new Sensor.Errors(0.002, 0.3 * BAR, 0.05 * BAR, 2e-4 * BAR, 0.002),
                new Sensor.Noise(0.03 * BAR, 0.02 * BAR, 0.5, 1e-4 * BAR),
                new Sensor.Faults(0.01, 8 * BAR, 0.01, 30),
                true,
                true);
        double compliance = new LineCompliance(fill, walls, 0).isothermal(100 * BAR);
        TestPlan first = TestPlan.usual(5, 120 * BAR, 60, 3, compliance);
        TestPlan second = new TestPlan(4, 1.2e-6, 140 * BAR, 6, 200, 40, 3, first.bleedCoefficient(), false);
        return new Rig(
                fill,
                walls,
                heat,
                pump,
                hand,
                new Leaks(new LeakLaw.Mixed(3e-16, 4e-13), new LeakLaw.Laminar(1e-17)),
                sensor,
                List.of(first, second));
    }

    /** A plain line of half a litre with a laminar leak, nothing disturbed, nothing random. */
    static Rig plain(LeakLaw law) {
        OilFill fill = new OilFill(500e-6, 1.5e9, 5.6, 0, 293.15, 0, EntrainedAir.none(), Double.POSITIVE_INFINITY);
        Walls walls = Walls.rigid(5e-14);
        return new Rig(
                fill,
                walls,
                Heat.none(),
                HandPump.exact(0.45e-6),
                Hand.regular(0.4, 0.4),
                Leaks.of(law),
                Sensor.perfect(250, 250 * BAR),
                List.of(TestPlan.usual(5, 120 * BAR, 60, 3, new LineCompliance(fill, walls, 0).isothermal(100 * BAR))));
    }
}
