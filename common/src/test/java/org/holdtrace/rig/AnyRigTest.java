package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.junit.jupiter.api.Test;

/** Rigs drawn far beyond what is usual: every one must run to its end with its books in order. */
class AnyRigTest {
    private final SplittableRandom random;

    AnyRigTest() {
        random = new SplittableRandom(20_261_125);
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** Evenly spread over orders of magnitude. */
    private double scaled(double low, double high) {
        return low * Math.pow(high / low, random.nextDouble());
    }

    private boolean chance(double share) {
        return random.nextDouble() < share;
    }

    private LeakLaw law(double flow, double atPa) {
        return switch (random.nextInt(6)) {
            case 0 -> LeakLaw.none();
            case 1 -> new LeakLaw.Laminar(flow / atPa);
            case 2 -> new LeakLaw.Orifice(flow / Math.sqrt(atPa));
            case 3 -> new LeakLaw.Mixed(0.5 * flow / atPa, 0.5 * flow / Math.sqrt(atPa));
            case 4 -> new LeakLaw.Thickening(0.6 * flow / atPa, 0.4 * flow / Math.sqrt(atPa), scaled(1e-9, 5e-8));
            default -> new LeakLaw.Threshold(3 * flow / atPa, between(0.2, 0.9) * atPa);
        };
    }

    private Rig draw() {
        Oil oil = Oil.ofViscosityAt40(scaled(15e-6, 150e-6));
        double volume = scaled(5e-6, 20e-3);
        EntrainedAir air = new EntrainedAir(chance(0.2) ? 0 : scaled(1e-4, 5e-2), between(1, 1.4));
        double dissolving = chance(0.4) ? Double.POSITIVE_INFINITY : scaled(5, 5000);
        OilFill fill = OilFill.of(oil, between(265, 345), volume, between(0.8e9, 2.2e9), air, dissolving);
        double hose = chance(0.2) ? 0 : scaled(1e-15, 5e-13);
        double rigid = scaled(1e-17, 1e-13);
        Walls walls = new Walls(
                rigid,
                hose,
                between(0.2, 1),
                scaled(1e6, 3e7),
                between(0, 0.1),
                scaled(0.01, 1),
                scaled(10, 5000),
                35e-6);
        List<Heat.Mode> modes = new ArrayList<>();
        double left = 1;
        int count = random.nextInt(4);
        for (int i = 0; i < count; i++) {
            double weight = i == count - 1 ? left : left * random.nextDouble();
            modes.add(new Heat.Mode(scaled(0.05, 3000), weight));
            left -= weight;
        }
        Heat heat = new Heat(modes, between(-0.005, 0.005), between(0, 0.3), scaled(20, 1000));
        double compliance = volume / 1.4e9 + rigid + hose;
        double target = scaled(20e5, 400e5);
        double stroke = compliance * target * scaled(0.01, 0.5);
        HandPump pump = new HandPump(
                stroke,
                between(0, 0.1),
                scaled(1e-12, 3e-9),
                chance(0.3) ? target * between(0.5, 1.2) : Double.POSITIVE_INFINITY,
                chance(0.5) ? stroke * between(0, 3) : 0,
                chance(0.5) ? new ShutOff(scaled(0.05, 8), stroke * between(0, 1), stroke * 0.1) : ShutOff.none());
        Hand hand = new Hand(
                scaled(0.1, 2),
                scaled(0.05, 2),
                between(0, 0.4),
                between(0, 2),
                List.of(StrokeShape.values()),
                new Hand.Irregularities(between(0, 0.3), between(0, 0.3), 0.5, between(0, 0.2), 2),
                between(0, 0.3),
                chance(0.5));
        TestPlan plan = new TestPlan(
                between(0, 5),
                chance(0.5) ? 0 : stroke * between(0, 4),
                target,
                8,
                150,
                between(5, 40),
                chance(0.8) ? 3 : 0,
                2 * compliance * Math.sqrt(target) / scaled(0.05, 2),
                chance(0.1));
        Sensor perfect = Sensor.perfect(scaled(50, 860), 500e5);
        Leaks leaks = Leaks.of(law(0.5 * stroke * scaled(1e-4, 3), target));
        return new Rig(fill, walls, heat, pump, hand, leaks, perfect, List.of(plan));
    }

    @Test
    void runsToItsEnd() {
        int plateaus = 0;
        for (int i = 0; i < 60; i++) {
            Rig rig = draw();
            SimulatedRun run = RigSimulator.simulate(rig, random);
            Truth.Test test = run.truth().tests().get(0);
            String what = "rig " + i + ": " + rig;
            double pumped =
                    test.strokes().stream().mapToDouble(Truth.Stroke::volumeM3).sum();
            assertTrue(
                    test.peakPa() >= 0
                            && test.peakPa() < 10 * rig.tests().get(0).targetPa(),
                    what);
            assertTrue(test.bledVolumeM3() >= 0 && test.leakedInHoldM3() >= 0, what);
            assertTrue(test.holdEndPa() <= test.peakPa() + 30e5, what); // warming surroundings may raise it
            assertTrue(
                    !test.reachedTarget() || test.peakPa() >= rig.tests().get(0).targetPa(), what);
            assertTrue(pumped > 0 || rig.tests().get(0).drainedM3() > 0, what);
            plateaus += test.plateauMeanPa().isPresent() ? 1 : 0;
        }
        assertTrue(plateaus > 5, "plateaus: " + plateaus);
    }

    @Test
    void keepsItsBooksOfVolume() {
        for (int i = 0; i < 40; i++) {
            Rig rig = draw();
            LinePlant plant = new LinePlant(rig.fill(), rig.walls(), rig.heat(), rig.leaks());
            plant.drain(rig.tests().get(0).drainedM3());
            double worst = 0;
            for (int step = 0; step < 4000; step++) {
                double pumped = step % 100 < 40 && step < 2000 ? rig.pump().strokeM3() / 40 : 0;
                double vent = step > 3000 ? rig.tests().get(0).bleedCoefficient() : 0;
                plant.step(
                        step < 2000 ? 0.005 : 0.01,
                        pumped,
                        vent,
                        3 * rig.tests().get(0).targetPa());
                double booked = plant.pumpedM3() - plant.leakedM3() - plant.bledM3();
                worst = Math.max(worst, Math.abs(plant.storedM3() - booked));
            }
            assertEquals(0, worst, 1e-9 * plant.pumpedM3() + 1e-15 * rig.fill().volumeM3(), "rig " + i + ": " + rig);
        }
    }
}
