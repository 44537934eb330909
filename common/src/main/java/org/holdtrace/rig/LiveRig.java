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
    private double chamberM3;
    private double fullM3;
    private double offeredM3;
    private double lastPushS = Double.POSITIVE_INFINITY;
    private double shutPa;
    private double shutShare;
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
        begin(new HandStroke(timeS(), push, volume, shape, 0, 0), volume);
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

    /** Begins a push of a pump that has drawn {@code drawnM3}. */
    void begin(HandStroke next, double drawnM3) {
        stroke = next;
        fullM3 = drawnM3;
        chamberM3 = rig.pump().deadVolumeM3() + drawnM3;
        lastPushS = Double.POSITIVE_INFINITY;
        plant.setReturn(0);
        busyUntilS = Math.max(busyUntilS, next.endS() + 0.05);
    }

    /** Shuts the valve behind the pump, which takes it a time from the end of the last push, at {@code fromS}, on. */
    void shutOff(double fromS, double targetPa) {
        if (rig.pump().shutOff().withinS() > 0) {
            lastPushS = fromS;
            shutPa = targetPa;
            shutShare = 0;
        }
    }

    /** What strokes have pushed out of the pump so far, its relief's share included, m³ at atmospheric pressure. */
    double offeredM3() {
        return offeredM3;
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
            offered = outOfChamberM3(t0, stepS) * (1 - Math.min(1, rig.pump().lossPerPa() * plant.pressurePa()));
            offeredM3 += offered;
        }
        if (lastPushS < t0 + stepS) {
            offered += byStemM3(t0, stepS);
        }
        double from = plant.pressurePa();
        plant.step(stepS, offered, ventAt(t0 + 0.5 * stepS), rig.pump().reliefPa());
        sensor.follow(stepS, from, plant.pressurePa());
        if (stroke != null && stroke.endS() <= plant.timeS()) {
            stroke = null;
        }
    }

    /** What passes the pump's check valve in a step: what its chamber holds beyond what it has room for. */
    private double outOfChamberM3(double t0, double stepS) {
        double pushed = stroke.volumeByM3(t0 + stepS);
        double dead = rig.pump().deadVolumeM3();
        if (dead == 0) {
            return pushed - stroke.volumeByM3(t0);
        }
        double stays = (dead + fullM3 - pushed) / rig.fill().relativeVolume(plant.pressurePa());
        double out = Math.max(0, chamberM3 - stays);
        chamberM3 -= out;
        return out;
    }

    /** Shuts the valve behind the pump further; what its stem displaces, m³ at atmospheric pressure. */
    private double byStemM3(double t0, double stepS) {
        ShutOff valve = rig.pump().shutOff();
        double open = 1 - valve.shutBy(t0 + 0.5 * stepS - lastPushS);
        double before = shutShare;
        shutShare = valve.shutBy(t0 + stepS - lastPushS);
        plant.setReturn(valve.backLeakM3PerS() / shutPa * open);
        return valve.stemM3() * (shutShare - before) / rig.fill().relativeVolume(plant.pressurePa());
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
