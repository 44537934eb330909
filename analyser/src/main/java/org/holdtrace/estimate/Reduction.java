package org.holdtrace.estimate;

import static org.holdtrace.estimate.Columns.AIR_COOLING_S;
import static org.holdtrace.estimate.Columns.AIR_HEATING;
import static org.holdtrace.estimate.Columns.ATMOSPHERE_BAR;
import static org.holdtrace.estimate.Columns.RELAXATION_S;

import java.util.Arrays;
import java.util.List;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * A hold test reduced to some two hundred rows: means over stretches during which nothing was pumped, of the pressure
 * and of every other term of the volume balance. The integrals and relaxations run over every sample, so that the mean
 * of a row obeys the balance exactly, however fast the pressure falls within it.
 */
final class Reduction {
    /** Where a row comes from. */
    enum Kind {
        TAIL,
        HOLD,
        END
    }

    private final CleanTrace cleaned;
    private final boolean[] relieved;
    private final boolean useEnd;
    private final List<RowPlan.Bin> bins;
    /** First sample the integrals run from. */
    private final int begin;
    /** Pressures from sample {@link #begin} on, bar. */
    private final double[] bar;

    final int rows;
    final Kind[] kind;
    /** Mean time, s from the start of this hold test. */
    final double[] timeS;
    /** Length of the stretch, s. */
    final double[] lengthS;

    final int[] samples;
    /** Mean pressure, bar. */
    final double[] pressureBar;
    /** Strokes begun before the row. */
    final int[] strokesBefore;
    /** Of these, the ones whose volume is not known. */
    final int[] unknownBefore;

    final boolean[] inPlateau;
    /** Whether the shut-off valve may still be open there: in a pause, and after the last push. */
    final boolean[] open;

    final double[][] column;
    /** Whether the columns for opening pressures are filled. */
    final boolean hasThresholds;
    /** Largest pressure met, bar. */
    final double peakBar;
    /** Standard deviation of a sample by successive differences, bar. */
    final double sampleNoiseBar;
    /** Smallest step between readings, bar; 0 where none was seen. */
    final double quantumBar;

    private Reduction(CleanTrace cleaned, boolean[] unknownStrokes, boolean[] relieved, boolean useEnd) {
        Trace trace = cleaned.trace;
        this.cleaned = cleaned;
        this.relieved = relieved;
        this.useEnd = useEnd;
        this.bins = RowPlan.of(cleaned, unknownStrokes, relieved, useEnd);
        this.rows = bins.size();
        this.kind = new Kind[rows];
        this.timeS = new double[rows];
        this.lengthS = new double[rows];
        this.samples = new int[rows];
        this.strokesBefore = new int[rows];
        this.unknownBefore = new int[rows];
        this.inPlateau = new boolean[rows];
        this.open = new boolean[rows];
        this.sampleNoiseBar = cleaned.noiseBar;
        this.quantumBar = cleaned.quantumBar;
        for (int i = 0; i < rows; i++) {
            RowPlan.Bin bin = bins.get(i);
            kind[i] = bin.kind();
            lengthS[i] = Math.max(0, trace.timeS(bin.to() - 1) - trace.timeS(bin.from()));
            samples[i] = bin.to() - bin.from();
            strokesBefore[i] = bin.strokesBefore();
            unknownBefore[i] = bin.unknownBefore();
            inPlateau[i] = bin.inPlateau();
            open[i] = bin.open();
        }
        this.begin = Math.max(0, trace.indexAt(Spans.startS(trace, cleaned.test)) - 1);
        int end = begin + 1;
        for (RowPlan.Bin bin : bins) {
            end = Math.max(end, bin.to());
        }
        this.bar = new double[end - begin];
        double peak = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < bar.length; i++) {
            bar[i] = cleaned.bar(begin + i);
            peak = Math.max(peak, bar[i]);
        }
        this.peakBar = peak;
        this.hasThresholds = false;
        this.column = new double[Columns.COUNT][rows];
        this.pressureBar = column[Columns.PRESSURE];
        integrate();
        addTemperatures();
        addFunctionsOfPressure();
    }

    private Reduction(Reduction other, double[] thresholdBar) {
        this.cleaned = other.cleaned;
        this.relieved = other.relieved;
        this.useEnd = other.useEnd;
        this.bins = other.bins;
        this.begin = other.begin;
        this.bar = other.bar;
        this.rows = other.rows;
        this.kind = other.kind;
        this.timeS = other.timeS;
        this.lengthS = other.lengthS;
        this.samples = other.samples;
        this.pressureBar = other.pressureBar;
        this.strokesBefore = other.strokesBefore;
        this.unknownBefore = other.unknownBefore;
        this.inPlateau = other.inPlateau;
        this.open = other.open;
        this.peakBar = other.peakBar;
        this.hasThresholds = true;
        this.sampleNoiseBar = other.sampleNoiseBar;
        this.quantumBar = other.quantumBar;
        this.column = other.column.clone();
        integrateOver(thresholdBar);
    }

    /**
     * Reduces a hold test; its columns for opening pressures stay at zero until {@link #withThresholds} fills them.
     *
     * @param cleaned the samples
     * @param unknownStrokes which strokes (by index) are not of full volume, or of no known volume
     * @param relieved after which strokes (by index) a relief may still have passed oil
     * @param useEnd whether the end of the trace is to be a row (the oil let off was caught)
     */
    static Reduction of(CleanTrace cleaned, boolean[] unknownStrokes, boolean[] relieved, boolean useEnd) {
        return new Reduction(cleaned, unknownStrokes, relieved, useEnd);
    }

    /** The same test with other strokes taken as of no known volume. */
    Reduction withUnknown(boolean[] unknownStrokes) {
        return new Reduction(cleaned, unknownStrokes, relieved, useEnd);
    }

    /**
     * The same reduction with other opening pressures; every other column is shared.
     *
     * @param thresholdBar opening pressures to try, bar; {@link Columns#THRESHOLDS} of them
     */
    Reduction withThresholds(double[] thresholdBar) {
        return new Reduction(this, thresholdBar);
    }

    /** Runs the integrals and relaxations over every sample and takes the means of each row. */
    private void integrate() {
        Trace trace = cleaned.trace;
        double[] relaxed = new double[RELAXATION_S.length];
        double[] factor = new double[RELAXATION_S.length];
        double[] relaxedSum = new double[RELAXATION_S.length];
        double[] warm = new double[AIR_COOLING_S.length];
        double laminar = 0;
        double curve = 0;
        double orifice = 0;
        double factorStep = -1;
        double t0 = trace.timeS(begin);
        double before = bar[0];
        double beforeTime = t0;
        double beforeRoot = Math.sqrt(Math.max(0, before));
        double beforeLog = Math.log(ATMOSPHERE_BAR + Math.max(before, -0.9));
        // Where the trace begins pumped up it is not known how long ago that was: what heat is left begins to leave
        // here, and the prior on its amount runs from none of it to all.
        int i = 0;
        for (int row = 0; row < rows; row++) {
            int from = bins.get(row).from() - begin;
            int to = bins.get(row).to() - begin;
            double pressureSum = 0;
            double timeSum = 0;
            double laminarSum = 0;
            double curveSum = 0;
            double orificeSum = 0;
            Arrays.fill(relaxedSum, 0);
            for (; i < to; i++) {
                double t = trace.timeS(begin + i);
                double p = bar[i];
                double dt = t - beforeTime;
                if (dt > 0) {
                    double log = Math.log(ATMOSPHERE_BAR + Math.max(p, -0.9));
                    for (int k = 0; k < warm.length; k++) {
                        double u = 0.5 * dt / AIR_COOLING_S[k];
                        warm[k] = (warm[k] * (1 - u) + AIR_HEATING * (log - beforeLog)) / (1 + u);
                    }
                    beforeLog = log;
                    double mean = 0.5 * (before + p);
                    double root = Math.sqrt(Math.max(0, p));
                    laminar += mean * dt;
                    curve += mean * mean * dt;
                    orifice += 0.5 * (beforeRoot + root) * dt;
                    beforeRoot = root;
                    if (!(Math.abs(dt - factorStep) < 0.05 * factorStep)) {
                        factorStep = dt;
                        for (int k = 0; k < factor.length; k++) {
                            factor[k] = -Math.expm1(-dt / RELAXATION_S[k]);
                        }
                    }
                    double scale = dt / factorStep;
                    for (int k = 0; k < relaxed.length; k++) {
                        relaxed[k] += scale * factor[k] * (mean - relaxed[k]);
                    }
                }
                before = p;
                beforeTime = t;
                if (i >= from) {
                    pressureSum += p;
                    timeSum += t - t0;
                    laminarSum += laminar;
                    curveSum += curve;
                    orificeSum += orifice;
                    for (int k = 0; k < relaxed.length; k++) {
                        relaxedSum[k] += relaxed[k];
                    }
                    double share = ATMOSPHERE_BAR / (ATMOSPHERE_BAR + Math.max(p, -0.9));
                    for (int k = 0; k < warm.length; k++) {
                        column[Columns.AIR_WARM + k][row] -= share * warm[k];
                    }
                }
            }
            double n = samples[row];
            timeS[row] = timeSum / n;
            column[Columns.PRESSURE][row] = pressureSum / n;
            column[Columns.LAMINAR][row] = laminarSum / n;
            column[Columns.LAMINAR_CURVE][row] = curveSum / n;
            column[Columns.ORIFICE][row] = orificeSum / n;
            for (int k = 0; k < relaxed.length; k++) {
                column[Columns.RELAXATION + k][row] = relaxedSum[k] / n;
            }
            for (int k = 0; k < warm.length; k++) {
                column[Columns.AIR_WARM + k][row] /= n;
            }
        }
    }

    /** The integrals of what is above each opening pressure, and of the time it is. */
    private void integrateOver(double[] thresholdBar) {
        Trace trace = cleaned.trace;
        int count = thresholdBar.length;
        double[] over = new double[count];
        double[] open = new double[count];
        double[] overSum = new double[count];
        double[] openSum = new double[count];
        for (int k = 0; k < count; k++) {
            column[Columns.THRESHOLD + k] = new double[rows];
            column[Columns.OPEN_TIME + k] = new double[rows];
        }
        double beforeTime = trace.timeS(begin);
        int i = 0;
        for (int row = 0; row < rows; row++) {
            int from = bins.get(row).from() - begin;
            int to = bins.get(row).to() - begin;
            Arrays.fill(overSum, 0);
            Arrays.fill(openSum, 0);
            for (; i < to; i++) {
                double t = trace.timeS(begin + i);
                double dt = t - beforeTime;
                if (dt > 0) {
                    double mean = 0.5 * (bar[Math.max(0, i - 1)] + bar[i]);
                    for (int k = 0; k < count; k++) {
                        if (mean > thresholdBar[k]) {
                            over[k] += (mean - thresholdBar[k]) * dt;
                            open[k] += dt;
                        }
                    }
                }
                beforeTime = t;
                if (i >= from) {
                    for (int k = 0; k < count; k++) {
                        overSum[k] += over[k];
                        openSum[k] += open[k];
                    }
                }
            }
            for (int k = 0; k < count; k++) {
                column[Columns.THRESHOLD + k][row] = overSum[k] / samples[row];
                column[Columns.OPEN_TIME + k][row] = openSum[k] / samples[row];
            }
        }
    }

    /** A straight line through each recorded temperature. */
    private void addTemperatures() {
        Trace trace = cleaned.trace;
        double t0 = trace.timeS(begin);
        Trend oil = new Trend();
        Trend ambient = new Trend();
        int end = begin + bar.length;
        if (trace.hasOilTemperature()) {
            for (int i = begin; i < end; i++) {
                oil.add(trace.timeS(i) - t0, trace.oilTemperatureK(i));
            }
        }
        if (trace.hasAmbientTemperature()) {
            for (int i = begin; i < end; i++) {
                ambient.add(trace.timeS(i) - t0, trace.ambientTemperatureK(i));
            }
        }
        for (int r = 0; r < rows; r++) {
            column[Columns.OIL_TEMPERATURE][r] = oil.slope() * timeS[r];
            column[Columns.AMBIENT_TEMPERATURE][r] = ambient.slope() * timeS[r];
        }
    }

    /** The columns that depend on mean pressure and time alone. */
    private void addFunctionsOfPressure() {
        double holdFrom = Double.NaN;
        double mu = Knowledge.STIFFENING_PER_BAR;
        double[] strokesBar = strokesBar();
        for (int r = 0; r < rows; r++) {
            double p = pressureBar[r];
            column[Columns.STIFFENING][r] = Math.log1p(mu * p) / mu - p;
            column[Columns.HOSE_CURVE][r] = -0.5 * p * p;
            double ratio = ATMOSPHERE_BAR / (ATMOSPHERE_BAR + Math.max(p, -0.9));
            column[Columns.AIR][r] = 1 - ratio;
            if (kind[r] != Kind.TAIL && Double.isNaN(holdFrom)) {
                holdFrom = timeS[r];
            }
            double since = Double.isNaN(holdFrom) ? 0 : timeS[r] - holdFrom;
            column[Columns.AIR_DISSOLVED][r] = ratio * -Math.expm1(-since / Knowledge.DISSOLVING_S);
            column[Columns.TIME][r] = timeS[r];
            column[Columns.STROKES][r] = strokesBefore[r];
            column[Columns.STROKES_BAR][r] = strokesBar[strokesBefore[r]];
            column[Columns.BLED][r] = kind[r] == Kind.END ? 1 : 0;
        }
    }

    /** The sum of the pressures that strokes ended at, bar, for each number of strokes. */
    private double[] strokesBar() {
        List<Stroke> strokes = cleaned.test.strokes();
        double[] sum = new double[strokes.size() + 1];
        for (int k = 0; k < strokes.size(); k++) {
            int end = Math.min(cleaned.trace.indexAt(strokes.get(k).endS()), cleaned.trace.size() - 1);
            sum[k + 1] = sum[k] + Math.max(0, cleaned.bar(end));
        }
        return sum;
    }

    /** A straight line through temperatures: a sensor's steps and noise must not become pressure. */
    private static final class Trend {
        private double n;
        private double t;
        private double v;
        private double tt;
        private double tv;
        private double first = Double.NaN;

        void add(double time, double value) {
            if (!Double.isFinite(value)) {
                return;
            }
            if (Double.isNaN(first)) {
                first = value;
            }
            double d = value - first;
            n++;
            t += time;
            v += d;
            tt += time * time;
            tv += time * d;
        }

        double slope() {
            double spread = n * tt - t * t;
            return spread > 0 ? (n * tv - t * v) / spread : 0;
        }
    }
}
