package org.holdtrace.accuracy;

import static org.holdtrace.accuracy.Units.BAR;

import org.holdtrace.rig.Sensor;

/**
 * Draws transducer and converter. A stated accuracy is a limit (common practice): the error of slope lies anywhere within
 * it, the bow within four tenths of it.
 *
 * @param sensor the sensor
 * @param accuracy its accuracy as a share of the span
 */
record SensorDraw(Sensor sensor, double accuracy) {
    private static final double[] RANGES_BAR = {100, 160, 250, 400, 600};

    static SensorDraw draw(Draws draws, Roughness roughness, double reachedBar, boolean coarse) {
        double highest = reachedBar * (coarse ? 1.35 : 1.15) + 5;
        double spanBar = RANGES_BAR[RANGES_BAR.length - 1];
        for (int i = RANGES_BAR.length - 1; i >= 0 && RANGES_BAR[i] > highest; i--) {
            spanBar = RANGES_BAR[i];
        }
        if (draws.chance(0.3) && spanBar < 400) {
            spanBar = 400;
        }
        double span = spanBar * BAR;
        double accuracy = draws.pick(0.001, 0.0025, 0.0025, 0.005);
        double rateHz = draws.pick(50, 50, 100, 100, 125, 200, 250, 250, 500, 860);
        Sensor.Scale scale = draws.chance(0.7) ? Sensor.Scale.sixteenBit(span) : Sensor.Scale.twelveBit(span);
        double hourly = draws.chance(0.3) ? roughness.zeroDriftPerH() * draws.normal(2.5) : 0;
        Sensor.Errors errors = new Sensor.Errors(
                accuracy * draws.even(-1, 1),
                accuracy * draws.normal(3) * span,
                0.4 * accuracy * draws.even(-1, 1) * span,
                hourly * span / 3600,
                draws.spread(0.001, 0.02));
        double white = span * draws.spread(0.1 * roughness.noiseMost(), roughness.noiseMost());
        Sensor.Noise noise = new Sensor.Noise(
                white,
                draws.chance(0.6) ? white * draws.even(0.2, 0.9) : 0,
                draws.spread(0.05, 5),
                draws.chance(0.25) ? span * draws.spread(1e-8, 4e-7) : 0);
        boolean spikes = draws.chance(roughness.faulty());
        boolean gaps = draws.chance(roughness.faulty());
        Sensor.Faults faults = new Sensor.Faults(
                spikes ? draws.spread(0.005, 0.05) : 0,
                draws.spread(1, 20) * BAR,
                gaps ? draws.spread(0.003, 0.03) : 0,
                (int) draws.spread(2, 30));
        double jitterS = draws.chance(0.4) ? 0.03 / rateHz : 0;
        boolean oil = draws.chance(0.1);
        Sensor sensor = new Sensor(rateHz, jitterS, scale, errors, noise, faults, oil, oil || draws.chance(0.05));
        return new SensorDraw(sensor, accuracy);
    }
}
