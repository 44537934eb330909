package org.holdtrace.rig;

import java.util.random.RandomGenerator;
import org.holdtrace.quantity.Require;

/**
 * A simulated rig worked from outside, step by step: push, wait, let off, read. Time passes only in {@link #advance}. Not
 * for use from several threads at once. The rig's tests and hand's tempo are of no account here; its strokes are.
 */
public final class LiveRig {
    /** While something happens quickly; a stroke lasts 100 ms or more. */
    private static final double BUSY_STEP_S = 1e-3;

    /** Otherwise; the fastest decays seen between strokes take some 200 ms. */
    private static final double CALM_STEP_S = 5e-3;

    /** How long a hand takes to open a bleed valve. */
    private static final double VENT_OPENING_S = 0.3;

    private final Rig rig;
    private final NormalDraws draws;
    private final LinePlant plant;
    private final SensorChain sensor;
    private final double stepFactor;
    private HandStroke stroke;
    private double busyUntilS;
    private double ventCoefficient;
    private double ventFromS = Double.POSITIVE_INFINITY;
    private double ventRampS;

    /** A rig at rest, its line shut and full, at time 0. */
    public LiveRig(Rig rig, RandomGenerator random) {
        this(rig, random, 1);
    }

    /** The same with time steps {@code stepFactor} times the usual, to see what they matter. */
    LiveRig(Rig rig, RandomGenerator random, double stepFactor) {
        this.rig = rig;
        this.stepFactor = Require.positive(stepFactor, "step factor", "");
        draws = new NormalDraws(random);
        plant = new LinePlant(rig.fill(), rig.walls(), rig.heat(), rig.leaks());
        sensor = new SensorChain(rig.sensor(), draws);
    }

    /** Seconds since the start. */
    public double timeS() {
        return plant.timeS();
    }

    /** True gauge pressure, Pa. */
    public double pressurePa() {
        return plant.pressurePa();
    }

    /** Whether a stroke is under way. */
    public boolean isStroking() {
        return stroke != null && stroke.endS() > timeS();
    }

    /** Oil let off so far, as volume at atmospheric pressure, m³. */
    public double bledM3() {
        return plant.bledM3();
    }

    /** Lets oil drain out of the unpressurised line, m³: the next strokes fill it. */
    public void drain(double volumeM3) {
        plant.drain(volumeM3);
    }

    /**
     * Pushes the lever once, in the rig's usual way.
     *
     * @return false where a stroke is still under way and nothing was done
     */
    public boolean stroke() {
        if (isStroking()) {
            return false;
        }
        Hand hand = rig.hand();
        double volume = rig.pump().strokeM3() * draws.factor(rig.pump().scatter());
        double push = hand.strokeS() * draws.factor(hand.spread());
        StrokeShape shape = hand.shapes().get(draws.below(hand.shapes().size()));
        begin(new HandStroke(timeS(), push, volume, shape, 0, 0));
        return true;
    }

    /** Opens the bleed valve as for the rig's first test; where that has none, so that the line empties in a second. */
    public void letOff() {
        TestPlan plan = rig.tests().get(0);
        double compliance =
                new LineCompliance(rig.fill(), rig.walls(), plant.undissolvedM3()).isothermal(plant.pressurePa());
        open(
                timeS(),
                plan.bleedS() > 0
                        ? plan.bleedCoefficient()
                        : 2 * compliance * Math.sqrt(Math.max(plant.pressurePa(), 1e5)),
                VENT_OPENING_S);
    }

    /** Shuts the bleed valve. */
    public void shut() {
        ventFromS = Double.POSITIVE_INFINITY;
        ventCoefficient = 0;
    }

    /** Breaks or mends what is tested, under pressure or not: from now on oil is lost here. */
    public void setLeaks(Leaks leaks) {
        plant.setLeaks(leaks);
    }

    /** Lets {@code durationS} pass. */
    public void advance(double durationS) {
        Require.notNegative(durationS, "duration", "s");
        if (durationS == 0) {
            return;
        }
        double limit = stepFactor * (timeS() < busyUntilS ? BUSY_STEP_S : CALM_STEP_S);
        int steps = Math.max(1, (int) Math.ceil(durationS / limit - 1e-9));
        for (int i = 0; i < steps; i++) {
            step(durationS / steps);
        }
    }

    /** The count the converter gives now; noise and faults go on from call to call, one call a sampling interval. */
    public int count() {
        return sensor.count(timeS(), sensor.laggedPa(0));
    }

    /** The pressure the nominal calibration gives the count now, Pa. */
    public double readingPa() {
        return rig.sensor().scale().pressurePa(count());
    }

    /** Temperature of the oil, K. */
    public double oilTemperatureK() {
        return plant.oilTemperatureK();
    }

    /** Temperature of the surroundings, K. */
    public double ambientTemperatureK() {
        return plant.surroundingsTemperatureK();
    }

    void begin(HandStroke next) {
        stroke = next;
        busyUntilS = Math.max(busyUntilS, next.endS() + 0.05);
    }

    /** Opens the bleed valve at {@code fromS}, which may lie ahead, over {@code rampS}. */
    void open(double fromS, double coefficient, double rampS) {
        ventFromS = fromS;
        ventCoefficient = coefficient;
        ventRampS = rampS;
        busyUntilS = Math.max(busyUntilS, fromS + rampS + 3);
    }

    /** One step of the plant and the transducer; true pressure before and after are the transducer's input. */
    void step(double stepS) {
        double t0 = plant.timeS();
        double offered = 0;
        if (stroke != null) {
            double before = stroke.volumeByM3(t0);
            offered = stroke.volumeByM3(t0 + stepS) - before;
            offered *= 1 - Math.min(1, rig.pump().lossPerPa() * plant.pressurePa());
        }
        double from = plant.pressurePa();
        plant.step(stepS, offered, ventAt(t0 + 0.5 * stepS), rig.pump().reliefPa());
        sensor.follow(stepS, from, plant.pressurePa());
        if (stroke != null && stroke.endS() <= plant.timeS()) {
            stroke = null;
        }
    }

    private double ventAt(double timeS) {
        if (timeS <= ventFromS) {
            return 0;
        }
        double opened = ventRampS == 0 ? 1 : Math.min(1, (timeS - ventFromS) / ventRampS);
        return ventCoefficient * opened;
    }

    LinePlant plant() {
        return plant;
    }

    SensorChain sensor() {
        return sensor;
    }

    NormalDraws draws() {
        return draws;
    }
}
