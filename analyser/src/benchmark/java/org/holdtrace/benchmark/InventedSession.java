package org.holdtrace.benchmark;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.Hand;
import org.holdtrace.rig.HandPump;
import org.holdtrace.rig.Heat;
import org.holdtrace.rig.Leaks;
import org.holdtrace.rig.OilFill;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.RigSimulator;
import org.holdtrace.rig.Sensor;
import org.holdtrace.rig.SimulatedRun;
import org.holdtrace.rig.StrokeShape;
import org.holdtrace.rig.TestPlan;
import org.holdtrace.rig.Walls;
import org.holdtrace.session.TestSetup;

/** An invented hold test of five minutes at 250 samples a second: a worn spool on a small-bore line. */
final class InventedSession {
    private static final double BAR = 1e5;
    private static final double CM3 = 1e-6;

    private InventedSession() {}

    static SimulatedRun simulate() {
        return simulate(250, 268);
    }

    /** The same with another sampling rate and another length of the hold. */
    static SimulatedRun simulate(double rateHz, double holdS) {
        Oil oil = Oil.ofGrade("ISO VG 46").orElseThrow();
        OilFill fill = OilFill.of(oil, 295.15, 48 * CM3, 1.42e9, new EntrainedAir(0.005, 1.1), 2000);
        Walls walls = new Walls(1e-15, 8e-14, 0.6, 90 * BAR, 0.01, 0.3, 3000, 35e-6);
        Heat heat = new Heat(List.of(new Heat.Mode(3, 0.7), new Heat.Mode(30, 0.3)), 0, 0.02, 90);
        Hand hand = new Hand(
                0.4, 0.5, 0.1, 0.3, List.of(StrokeShape.HALF_SINE), Hand.Irregularities.none(), 0.1, false);
        Sensor sensor = new Sensor(
                rateHz,
                1e-4,
                Sensor.Scale.sixteenBit(250 * BAR),
                new Sensor.Errors(0.001, 0.2 * BAR, 0, 0, 0.002),
                new Sensor.Noise(0.03 * BAR, 0.01 * BAR, 0.5, 0),
                new Sensor.Faults(0, 1, 0, 1),
                false,
                false);
        TestPlan plan = TestPlan.usual(5, 120 * BAR, holdS, 3, 9e-14);
        Leaks leaks = Leaks.of(new LeakLaw.Laminar(0.15 * CM3 / 60 / (120 * BAR)));
        Rig rig = new Rig(
                fill, walls, heat, new HandPump(0.45 * CM3, 0.01, 0, 300 * BAR), hand, leaks, sensor, List.of(plan));
        return RigSimulator.simulate(rig, new SplittableRandom(1));
    }

    static TestSetup setup() {
        TestSetup none = TestSetup.unknown();
        return new TestSetup(
                Optional.of("Loader 7 (invented)"),
                none.component(),
                none.componentKind(),
                none.port(),
                Optional.of("ISO VG 46"),
                Optional.of(new Quantity(295.15, 2)),
                none.bulkModulusPa(),
                Optional.of(new Quantity(0.005, 0.003)),
                Optional.of(new Quantity(48 * CM3, 5 * CM3)),
                Optional.of(new Quantity(9e-14, 5e-15)),
                Optional.of(new Quantity(0.45 * CM3, 0.01 * CM3)),
                none.bledVolumeM3(),
                none.transducerMinPa(),
                none.transducerMaxPa(),
                none.transducerAccuracy(),
                none.referencePressurePa(),
                none.reliefSettingPa(),
                none.limitM3PerS());
    }
}
