package org.holdtrace.rig;

import java.util.random.RandomGenerator;
import org.holdtrace.quantity.Require;

/**
 * A simulated rig on which a hand carries out the planned hold tests by itself while time passes from outside: what an
 * instrument under trial is wired to. The hand does what it does in {@link RigSimulator}. When the last test is over
 * time goes on: the line stays open, or under pressure where the last test ends without a bleed-off. Not for use from
 * several threads at once.
 */
public final class WorkedRig {
    private static final double BUSY_STEP_S = 1e-3;
    private static final double CALM_STEP_S = 5e-3;

    private final Rig rig;
    private final LiveRig live;
    private final PlannedHand hand;
    private final double originS;

    /** A rig at rest at time 0, whose tests begin now; under pressure, where its first test starts pumped up. */
    public WorkedRig(Rig rig, RandomGenerator random) {
        this.rig = rig;
        live = new LiveRig(rig, random);
        hand = new PlannedHand(rig, live);
        while (!hand.isRecording()) {
            step(Double.POSITIVE_INFINITY);
        }
        originS = live.timeS();
        hand.setOrigin(originS);
    }

    /** Lets time pass until {@code timeS} seconds after the start; nothing where that is past. */
    public void advanceTo(double timeS) {
        Require.finite(timeS, "time", "s");
        while (timeS() < timeS - 1e-9) {
            step(timeS - timeS());
        }
    }

    private void step(double longestS) {
        double stepS = Math.min(hand.isBusy() ? BUSY_STEP_S : CALM_STEP_S, longestS);
        if (hand.isDone()) {
            live.step(stepS);
            return;
        }
        hand.before(stepS);
        double fromS = live.timeS();
        double fromPa = live.pressurePa();
        live.step(stepS);
        hand.after(fromS, fromPa);
    }

    /** Seconds since the start. */
    public double timeS() {
        return live.timeS() - originS;
    }

    /** Whether every planned test is over. */
    public boolean isDone() {
        return hand.isDone();
    }

    /** The rig. */
    public Rig rig() {
        return rig;
    }

    /** True gauge pressure, Pa. */
    public double pressurePa() {
        return live.pressurePa();
    }

    /**
     * What the transducer shows, Pa, its errors and noise included, in steps of the rig's converter; one call a
     * sampling interval of the rig's transducer.
     */
    public double readingPa() {
        return live.readingPa();
    }

    /** True temperature of the oil, K. */
    public double oilTemperatureK() {
        return live.oilTemperatureK();
    }

    /** True temperature of the surroundings, K. */
    public double ambientTemperatureK() {
        return live.ambientTemperatureK();
    }
}
