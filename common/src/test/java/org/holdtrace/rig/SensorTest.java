package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SensorTest {
    private static final double BAR = 1e5;

    private static double[] readings(Sensor sensor, int samples) {
        SensorChain chain = new SensorChain(sensor, new NormalDraws(new SplittableRandom(4)));
        double[] pascals = new double[samples];
        for (int i = 0; i < samples; i++) {
            pascals[i] = sensor.scale().pressurePa(chain.count(i / sensor.rateHz(), 0));
        }
        return pascals;
    }

    private static Sensor with(Sensor.Noise noise) {
        Sensor perfect = Sensor.perfect(250, 250 * BAR);
        return new Sensor(250, 0, perfect.scale(), perfect.errors(), noise, perfect.faults(), false, false);
    }

    private static double correlation(double[] x, int lag) {
        double sum = 0;
        double square = 0;
        for (int i = 0; i < x.length; i++) {
            square += x[i] * x[i];
            sum += i >= lag ? x[i] * x[i - lag] : 0;
        }
        return sum / square;
    }

    private static double deviation(double[] x) {
        double square = 0;
        for (double value : x) {
            square += value * value;
        }
        return Math.sqrt(square / x.length);
    }

    @Test
    void countsFollowTheTransducersScale() {
        // EL-06 (ratiometric 0.5 to 4.5 V, from memory) on EL-01's 187.5 uV a count: 400 bar, 1.700 V is 120 bar.
        Sensor.Scale scale = Sensor.Scale.sixteenBit(400 * BAR);
        assertEquals(Math.round(1.700 / 187.5e-6), scale.count(120 * BAR));
        assertEquals(120 * BAR, scale.pressurePa(scale.count(120 * BAR)), 0.51 * scale.paPerCount());
        // EL-07: 12 bit on 5 V is 0.12207 bar a count.
        assertEquals(0.12207 * BAR, Sensor.Scale.twelveBit(400 * BAR).paPerCount(), 1e-5 * BAR);
        assertEquals(4095, Sensor.Scale.twelveBit(400 * BAR).count(900 * BAR));
    }

    @Test
    void whiteNoiseHasItsSizeAndNoMemory() {
        double[] x = readings(with(new Sensor.Noise(0.05 * BAR, 0, 1, 0)), 40_000);
        assertEquals(0.05 * BAR, deviation(x), 4 * 0.05 * BAR / Math.sqrt(80_000)); // four sigma of a sample sigma
        assertEquals(0, correlation(x, 1), 4 / Math.sqrt(40_000));
    }

    @Test
    void colouredNoiseForgetsWithItsTime() {
        // First-order autoregressive: correlation exp(-t/tau) after t; 400 000 samples are about 3200 independent ones.
        double[] x = readings(with(new Sensor.Noise(0, 0.05 * BAR, 0.25, 0)), 400_000);
        assertEquals(0.05 * BAR, deviation(x), 0.05 * 0.05 * BAR);
        assertEquals(Math.exp(-1), correlation(x, 62), 0.08);
        assertEquals(Math.exp(-0.016), correlation(x, 1), 0.005);
    }

    @Test
    void theWalkSpreadsWithTheRootOfTime() {
        double square = 0;
        for (int seed = 0; seed < 200; seed++) {
            Sensor sensor = with(new Sensor.Noise(0, 0, 1, 0.01 * BAR));
            SensorChain chain = new SensorChain(sensor, new NormalDraws(new SplittableRandom(seed)));
            int last = 0;
            for (int i = 0; i < 25 * 250; i++) {
                last = chain.count(0, 0);
            }
            square += Math.pow(sensor.scale().pressurePa(last), 2);
        }
        // 25 s: five times the deviation of one second; 200 runs know it to 5 % (one sigma).
        assertEquals(0.05 * BAR, Math.sqrt(square / 200), 0.2 * 0.05 * BAR);
    }

    @Test
    void errorsAreThoseStated() {
        Sensor perfect = Sensor.perfect(250, 200 * BAR);
        Sensor.Errors errors = new Sensor.Errors(0.01, 0.5 * BAR, 0.2 * BAR, 0.001 * BAR, 0);
        Sensor wrong = new Sensor(250, 0, perfect.scale(), errors, perfect.noise(), perfect.faults(), false, false);
        SensorChain chain = new SensorChain(wrong, new NormalDraws(new SplittableRandom(1)));
        double mid = wrong.scale().pressurePa(chain.count(100, 150 * BAR));
        assertEquals((151.5 + 0.5 + 0.2 + 0.1) * BAR, mid, 10);
        assertEquals((0.5 + 0.1) * BAR, wrong.scale().pressurePa(chain.count(100, 0)), 10);
    }

    @Test
    void aLaggingTransducerTrailsARampByItsTime() {
        Sensor perfect = Sensor.perfect(250, 200 * BAR);
        Sensor slow = new Sensor(
                250,
                0,
                perfect.scale(),
                new Sensor.Errors(0, 0, 0, 0, 0.02),
                perfect.noise(),
                perfect.faults(),
                false,
                false);
        SensorChain chain = new SensorChain(slow, new NormalDraws(new SplittableRandom(1)));
        double rate = 50 * BAR;
        for (int i = 0; i < 500; i++) {
            chain.follow(1e-3, rate * i * 1e-3, rate * (i + 1) * 1e-3);
        }
        assertEquals(rate * (0.5 - 0.02), chain.laggedPa(0), 1);
        assertEquals(rate * (0.4995 - 0.02), chain.laggedPa(0.5), 1);
    }

    @Test
    void normalDrawsAreNormal() {
        NormalDraws draws = new NormalDraws(new SplittableRandom(77));
        int n = 200_000;
        double sum = 0;
        double square = 0;
        int beyond = 0;
        for (int i = 0; i < n; i++) {
            double x = draws.next();
            sum += x;
            square += x * x;
            beyond += Math.abs(x) > 1.959964 ? 1 : 0;
        }
        assertEquals(0, sum / n, 4 / Math.sqrt(n));
        assertEquals(1, square / n, 4 * Math.sqrt(2.0 / n));
        assertEquals(0.05, beyond / (double) n, 4 * Math.sqrt(0.05 * 0.95 / n)); // GU-08: 95 % within 1.96
    }

    @Test
    void spikesAndGapsComeAboutAsOftenAsStated() {
        Sensor perfect = Sensor.perfect(250, 200 * BAR);
        Sensor faulty = new Sensor(
                250,
                0,
                perfect.scale(),
                perfect.errors(),
                perfect.noise(),
                new Sensor.Faults(0.5, 5 * BAR, 0.5, 10),
                false,
                false);
        SensorChain chain = new SensorChain(faulty, new NormalDraws(new SplittableRandom(3)));
        int spikes = 0;
        int lost = 0;
        boolean inSpike = false;
        for (int i = 0; i < 250 * 400; i++) {
            boolean high = Math.abs(faulty.scale().pressurePa(chain.count(0, 0))) > BAR;
            spikes += high && !inSpike ? 1 : 0;
            inSpike = high;
            lost += chain.lost() ? 1 : 0;
        }
        assertEquals(200, spikes, 4 * Math.sqrt(200));
        assertTrue(lost > 700 && lost < 1600, "lost " + lost); // 200 gaps of 5.5 samples
    }
}
