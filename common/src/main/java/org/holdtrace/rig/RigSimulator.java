package org.holdtrace.rig;

import java.util.Arrays;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.holdtrace.trace.Trace;

/** Carries out the hold tests of a rig and records them, thousands of times faster than they would take. */
public final class RigSimulator {
    private static final double BUSY_STEP_S = 1e-3;
    private static final double CALM_STEP_S = 5e-3;

    private RigSimulator() {}

    /**
     * Runs every test of the rig's plan.
     *
     * @param rig what is simulated
     * @param random source of all scatter and noise; the same seed gives the same run on every machine
     * @return the recording, as the transducer and converter made it, and the truth
     */
    public static SimulatedRun simulate(Rig rig, RandomGenerator random) {
        return simulate(rig, random, 1);
    }

    /** The same with time steps {@code stepFactor} times the usual. */
    static SimulatedRun simulate(Rig rig, RandomGenerator random, double stepFactor) {
        LiveRig live = new LiveRig(rig, random, stepFactor);
        PlannedHand hand = new PlannedHand(rig, live);
        double intervalS = 1 / rig.sensor().rateHz();
        Recording recording = new Recording(rig.sensor());
        SensorChain sensor = live.sensor();
        boolean recording0 = false;
        while (!hand.isDone()) {
            if (!recording0 && hand.isRecording()) {
                hand.setOrigin(live.timeS());
                recording.originS = live.timeS();
                recording0 = true;
            }
            double limitS = stepFactor * (hand.isBusy() ? BUSY_STEP_S : CALM_STEP_S);
            int steps = Math.max(1, (int) Math.ceil(intervalS / limitS - 1e-9));
            double stepS = intervalS / steps;
            for (int i = 0; i < steps && !hand.isDone(); i++) {
                hand.before(stepS);
                double fromS = live.timeS();
                double fromPa = live.pressurePa();
                live.step(stepS);
                hand.after(fromS, fromPa);
            }
            double earlyS = sensor.earlyS(stepS);
            int count = sensor.count(live.timeS(), sensor.laggedPa(earlyS / stepS));
            if (recording0 && !sensor.lost()) {
                recording.add(live.timeS() - earlyS, count, live, sensor);
            }
        }
        return new SimulatedRun(recording.trace(), recording.counts(), new Truth(rig, hand.tests()));
    }

    /** Columns that grow. */
    private static final class Recording {
        private final Sensor sensor;
        private double originS;
        private int size;
        private int[] counts = new int[4096];
        private double[] timeS = new double[4096];
        private double[] oilK = new double[0];
        private double[] ambientK = new double[0];

        Recording(Sensor sensor) {
            this.sensor = sensor;
        }

        void add(double atS, int count, LiveRig live, SensorChain chain) {
            if (size == counts.length) {
                counts = Arrays.copyOf(counts, 2 * size);
                timeS = Arrays.copyOf(timeS, 2 * size);
            }
            if (sensor.oilChannel()) {
                oilK = oilK.length < counts.length ? Arrays.copyOf(oilK, counts.length) : oilK;
                oilK[size] = chain.thermometerK(live.oilTemperatureK());
            }
            if (sensor.ambientChannel()) {
                ambientK = ambientK.length < counts.length ? Arrays.copyOf(ambientK, counts.length) : ambientK;
                ambientK[size] = chain.thermometerK(live.ambientTemperatureK());
            }
            counts[size] = count;
            timeS[size] = atS - originS;
            size++;
        }

        int[] counts() {
            return Arrays.copyOf(counts, size);
        }

        Trace trace() {
            double[] pressurePa = new double[size];
            for (int i = 0; i < size; i++) {
                pressurePa[i] = sensor.scale().pressurePa(counts[i]);
            }
            return new Trace(
                    Arrays.copyOf(timeS, size),
                    pressurePa,
                    sensor.oilChannel() ? Arrays.copyOf(oilK, size) : null,
                    sensor.ambientChannel() ? Arrays.copyOf(ambientK, size) : null,
                    Optional.empty());
        }
    }
}
