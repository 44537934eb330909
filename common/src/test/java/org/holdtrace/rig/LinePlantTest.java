package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.holdtrace.fluid.BulkModulus;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.junit.jupiter.api.Test;

/** The plant against closed forms, and its books against themselves. */
class LinePlantTest {
    private static final double ML = 1e-6;
    private static final double BAR = 1e5;
    private static final double NO_CEILING = Double.POSITIVE_INFINITY;

    /** Oil of nearly constant modulus (C-04's 100 mL at 1.30 GPa), no air, no heat. */
    private static OilFill plainOil(double volumeM3, double modulusPa) {
        return new OilFill(volumeM3, modulusPa, 0.5, 0, 293.15, 0, EntrainedAir.none(), Double.POSITIVE_INFINITY);
    }

    private static LinePlant pumpedTo(LinePlant plant, double pressurePa, double complianceM3PerPa) {
        double missing = pressurePa - plant.pressurePa();
        while (missing > 1) {
            plant.step(1e-6, missing * complianceM3PerPa, 0, NO_CEILING);
            missing = pressurePa - plant.pressurePa();
        }
        return plant;
    }

    private static void run(LinePlant plant, double durationS, double stepS) {
        int steps = (int) Math.round(durationS / stepS);
        for (int i = 0; i < steps; i++) {
            plant.step(stepS, 0, 0, NO_CEILING);
        }
    }

    @Test
    void laminarLeakDecaysExponentially() {
        // C-04, computed: tau = 461.538 s, 27.2532 bar after 600 s.
        LinePlant plant = new LinePlant(
                plainOil(100 * ML, 1.30e9), Walls.rigid(0), Heat.none(), Leaks.of(new LeakLaw.Laminar(1.66667e-16)));
        pumpedTo(plant, 100 * BAR, 100 * ML / 1.30e9);
        run(plant, 319.914, 0.319914);
        assertEquals(50.0 * BAR, plant.pressurePa(), 0.005 * BAR); // oil's volume and modulus change by 1e-4 here
        run(plant, 600 - 319.914, 0.280086);
        assertEquals(27.2532 * BAR, plant.pressurePa(), 0.005 * BAR);
    }

    @Test
    void orificeLeakEmptiesTheLineInItsTime() {
        // C-05, computed: 12.2500 bar after 600 s, empty after 923.077 s.
        LinePlant plant = new LinePlant(
                plainOil(100 * ML, 1.30e9), Walls.rigid(0), Heat.none(), Leaks.of(new LeakLaw.Orifice(5.27046e-13)));
        pumpedTo(plant, 100 * BAR, 100 * ML / 1.30e9);
        run(plant, 600, 0.3);
        assertEquals(12.2500 * BAR, plant.pressurePa(), 0.005 * BAR);
        while (plant.pressurePa() > 0) {
            plant.step(0.05, 0, 0, NO_CEILING);
        }
        assertEquals(923.077, plant.timeS(), 0.3);
        run(plant, 10, 0.1);
        assertEquals(0, plant.pressurePa());
        assertEquals(plant.pumpedM3(), plant.leakedM3(), 1e-9 * plant.pumpedM3());
    }

    @Test
    void fastCompressionSettlesByTheShareOfItsHeat() {
        // TH-08 with BM-02's numbers, computed: a rigid volume loses 13.28 % of a (small) step as its oil cools.
        double heating = 7.0e-4 * 313.15 / (870 * 1900);
        double isothermal = 1.43084e9;
        OilFill fill = new OilFill(
                1e-4, isothermal, 5.6, 7.0e-4, 313.15, heating, EntrainedAir.none(), Double.POSITIVE_INFINITY);
        LinePlant plant = new LinePlant(fill, Walls.rigid(0), Heat.single(30), Leaks.of(LeakLaw.none()));
        double pumped = 1e-4 * 1 * BAR / 1.650e9;
        plant.step(1e-6, pumped, 0, NO_CEILING);
        double peak = plant.pressurePa();
        assertEquals(1.0 * BAR, peak, 1e-3 * BAR); // the isentropic modulus: 1.650 GPa
        run(plant, 600, 0.1);
        assertEquals(0.1328, 1 - plant.pressurePa() / peak, 2e-4);
        assertEquals(313.15, plant.oilTemperatureK(), 1e-4);
    }

    @Test
    void coolingSurroundingsLowerPressureAsMuchAsTheyShould() {
        // TH-10, computed: 150 mL, 7.4e-4 1/K, 1.30 GPa, -0.10 K/min: -0.962 bar/min.
        OilFill fill =
                new OilFill(150 * ML, 1.30e9, 0.5, 7.4e-4, 293.15, 0, EntrainedAir.none(), Double.POSITIVE_INFINITY);
        LinePlant plant =
                new LinePlant(fill, Walls.rigid(0), new Heat(List.of(), -0.1 / 60, 0, 1), Leaks.of(LeakLaw.none()));
        pumpedTo(plant, 50 * BAR, 150 * ML / 1.30e9);
        double before = plant.pressurePa();
        run(plant, 60, 0.1);
        assertEquals(-0.962 * BAR, plant.pressurePa() - before, 0.001 * BAR);
    }

    @Test
    void creepTakesItsShareInTheEnd() {
        // Closed form: a volume kept by hose alone falls to p0/(1 + decades x share) when all its creep is over.
        Walls hose = new Walls(0, 1e-13, 1, 1e7, 0.03, 1, 1000, 0);
        LinePlant plant = new LinePlant(plainOil(1e-9, 1e12), hose, Heat.none(), Leaks.of(LeakLaw.none()));
        plant.step(1e-6, 1e-13 * 100 * BAR, 0, NO_CEILING);
        double start = plant.pressurePa();
        assertEquals(100 * BAR, start, 0.002 * BAR);
        run(plant, 10_000, 1);
        assertEquals(start / (1 + 3 * 0.03), plant.pressurePa(), 1e-3 * BAR);
    }

    @Test
    void complianceIsWhatAStepOfPumpingShows() {
        // Truth's compliance against the plant's answer to a small volume, heat kept (isentropic) and absent.
        Oil oil = Oil.ofGrade("ISO VG 46").orElseThrow();
        OilFill fill = OilFill.of(oil, 295, 60 * ML, 1.5e9, new EntrainedAir(0.008, 1.2), Double.POSITIVE_INFINITY);
        Walls walls = new Walls(2e-15, 9e-14, 0.4, 80 * BAR, 0, 1, 1, 0);
        for (boolean heated : new boolean[] {true, false}) {
            OilFill used = heated
                    ? fill
                    : new OilFill(
                            fill.volumeM3(), fill.modulusPa(), 5.6, 0, 295, 0, fill.air(), Double.POSITIVE_INFINITY);
            LinePlant plant = new LinePlant(used, walls, Heat.single(1e9), Leaks.of(LeakLaw.none()));
            LineCompliance truth = new LineCompliance(used, walls, plant.undissolvedM3());
            for (double target : new double[] {2 * BAR, 40 * BAR, 180 * BAR}) {
                pumpedTo(plant, target, truth.isothermal(target) * 0.2);
                double p = plant.pressurePa();
                double volume = 1e-4 * truth.isothermal(p) * p;
                plant.step(1e-6, volume, 0, NO_CEILING);
                double mid = 0.5 * (p + plant.pressurePa());
                // The pumped volume is compressed on its way in, the compliance counts oil at line pressure.
                double atLine = volume * (1 - mid / (used.modulusPa() + 5.6 * mid));
                double seen = atLine / (plant.pressurePa() - p);
                double expected = heated ? truth.isentropic(mid) : truth.isothermal(mid);
                // Warm oil takes up to 0.2 % more room, which the compliance leaves out.
                assertEquals(expected, seen, 2.5e-3 * expected, "at " + target + " Pa");
            }
        }
    }

    @Test
    void theBooksOfVolumeClose() {
        Rig rig = RigExamples.everything();
        LinePlant plant = new LinePlant(rig.fill(), rig.walls(), rig.heat(), rig.leaks());
        double worst = 0;
        for (int i = 0; i < 120_000; i++) {
            double pumped = i % 1000 < 300 && i < 30_000 ? 0.5 * ML / 300 : 0;
            double vent = i > 100_000 ? 1e-9 : 0;
            plant.setReturn((i > 30_000 && i < 40_000) || i > 110_000 ? 1e-15 : 0);
            plant.step(i % 7 == 0 ? 0.002 : 0.001, pumped, vent, 160 * BAR);
            double booked = plant.pumpedM3() - plant.leakedM3() - plant.bledM3() - plant.returnedM3();
            worst = Math.max(worst, Math.abs(plant.storedM3() - booked));
        }
        assertTrue(plant.bledM3() > 0 && plant.leakedM3() > 0 && plant.returnedM3() > 0);
        assertEquals(0, plant.pressurePa(), 10); // the surroundings warm, and what they press out has to flow
        assertTrue(worst <= 1e-9 * plant.pumpedM3(), "volume is off by " + worst + " of " + plant.pumpedM3() + " m3");
    }

    @Test
    void theBooksOfEnergyClose() {
        // Pump work less what leaks out under pressure is what the compliance stores, integral of p C dp; no heat.
        OilFill fill =
                new OilFill(80 * ML, 1.4e9, 5.6, 0, 293.15, 0, new EntrainedAir(0.005, 1.1), Double.POSITIVE_INFINITY);
        Walls walls = new Walls(1e-15, 8e-14, 0.5, 90 * BAR, 0, 1, 1, 0);
        LeakLaw law = new LeakLaw.Mixed(2e-15, 3e-12);
        LinePlant plant = new LinePlant(fill, walls, Heat.none(), Leaks.of(law));
        double work = 0;
        double lost = 0;
        double step = 5e-4;
        for (int i = 0; i < 60_000; i++) {
            double pumped = i < 20_000 ? 0.35 * ML * step : 0;
            double p0 = plant.pressurePa();
            plant.step(step, pumped, 0, NO_CEILING);
            double mid = 0.5 * (p0 + plant.pressurePa());
            work += mid * pumped * (1 - mid / (fill.modulusPa() + 5.6 * mid));
            lost += 0.5 * step * (p0 * law.flow(p0) + plant.pressurePa() * law.flow(plant.pressurePa()));
        }
        LineCompliance compliance = new LineCompliance(fill, walls, plant.undissolvedM3());
        double stored = 0;
        int slices = 200_000;
        double slice = plant.pressurePa() / slices;
        for (int i = 0; i < slices; i++) {
            double p = (i + 0.5) * slice;
            stored += p * compliance.isothermal(p) * slice;
        }
        assertTrue(stored > 0.2 * work && lost > 0.1 * work);
        // The amount of oil, and so its compliance, changes by what was pumped: 4 parts in 100 of a small term.
        assertEquals(work - lost, stored, 2e-3 * work);
    }

    @Test
    void halvingTheStepQuartersTheError() {
        // The method is of second order. Half a second of a leaking, cooling, creeping line after a smooth pump-up.
        double exact = settledPressure(1.0 / 65_536);
        double coarse = Math.abs(settledPressure(1.0 / 128) - exact);
        double fine = Math.abs(settledPressure(1.0 / 256) - exact);
        assertEquals(4.0, coarse / fine, 0.3);
    }

    private static double settledPressure(double stepS) {
        Rig rig = RigExamples.everything();
        LinePlant plant = new LinePlant(rig.fill(), rig.walls(), rig.heat(), Leaks.of(new LeakLaw.Mixed(6e-15, 8e-12)));
        int steps = (int) Math.round(2 / stepS);
        for (int i = 0; i < steps; i++) {
            double x0 = Math.min(1, i * stepS);
            double x1 = Math.min(1, (i + 1) * stepS);
            double pumped = 6 * ML * (StrokeShape.BELL.share(x1) - StrokeShape.BELL.share(x0));
            plant.step(stepS, pumped, 0, NO_CEILING);
        }
        return plant.pressurePa();
    }

    @Test
    void aDrainedLineMustBeFilledFirst() {
        LinePlant plant =
                new LinePlant(plainOil(100 * ML, 1.30e9), Walls.rigid(0), Heat.none(), Leaks.of(LeakLaw.none()));
        plant.drain(2 * ML);
        plant.step(0.5, 1.5 * ML, 0, NO_CEILING);
        assertEquals(0, plant.pressurePa());
        assertEquals(0.5 * ML, plant.voidM3(), 1e-15);
        plant.step(0.5, 0.5 * ML + 100 * ML * 10 * BAR / 1.30e9, 0, NO_CEILING);
        assertEquals(10 * BAR, plant.pressurePa(), 0.01 * BAR);
    }

    @Test
    void thePumpsReliefKeepsItsPressure() {
        LinePlant plant = new LinePlant(
                plainOil(100 * ML, 1.30e9), Walls.rigid(0), Heat.none(), Leaks.of(new LeakLaw.Laminar(1e-15)));
        double delivered = 0;
        for (int i = 0; i < 3000; i++) {
            delivered += plant.step(1e-3, 1e-9, 0, 120 * BAR);
            assertTrue(plant.pressurePa() <= 120 * BAR + 1);
        }
        assertEquals(120 * BAR, plant.pressurePa(), 1);
        assertEquals(plant.pumpedM3(), delivered, 1e-18);
        // At the ceiling only what leaks goes in: 1e-15 x 120 bar, 0.9 % more as volume at atmospheric pressure.
        double before = plant.pumpedM3();
        plant.step(1, 1e-6, 0, 120 * BAR);
        assertEquals(1e-15 * 120 * BAR, plant.pumpedM3() - before, 0.02 * 1e-15 * 120 * BAR);
    }

    @Test
    void dissolvingAirLowersPressureThoughNothingLeaks() {
        OilFill fill = new OilFill(100 * ML, 1.4e9, 5.6, 0, 293.15, 0, new EntrainedAir(0.02, 1), 200);
        LinePlant plant = new LinePlant(fill, Walls.rigid(0), Heat.none(), Leaks.of(LeakLaw.none()));
        plant.step(1e-3, 2.5 * ML, 0, NO_CEILING);
        double start = plant.pressurePa();
        run(plant, 3000, 1);
        double missing = 2 * ML * Oil.ATMOSPHERE_PA / (Oil.ATMOSPHERE_PA + start);
        double compliance = new LineCompliance(fill, Walls.rigid(0), 0).isothermal(start);
        assertEquals(missing / compliance, start - plant.pressurePa(), 0.15 * missing / compliance);
        assertEquals(0, plant.undissolvedM3(), 1e-3 * 2 * ML);
        assertEquals(0, plant.leakedM3());
    }

    @Test
    void oilIsStifferUnderPressureByItsSlope() {
        // BM-04 and BM-01: from 0 to 200 bar at 40 degC (v = 46 mm2/s at 20 degC) the secant modulus is 1.5057 GPa.
        double modulus = BulkModulus.isothermalSecantPa(46e-6, 313.15, 0);
        OilFill fill = new OilFill(1e-4, modulus, 5.6, 0, 313.15, 0, EntrainedAir.none(), Double.POSITIVE_INFINITY);
        LinePlant plant = new LinePlant(fill, Walls.rigid(0), Heat.none(), Leaks.of(LeakLaw.none()));
        double share = 200 * BAR / 1.5057e9;
        plant.step(1, 1e-4 * share / (1 - share), 0, NO_CEILING);
        assertEquals(200 * BAR, plant.pressurePa(), 0.02 * BAR);
    }
}
