package org.holdtrace.accuracy;

import static org.holdtrace.accuracy.Units.BAR;
import static org.holdtrace.accuracy.Units.CM3;
import static org.holdtrace.accuracy.Units.CM3_PER_BAR;
import static org.holdtrace.accuracy.Units.CM3_PER_MIN;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdtrace.fluid.EntrainedAir;
import org.holdtrace.fluid.Oil;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.HandPump;
import org.holdtrace.rig.Heat;
import org.holdtrace.rig.Leaks;
import org.holdtrace.rig.OilFill;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.TestPlan;
import org.holdtrace.rig.Walls;

/**
 * Draws a test line, a pump that goes with it, a leak and a hand. Sizes are those of mobile and press hydraulics: hoses of
 * 0.8 to 3 m and 4 to 6.4 mm bore, ports of 5 to 100 cm³, cylinders of 0.1 to 6 l, pumps of 0.25 to 14 cm³ a stroke
 * (common practice, no source). What does not go together (a pump that needs 2 or 2000 strokes) is drawn again.
 */
final class RigDraw {
    /** A drawn rig with what a setup may say of it. */
    record Drawn(Rig rig, int grade, double celsius, double targetBar, double accuracy, Optional<Quantity> statedAir) {}

    private static final int[] GRADES = {22, 32, 32, 46, 46, 46, 68, 68, 100};

    private final Draws draws;
    private final Family family;
    private final Roughness roughness;
    private final boolean mustBleed;

    private double targetBar;
    private OilFill fill;
    private Walls walls;
    private double compliance;

    private RigDraw(Draws draws, Family family, Roughness roughness, boolean mustBleed) {
        this.draws = draws;
        this.family = family;
        this.roughness = roughness;
        this.mustBleed = mustBleed;
    }

    /**
     * @param mustBleed whether oil must be caught at the end
     */
    static Drawn draw(Draws draws, Family family, Roughness roughness, boolean mustBleed) {
        RigDraw maker = new RigDraw(draws, family, roughness, mustBleed);
        for (int i = 0; i < 100_000; i++) {
            Drawn drawn = maker.tryOnce();
            if (drawn != null) {
                return drawn;
            }
        }
        throw new IllegalStateException("no rig of family " + family + " goes together");
    }

    private Drawn tryOnce() {
        targetBar = 5 * Math.round(draws.even(60, 250) / 5);
        int grade = GRADES[(int) draws.even(0, GRADES.length)];
        double celsius = draws.even(roughness.lowestCelsius(), roughness.highestCelsius());
        Quantity statedAir = drawFillAndWalls(grade, celsius);
        HandDraw hand = HandDraw.draw(draws, roughness);
        double periodS = hand.periodS();
        double content = contentCm3(targetBar);
        double strokes = family.isCylinder() ? draws.spread(12, 230) : draws.spread(8, 45);
        double strokeCm3 = content / strokes;
        if (strokeCm3 < (family.isCylinder() ? 0.5 : 0.2) || strokeCm3 > (family.isCylinder() ? 14 : 3)) {
            return null;
        }
        double pumpCm3PerS = strokeCm3 / periodS;
        LeakLaw law = LeakDraw.draw(draws, family, targetBar, pumpCm3PerS);
        double flowCm3PerS = law.flow(targetBar * BAR) / CM3;
        double lostInPause = 1 - Math.exp(-flowCm3PerS * hand.hand().pauseS() / (compliance * targetBar));
        boolean stalls = family == Family.SPOOL_PLATEAU;
        boolean outrun = !stalls && (flowCm3PerS > 0.72 * pumpCm3PerS || lostInPause > 0.55);
        if (outrun || lostInPause > 0.85) {
            return null;
        }
        Leaks leaks = family == Family.LINE_CHECK ? new Leaks(LeakLaw.none(), law) : Leaks.of(law);
        boolean pumpRelief = !stalls && draws.chance(0.04);
        HandPump pump = new HandPump(
                strokeCm3 * CM3,
                draws.even(0.25, 1) * roughness.strokeScatterMost(),
                draws.chance(0.5) ? 0 : draws.even(0, 5e-10),
                pumpRelief ? targetBar * draws.even(0.88, 0.97) * BAR : Double.POSITIVE_INFINITY);
        List<TestPlan> plans = new ArrayList<>();
        int tests = draws.chance(0.12) && !mustBleed ? 2 : 1;
        for (int i = 0; i < tests; i++) {
            plans.add(plan(i == tests - 1, tests == 1, strokeCm3, flowCm3PerS));
        }
        double reachedBar = stalls ? Math.min(targetBar, plateauBar(law, pumpCm3PerS)) : targetBar;
        SensorDraw sensor = SensorDraw.draw(draws, roughness, reachedBar, strokes < 15);
        Rig rig = new Rig(fill, walls, heat(), pump, hand.hand(), leaks, sensor.sensor(), plans);
        return new Drawn(rig, grade, celsius, targetBar, sensor.accuracy(), Optional.ofNullable(statedAir));
    }

    private double plateauBar(LeakLaw law, double pumpCm3PerS) {
        double low = 0;
        double high = 2 * targetBar;
        for (int i = 0; i < 60; i++) {
            double middle = 0.5 * (low + high);
            if (law.flow(middle * BAR) / CM3 < pumpCm3PerS) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 1.5 * low;
    }

    private Quantity drawFillAndWalls(int grade, double celsius) {
        Oil oil = new Oil(
                grade * draws.even(0.9, 1.1) * 1e-6, draws.even(90, 150), draws.even(850, 885), draws.even(1850, 2000));
        double kelvin = Oil.ZERO_CELSIUS_K + celsius;
        double modulusPa = oil.isothermalModulusPa(kelvin).value() * (1 + 0.08 * draws.normal(2.5));
        double hoseM = draws.even(0.8, 3);
        double boreM = draws.pick(0.004, 0.005, 0.00635);
        double hoseCm3 = Math.PI / 4 * boreM * boreM * hoseM / CM3;
        double partCm3 = family.isCylinder()
                ? draws.spread(100, 6000)
                : family.isCheck()
                        ? draws.spread(15, 300)
                        : family == Family.LINE_CHECK ? draws.spread(1, 8) : draws.spread(5, 100);
        double volumeCm3 = hoseCm3 + partCm3;
        // Wire-braid and microbore hoses, by their apparent modulus; textile ones are four times as soft.
        double hoseCompliance = hoseCm3 / draws.spread(600, 6000);
        double rigid = partCm3 / draws.spread(2e5, 4e5);
        walls = new Walls(
                rigid * CM3_PER_BAR,
                hoseCompliance * CM3_PER_BAR,
                draws.even(0.45, 1),
                draws.even(20, 150) * BAR,
                draws.chance(0.1) ? 0 : draws.even(0.002, 0.05),
                draws.spread(0.1, 1),
                draws.spread(1000, 10_000),
                35e-6);
        double air = draws.spread(roughness.airMost() / 12, roughness.airMost());
        Quantity statedAir = null;
        if (draws.chance(0.4)) {
            // A share known to half of itself is a guess: the truth lies about what is stated.
            statedAir = new Quantity(air, 0.5 * air);
            air *= Math.max(0.1, 1 + 0.5 * draws.normal(2));
        }
        double index = draws.chance(0.6) ? 1 : draws.even(1, 1.25);
        fill = new OilFill(
                volumeCm3 * CM3,
                modulusPa,
                draws.even(4.6, 6.4),
                oil.expansionPerK(kelvin) * draws.even(0.95, 1.05),
                kelvin,
                oil.compressionHeatingKPerPa(kelvin) * draws.even(0.93, 1.07),
                new EntrainedAir(air, index),
                draws.chance(0.45) ? Double.POSITIVE_INFINITY : draws.spread(400, 6000));
        compliance = Units.complianceCm3PerBar(fill, walls, targetBar);
        return statedAir;
    }

    /** Volume that brings the line to a pressure, about. */
    private double contentCm3(double bar) {
        double pa = bar * BAR;
        double volume = fill.volumeM3();
        double oil = volume * pa / (fill.modulusPa() + fill.secantSlope() * pa);
        double gas = volume * fill.air().fraction() * pa / (pa + Oil.ATMOSPHERE_PA);
        return (oil + gas + Units.swellingM3(walls, pa)) / CM3;
    }

    /** Heat leaves by up to three ways: conduction through a bore takes its radius squared, convection is quicker. */
    private Heat heat() {
        double slowS = family.isCylinder() ? draws.spread(60, 1500) : draws.spread(2, 60);
        double kind = draws.even(0, 1);
        List<Heat.Mode> modes;
        if (kind < 0.25) {
            modes = List.of(new Heat.Mode(slowS, 1));
        } else if (kind < 0.6) {
            double most = draws.even(0.5, 0.85);
            modes = List.of(
                    new Heat.Mode(slowS, most), new Heat.Mode(Math.max(0.8, slowS * draws.even(0.05, 0.3)), 1 - most));
        } else {
            double most = draws.even(0.5, 0.7);
            double middle = draws.even(0.15, 0.25);
            modes = List.of(
                    new Heat.Mode(slowS, most),
                    new Heat.Mode(Math.max(0.7, slowS * draws.even(0.13, 0.3)), middle),
                    new Heat.Mode(Math.max(0.4, slowS * draws.even(0.02, 0.08)), 1 - most - middle));
        }
        double drift = roughness.driftKPerH() * draws.normal(2.5) / 3600;
        double swing = draws.chance(0.3) ? draws.spread(0.003, 0.03) : 0;
        return new Heat(modes, drift, swing, draws.spread(100, 900));
    }

    private TestPlan plan(boolean last, boolean only, double strokeCm3, double flowCm3PerS) {
        double restS = draws.chance(roughness.hasty()) ? draws.even(0.6, 2) : draws.even(2, 9);
        double drained = draws.chance(0.35) ? 0 : draws.even(0, 3) * strokeCm3;
        double holdS = switch (family) {
            case SPOOL_WORN, SPOOL_PLATEAU -> draws.spread(20, 150);
            case CYLINDER_TIGHT, CYLINDER_LEAKING, CHECK_TIGHT -> draws.spread(60, 600);
            case LINE_CHECK -> draws.spread(40, 600);
            default -> draws.spread(20, 400);
        };
        if (flowCm3PerS > 0 && draws.chance(0.75)) {
            // Nobody watches an empty line for long.
            double emptyS = 3 * compliance * targetBar / flowCm3PerS;
            holdS = Math.max(20, Math.min(holdS, emptyS * draws.even(0.8, 1.3)));
        }
        double bleedS = 0;
        double coefficient = 0;
        if (!last || mustBleed || draws.chance(0.75)) {
            double emptyingS = draws.even(0.3, 2.5);
            coefficient = 2 * compliance * CM3_PER_BAR * Math.sqrt(targetBar * BAR) / emptyingS;
            bleedS = 3 * emptyingS + draws.even(3, 8);
        }
        int stall = (int) draws.even(9, 25);
        return new TestPlan(
                restS, drained * CM3, targetBar * BAR, stall, 300, holdS, bleedS, coefficient, startsPumpedUp(only));
    }

    private boolean startsPumpedUp(boolean onlyTest) {
        return onlyTest && !mustBleed && family != Family.SPOOL_PLATEAU && draws.chance(0.05);
    }

    /** Leaks of each family. */
    private static final class LeakDraw {
        static LeakLaw draw(Draws draws, Family family, double targetBar, double pumpCm3PerS) {
            return switch (family) {
                case SPOOL_SOUND -> laminar(draws.spread(0.2, 4), targetBar);
                case SPOOL_WORN -> laminar(draws.spread(4, 60), targetBar);
                case SPOOL_PLATEAU -> laminar(60 * pumpCm3PerS / draws.even(0.1, 0.75), targetBar);
                case DAMAGED_SEAT -> orifice(draws.spread(0.5, 45), targetBar);
                case MIXED -> mixed(draws, draws.spread(0.5, 45), targetBar);
                case RELIEF_EARLY -> {
                    double opening = targetBar * draws.even(0.4, 0.9);
                    double flow = draws.spread(0.5, 45) * CM3_PER_MIN;
                    yield new LeakLaw.Threshold(flow / ((targetBar - opening) * BAR), opening * BAR);
                }
                case CYLINDER_LEAKING -> any(draws, draws.spread(0.08, 20), targetBar);
                case CHECK_LEAKING -> any(draws, draws.spread(0.05, 8), targetBar);
                case LINE_CHECK -> draws.chance(0.3) ? laminar(draws.spread(0.002, 0.05), targetBar) : LeakLaw.none();
                case CYLINDER_TIGHT, CHECK_TIGHT -> LeakLaw.none();
            };
        }

        private static LeakLaw any(Draws draws, double cm3PerMin, double targetBar) {
            double kind = draws.even(0, 1);
            return kind < 0.6
                    ? laminar(cm3PerMin, targetBar)
                    : kind < 0.8 ? orifice(cm3PerMin, targetBar) : mixed(draws, cm3PerMin, targetBar);
        }

        private static LeakLaw laminar(double cm3PerMin, double targetBar) {
            return new LeakLaw.Laminar(cm3PerMin * CM3_PER_MIN / (targetBar * BAR));
        }

        private static LeakLaw orifice(double cm3PerMin, double targetBar) {
            return new LeakLaw.Orifice(cm3PerMin * CM3_PER_MIN / Math.sqrt(targetBar * BAR));
        }

        private static LeakLaw mixed(Draws draws, double cm3PerMin, double targetBar) {
            double share = draws.even(0.25, 0.75);
            double flow = cm3PerMin * CM3_PER_MIN;
            return new LeakLaw.Mixed(share * flow / (targetBar * BAR), (1 - share) * flow / Math.sqrt(targetBar * BAR));
        }
    }
}
