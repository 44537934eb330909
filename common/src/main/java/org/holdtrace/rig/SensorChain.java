package org.holdtrace.rig;

import org.holdtrace.fluid.Oil;

/** Transducer, noise and converter: turns true pressure into counts, sample by sample. */
final class SensorChain {
    /** Resolution and noise of the temperature channels, K: what common digital thermometers have, common practice. */
    private static final double TEMPERATURE_STEP_K = 0.0625;

    private static final double TEMPERATURE_NOISE_K = 0.05;

    private final Sensor sensor;
    private final NormalDraws draws;
    private final double intervalS;
    private final double colourDecay;
    private final double colourPush;
    private double laggedPa;
    private double lagStepS = Double.NaN;
    private double lagDecay;
    private double lagMean;
    private double beforePa;
    private double colouredPa;
    private double walkPa;
    private int spikeLeft;
    private double spikePa;
    private int gapLeft;

    SensorChain(Sensor sensor, NormalDraws draws) {
        this.sensor = sensor;
        this.draws = draws;
        intervalS = 1 / sensor.rateHz();
        colourDecay = StrictMath.exp(-intervalS / sensor.noise().colouredS());
        colourPush = sensor.noise().colouredPa() * Math.sqrt(1 - colourDecay * colourDecay);
        colouredPa = sensor.noise().colouredPa() == 0 ? 0 : sensor.noise().colouredPa() * draws.next();
    }

    /** Lets the transducer follow true pressure from {@code fromPa} to {@code toPa} over a step. */
    void follow(double stepS, double fromPa, double toPa) {
        beforePa = laggedPa;
        double lagS = sensor.errors().lagS();
        if (lagS == 0) {
            laggedPa = toPa;
            return;
        }
        if (stepS != lagStepS) {
            lagDecay = StrictMath.exp(-stepS / lagS);
            lagMean = -StrictMath.expm1(-stepS / lagS) * lagS / stepS;
            lagStepS = stepS;
        }
        laggedPa = lagDecay * laggedPa + (lagMean - lagDecay) * fromPa + (1 - lagMean) * toPa;
    }

    /** The transducer's own pressure, a share (0 to 1) of the last step ago. */
    double laggedPa(double shareAgo) {
        return laggedPa + shareAgo * (beforePa - laggedPa);
    }

    /** Count for the transducer's pressure {@code laggedPa} at {@code timeS}. */
    int count(double timeS, double laggedPa) {
        Sensor.Noise noise = sensor.noise();
        Sensor.Errors errors = sensor.errors();
        double x = laggedPa / sensor.scale().maxPa();
        double reading = laggedPa * (1 + errors.gain())
                + errors.bowPa() * 4 * x * (1 - x)
                + errors.zeroPa()
                + errors.driftPaPerS() * timeS;
        if (noise.whitePa() > 0) {
            reading += noise.whitePa() * draws.next();
        }
        if (noise.colouredPa() > 0) {
            colouredPa = colourDecay * colouredPa + colourPush * draws.next();
            reading += colouredPa;
        }
        if (noise.walkPaPerRootS() > 0) {
            walkPa += noise.walkPaPerRootS() * Math.sqrt(intervalS) * draws.next();
            reading += walkPa;
        }
        return sensor.scale().count(reading + spike());
    }

    private double spike() {
        double rate = sensor.faults().spikesPerS();
        if (rate == 0) {
            return 0;
        }
        if (spikeLeft > 0) {
            spikeLeft--;
            return spikePa;
        }
        if (draws.uniform() < rate * intervalS) {
            spikeLeft = draws.below(3);
            spikePa = (draws.uniform() < 0.5 ? -1 : 1) * sensor.faults().spikePa() * (0.5 + draws.uniform());
            return spikePa;
        }
        return 0;
    }

    /** Whether this sample is lost. */
    boolean lost() {
        double rate = sensor.faults().gapsPerS();
        if (rate == 0 || sensor.faults().gapSamples() == 0) {
            return false;
        }
        if (gapLeft == 0 && draws.uniform() < rate * intervalS) {
            gapLeft = 1 + draws.below(sensor.faults().gapSamples());
        }
        if (gapLeft > 0) {
            gapLeft--;
            return true;
        }
        return false;
    }

    /** How early this sample is taken, s, at most {@code limitS}. */
    double earlyS(double limitS) {
        return sensor.jitterS() == 0 ? 0 : Math.min(limitS, sensor.jitterS()) * draws.uniform();
    }

    /** What a thermometer shows of a true temperature, K. */
    double thermometerK(double trueK) {
        double celsius = trueK - Oil.ZERO_CELSIUS_K + TEMPERATURE_NOISE_K * draws.next();
        return Oil.ZERO_CELSIUS_K + TEMPERATURE_STEP_K * Math.round(celsius / TEMPERATURE_STEP_K);
    }
}
