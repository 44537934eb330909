package org.holdtrace.acquire;

import java.util.Arrays;

/**
 * How fast a leak takes pressure away in a hold, told apart from settling as well as that can be told so far.
 *
 * <p>After the last stroke pressure also falls because heat leaves the oil and hoses creep, at first faster than many a
 * leak. With y the pressure over that at the beginning, the model is
 *
 * <pre>  y(t) = y0 - s ∫ y dt - Σ a_k (1 - e^(-t/τ_k)),   τ_k = 0.7 s · 4^k,  k = 0 … 5</pre>
 *
 * s the share of the pressure a laminar leak takes each second, a_k what settles with time constant τ_k. Beforehand each
 * a_k is known as {@value #SETTLES} ± {@value #SETTLES_UNCERTAINTY}: six of them together settle by 6 ± 6 % of the
 * pressure, and heat of compression accounts for no more than some 12 % (common practice, no source). It is linear, so
 * the answer follows from sums that grow with the samples; its uncertainty is large for as long as settling may account
 * for the fall. One thread.
 */
final class HoldSlope {
    private static final double SETTLES = 0.01;
    private static final double SETTLES_UNCERTAINTY = 0.025;
    private static final int MODES = 6;
    private static final int UNKNOWNS = 2 + MODES;
    private static final double FIRST_S = 0.7;
    private static final double BLOCK_S = 0.1;

    /** Departures from the model, of the pressure at the beginning. */
    private static final double MODEL_PART = 2e-4;

    /** Noise that wanders with a correlation time of some 0.4 s counts about three times in means over a tenth of a second. */
    private static final double WANDERS = 3;

    /**
     * Half a kelvin an hour (common practice), at 10 bar a kelvin, over 100 bar: what a wandering temperature may take
     * away or add, Pa/s.
     */
    private static final double DRIFT_PA_PER_S = 139;

    private final double[][] sums = new double[UNKNOWNS][UNKNOWNS];
    private final double[] right = new double[UNKNOWNS];
    private final double[] row = new double[UNKNOWNS];
    private final double lowestPart;
    private double fromS;
    private double firstPa;
    private double lastS;
    private double lastPart;
    private double integral;
    private double blockFromS;
    private double blockS;
    private double blockPart;
    private double blockIntegral;
    private int inBlock;
    private int blocks;
    private boolean closed;

    /** @param lowestPart samples below this part of the first pressure are left out */
    HoldSlope(double lowestPart) {
        this.lowestPart = lowestPart;
    }

    /** A hold begins at {@code atS}. */
    void begin(double atS) {
        for (int i = 0; i < UNKNOWNS; i++) {
            Arrays.fill(sums[i], 0);
            right[i] = 0;
        }
        sums[0][0] = 1;
        right[0] = 1;
        sums[1][1] = 1e-4; // s = 0 ± 100 a second: nothing is known
        for (int k = 2; k < UNKNOWNS; k++) {
            sums[k][k] = 1 / (SETTLES_UNCERTAINTY * SETTLES_UNCERTAINTY);
            right[k] = SETTLES / (SETTLES_UNCERTAINTY * SETTLES_UNCERTAINTY);
        }
        fromS = atS;
        firstPa = Double.NaN;
        integral = 0;
        blockS = 0;
        blockPart = 0;
        blockIntegral = 0;
        inBlock = 0;
        blocks = 0;
        closed = false;
    }

    /** Takes a sample: pressure above zero, Pa, and the noise of its like. */
    void accept(double atS, double pa, double noisePa) {
        if (closed) {
            return;
        }
        if (Double.isNaN(firstPa)) {
            if (!(pa > 0)) {
                return;
            }
            firstPa = pa;
            lastS = atS;
            lastPart = 1;
            blockFromS = atS;
        }
        double part = pa / firstPa;
        integral += 0.5 * (part + lastPart) * (atS - lastS);
        lastS = atS;
        lastPart = part;
        blockS += atS - fromS;
        blockPart += part;
        blockIntegral += integral;
        inBlock++;
        if (atS - blockFromS >= BLOCK_S) {
            addBlock(noisePa);
            blockFromS = atS;
        }
    }

    private void addBlock(double noisePa) {
        double t = blockS / inBlock;
        double y = blockPart / inBlock;
        row[0] = 1;
        row[1] = -blockIntegral / inBlock;
        double tau = FIRST_S;
        for (int k = 2; k < UNKNOWNS; k++) {
            row[k] = Math.expm1(-t / tau);
            tau *= 4;
        }
        double noise = WANDERS * noisePa / firstPa;
        double weight = 1 / (noise * noise + MODEL_PART * MODEL_PART);
        for (int i = 0; i < UNKNOWNS; i++) {
            for (int j = 0; j <= i; j++) {
                sums[i][j] += weight * row[i] * row[j];
            }
            right[i] += weight * row[i] * y;
        }
        blockS = 0;
        blockPart = 0;
        blockIntegral = 0;
        inBlock = 0;
        blocks++;
        closed = y < lowestPart;
    }

    /**
     * The answer so far.
     *
     * @param perS s, the share of the pressure that the leak takes each second
     * @param uncertaintyPerS its standard uncertainty
     * @param fromPa the pressure at the beginning
     * @param fellTo the part of it that is left
     */
    record Answer(double perS, double uncertaintyPerS, double fromPa, double fellTo) {}

    /** The answer so far; null before there is one. */
    Answer answer() {
        if (blocks < 4) {
            return null;
        }
        double[][] l = new double[UNKNOWNS][UNKNOWNS];
        for (int i = 0; i < UNKNOWNS; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = sums[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= l[i][k] * l[j][k];
                }
                if (i != j) {
                    l[i][j] = sum / l[j][j];
                } else if (sum > 0) {
                    l[i][i] = Math.sqrt(sum);
                } else {
                    return null;
                }
            }
        }
        double[] x = solve(l, right);
        double[] unit = new double[UNKNOWNS];
        unit[1] = 1;
        double variance = solve(l, unit)[1];
        double drift = DRIFT_PA_PER_S / firstPa;
        return new Answer(x[1], Math.sqrt(variance + drift * drift), firstPa, lastPart);
    }

    private static double[] solve(double[][] l, double[] b) {
        double[] x = b.clone();
        for (int i = 0; i < UNKNOWNS; i++) {
            for (int k = 0; k < i; k++) {
                x[i] -= l[i][k] * x[k];
            }
            x[i] /= l[i][i];
        }
        for (int i = UNKNOWNS - 1; i >= 0; i--) {
            for (int k = i + 1; k < UNKNOWNS; k++) {
                x[i] -= l[k][i] * x[k];
            }
            x[i] /= l[i][i];
        }
        return x;
    }
}
