package org.holdtrace.estimate;

import static org.holdtrace.estimate.Columns.AIR_COOLING_S;
import static org.holdtrace.estimate.Columns.AIR_HEATING;
import static org.holdtrace.estimate.Columns.ATMOSPHERE_BAR;
import static org.holdtrace.estimate.Columns.RELAXATION_S;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * A hold test reduced to some two hundred rows: means over stretches during which nothing was pumped, of the pressure
 * and of every other term of the volume balance. The integrals and relaxations run over every sample, so that the mean
 * of a row obeys the balance exactly, however fast the pressure falls within it.
 */
final class Reduction {
    private static final double PA_PER_BAR = 1e5;

    /** Where a row comes from. */
    enum Kind {
        TAIL,
        HOLD,
        END
    }

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
    final double[][] column;
    /** Opening pressures tried, bar. */
    final double[] thresholdBar;
    /** Largest pressure met, bar. */
    final double peakBar;
    /** Standard deviation of a sample by successive differences, bar. */
    final double sampleNoiseBar;
    /** Smallest step between readings, bar; 0 where none was seen. */
    final double quantumBar;

    private Reduction(Builder b) {
        this.rows = b.bins.size();
        this.kind = new Kind[rows];
        this.timeS = new double[rows];
        this.lengthS = new double[rows];
        this.samples = new int[rows];
        this.pressureBar = new double[rows];
        this.strokesBefore = new int[rows];
        this.unknownBefore = new int[rows];
        this.inPlateau = new boolean[rows];
        this.column = b.column;
        this.thresholdBar = b.thresholdBar;
        this.peakBar = b.peakBar;
        this.sampleNoiseBar = b.noiseBar;
        this.quantumBar = b.quantumBar;
        for (int i = 0; i < rows; i++) {
            Bin bin = b.bins.get(i);
            kind[i] = bin.kind;
            timeS[i] = b.meanTime[i];
            lengthS[i] = Math.max(0, b.trace.timeS(bin.to - 1) - b.trace.timeS(bin.from));
            samples[i] = bin.to - bin.from;
            pressureBar[i] = column[Columns.PRESSURE][i];
            strokesBefore[i] = bin.strokesBefore;
            unknownBefore[i] = bin.unknownBefore;
            inPlateau[i] = bin.inPlateau;
        }
    }

    /**
     * @param trace the samples
     * @param test phases and strokes of the hold test to reduce
     * @param unknownStrokes which strokes (by index) are not of full volume, or of no known volume
     * @param useEnd whether the end of the trace is to be a row (the oil let off was caught)
     * @param thresholdBar opening pressures to try, bar; {@link Columns#THRESHOLDS} of them
     */
    static Reduction of(Trace trace, HoldTest test, boolean[] unknownStrokes, boolean useEnd, double[] thresholdBar) {
        return new Builder(trace, test, unknownStrokes, useEnd, thresholdBar).build();
    }

    private record Bin(int from, int to, Kind kind, int strokesBefore, int unknownBefore, boolean inPlateau) {}

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

    private static final class Builder {
        /** Tails used at the most: more add cost, not knowledge. */
        private static final int MOST_TAILS = 70;
        /** Rows of the hold, about. */
        private static final int HOLD_ROWS = 110;

        final Trace trace;
        final HoldTest test;
        final double zeroBar;
        final double[] thresholdBar;
        final List<Bin> bins = new ArrayList<>();
        double[][] column;
        double[] meanTime;
        double peakBar;
        final double noiseBar;
        final double quantumBar;
        final double startS;
        private double oilSlope;
        private double ambientSlope;
        private final boolean[] unknownStrokes;
        private final boolean useEnd;
        private final double spikeBar;

        Builder(Trace trace, HoldTest test, boolean[] unknownStrokes, boolean useEnd, double[] thresholdBar) {
            this.trace = trace;
            this.test = test;
            this.zeroBar = test.rest().zeroPa() / PA_PER_BAR;
            this.thresholdBar = thresholdBar;
            this.unknownStrokes = unknownStrokes;
            this.useEnd = useEnd;
            this.startS = test.phases().isEmpty() ? trace.timeS(0) : firstTime();
            double[] noise = sampleNoise();
            this.noiseBar = noise[0];
            this.quantumBar = noise[1];
            this.spikeBar = 8 * Math.max(noiseBar, quantumBar / 2) + 1e-6;
        }

        private double firstTime() {
            return Spans.startS(trace, test);
        }

        Reduction build() {
            layOut();
            int n = bins.size();
            column = new double[Columns.COUNT][n];
            meanTime = new double[n];
            integrate();
            return new Reduction(this);
        }

        /** Decides which samples make which row. */
        private void layOut() {
            List<Stroke> strokes = test.strokes();
            int unknown = 0;
            PhaseSpan plateau = Spans.firstOf(test, Phase.PLATEAU);
            double plateauFrom = plateau == null ? Double.POSITIVE_INFINITY : plateau.fromS();
            int stride = Math.max(1, (strokes.size() + MOST_TAILS - 1) / MOST_TAILS);
            int pieces = strokes.size() <= 25 ? 3 : 2;
            for (int k = 0; k + 1 < strokes.size(); k++) {
                unknown += unknownStrokes[k] ? 1 : 0;
                boolean wanted =
                        k % stride == 0 || k + 2 == strokes.size() || unknownStrokes[k] || unknownStrokes[k + 1];
                if (wanted) {
                    addTail(
                            strokes.get(k).endS(),
                            strokes.get(k + 1).startS(),
                            pieces,
                            k + 1,
                            unknown,
                            strokes.get(k).startS() >= plateauFrom - 1e-9);
                }
            }
            if (!strokes.isEmpty()) {
                unknown += unknownStrokes[strokes.size() - 1] ? 1 : 0;
            }
            addHold(strokes.size(), unknown);
        }

        private void addTail(double endS, double nextS, int pieces, int before, int unknown, boolean inPlateau) {
            // A transducer's lag smears the end of a stroke over a few hundredths of a second.
            double margin = Math.min(0.04, 0.2 * (nextS - endS));
            int from = trace.indexAt(endS + margin);
            int to = Math.min(trace.indexAt(nextS), trace.size());
            int n = to - from;
            if (n < 1) {
                return;
            }
            int parts = Math.min(pieces, Math.max(1, n / 3));
            for (int part = 0; part < parts; part++) {
                int a = from + (int) ((long) n * part / parts);
                int b = from + (int) ((long) n * (part + 1) / parts);
                bins.add(new Bin(a, b, Kind.TAIL, before, unknown, inPlateau));
            }
        }

        private void addHold(int before, int unknown) {
            if (Spans.hold(test) == null) {
                return;
            }
            double fromS = Spans.firstOf(test, Phase.SETTLING, Phase.HOLD).fromS();
            double toS = Spans.hold(test).toS();
            if (!(toS > fromS)) {
                return;
            }
            double length = toS - fromS;
            double margin = test.strokes().isEmpty() ? 0 : Math.min(0.08, 0.02 * length);
            int at = trace.indexAt(fromS + margin);
            int last = Math.min(trace.indexAt(toS), trace.size());
            // Rows grow with time since the pumping: what happens first happens fast.
            double first = Math.max(0.1, length / 2000);
            double growth = 1.06;
            double most = length / HOLD_ROWS * 1.6;
            double width = first;
            double edge = fromS + margin;
            while (at < last) {
                edge += width;
                int to = Math.min(last, Math.max(trace.indexAt(edge), at + 1));
                if (last - to < (to - at) / 2) {
                    to = last;
                }
                bins.add(new Bin(at, to, Kind.HOLD, before, unknown, false));
                at = to;
                edge = Math.max(edge, trace.timeS(Math.min(at, trace.size() - 1)));
                width = Math.min(width * growth, most);
            }
            if (useEnd && test.phase(Phase.BLEED_OFF).isPresent()) {
                PhaseSpan bleed = test.phase(Phase.BLEED_OFF).orElseThrow();
                int to = endOfRelease(Math.min(trace.indexAt(bleed.toS() + 1e-9), trace.size()));
                int from = Math.max(last + 1, trace.indexAt(trace.timeS(to - 1) - 0.3));
                if (to > from) {
                    bins.add(new Bin(from, to, Kind.END, before, unknown, false));
                }
            }
        }

        /** Oil is caught until the trace ends or the next pumping begins: the first sample after that. */
        private int endOfRelease(int from) {
            double rise = Math.max(2, 0.05 * (raw(Math.max(0, from - 1)) - zeroBar)) + spikeBar;
            double level = from > 0 ? raw(from - 1) : 0;
            int to = from;
            while (to < trace.size()) {
                double p = raw(to);
                // Two in a row: one alone may be a spike.
                if (p > level + rise && to + 1 < trace.size() && raw(to + 1) > level + rise) {
                    break;
                }
                level = Math.min(level, p);
                to++;
            }
            return to;
        }

        private void integrate() {
            int begin = Math.max(0, trace.indexAt(startS) - 1);
            int end = bins.isEmpty() ? begin : bins.get(bins.size() - 1).to;
            double[] relaxed = new double[RELAXATION_S.length];
            double[] factor = new double[RELAXATION_S.length];
            double[] overThreshold = new double[thresholdBar.length];
            double[] openTime = new double[thresholdBar.length];
            double[] warm = new double[AIR_COOLING_S.length];
            double laminar = 0;
            double orifice = 0;
            double factorStep = -1;
            double t0 = trace.timeS(begin);
            double before = bar(begin);
            double beforeTime = t0;
            double beforeRoot = Math.sqrt(Math.max(0, before));
            double beforeLog = Math.log(ATMOSPHERE_BAR + Math.max(before, -0.9));
            if (test.strokes().isEmpty()) {
                // Begun pumped up: how long ago is not known; heat is taken to be all there still, and the prior on
                // its amount says how little that is worth.
                Arrays.fill(relaxed, 0);
            }
            boolean oil = trace.hasOilTemperature();
            boolean ambient = trace.hasAmbientTemperature();
            Trend oilTrend = new Trend();
            Trend ambientTrend = new Trend();
            int row = 0;
            double peak = before;
            for (int i = begin; i < end; i++) {
                double t = trace.timeS(i);
                double p = bar(i);
                double dt = t - beforeTime;
                double log = Math.log(ATMOSPHERE_BAR + Math.max(p, -0.9));
                if (dt > 0) {
                    for (int k = 0; k < warm.length; k++) {
                        double u = 0.5 * dt / AIR_COOLING_S[k];
                        warm[k] = (warm[k] * (1 - u) + AIR_HEATING * (log - beforeLog)) / (1 + u);
                    }
                    beforeLog = log;
                    double mean = 0.5 * (before + p);
                    double root = Math.sqrt(Math.max(0, p));
                    laminar += mean * dt;
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
                    for (int k = 0; k < overThreshold.length; k++) {
                        double over = mean - thresholdBar[k];
                        if (over > 0) {
                            overThreshold[k] += over * dt;
                            openTime[k] += dt;
                        }
                    }
                }
                if (oil) {
                    oilTrend.add(t - t0, trace.oilTemperatureK(i));
                }
                if (ambient) {
                    ambientTrend.add(t - t0, trace.ambientTemperatureK(i));
                }
                before = p;
                beforeTime = t;
                peak = Math.max(peak, p);
                while (row < bins.size() && i >= bins.get(row).to) {
                    row++;
                }
                if (row < bins.size() && i >= bins.get(row).from) {
                    column[Columns.PRESSURE][row] += p;
                    meanTime[row] += t - t0;
                    column[Columns.LAMINAR][row] += laminar;
                    column[Columns.ORIFICE][row] += orifice;
                    for (int k = 0; k < relaxed.length; k++) {
                        column[Columns.RELAXATION + k][row] += relaxed[k];
                    }
                    double share = ATMOSPHERE_BAR / (ATMOSPHERE_BAR + Math.max(p, -0.9));
                    for (int k = 0; k < warm.length; k++) {
                        column[Columns.AIR_WARM + k][row] -= share * warm[k];
                    }
                    for (int k = 0; k < overThreshold.length; k++) {
                        column[Columns.THRESHOLD + k][row] += overThreshold[k];
                        column[Columns.OPEN_TIME + k][row] += openTime[k];
                    }
                }
            }
            peakBar = peak;
            oilSlope = oilTrend.slope();
            ambientSlope = ambientTrend.slope();
            finishRows();
        }

        /** Turns sums into means and adds what depends on the mean pressure alone. */
        private void finishRows() {
            double holdFrom = Double.NaN;
            for (int r = 0; r < bins.size(); r++) {
                Bin bin = bins.get(r);
                double n = bin.to - bin.from;
                meanTime[r] /= n;
                for (double[] c : column) {
                    c[r] /= n;
                }
                double p = column[Columns.PRESSURE][r];
                double mu = Knowledge.STIFFENING_PER_BAR;
                column[Columns.STIFFENING][r] = Math.log1p(mu * p) / mu - p;
                column[Columns.HOSE_CURVE][r] = -0.5 * p * p;
                double ratio = ATMOSPHERE_BAR / (ATMOSPHERE_BAR + Math.max(p, -0.9));
                column[Columns.AIR][r] = 1 - ratio;
                if (bin.kind != Kind.TAIL && Double.isNaN(holdFrom)) {
                    holdFrom = meanTime[r];
                }
                double since = Double.isNaN(holdFrom) ? 0 : meanTime[r] - holdFrom;
                column[Columns.AIR_DISSOLVED][r] = ratio * -Math.expm1(-since / Knowledge.DISSOLVING_S);
                column[Columns.TIME][r] = meanTime[r];
                column[Columns.OIL_TEMPERATURE][r] = oilSlope * meanTime[r];
                column[Columns.AMBIENT_TEMPERATURE][r] = ambientSlope * meanTime[r];
                column[Columns.STROKES][r] = bin.strokesBefore;
                column[Columns.BLED][r] = bin.kind == Kind.END ? 1 : 0;
            }
        }

        private double raw(int i) {
            return trace.pressurePa(i) / PA_PER_BAR;
        }

        /** The reading less the zero, bar; an isolated spike of one or two samples gives way to its neighbours. */
        private double bar(int i) {
            double p = raw(i);
            if (i >= 2 && i + 2 < trace.size()) {
                double left = raw(i - 1);
                double right = raw(i + 1);
                if (Math.abs(p - left) > spikeBar || Math.abs(p - right) > spikeBar) {
                    double a = raw(i - 2);
                    double b = raw(i + 2);
                    double median = median5(a, left, p, right, b);
                    double run = Math.abs(b - a) + Math.abs(median - 0.5 * (a + b));
                    if (Math.abs(p - median) > spikeBar + 2 * run) {
                        return median - zeroBar;
                    }
                }
            }
            return p - zeroBar;
        }

        private static double median5(double a, double b, double c, double d, double e) {
            double[] v = {a, b, c, d, e};
            Arrays.sort(v);
            return v[2];
        }

        /** Standard deviation of one sample from second differences, and the smallest step, both in bar. */
        private double[] sampleNoise() {
            PhaseSpan span = Spans.firstOf(test, Phase.HOLD, Phase.SETTLING, Phase.PUMP_UP);
            if (span == null) {
                span = new PhaseSpan(Phase.HOLD, trace.timeS(0), trace.timeS(trace.size() - 1));
            }
            int from = Math.max(1, trace.indexAt(span.fromS()));
            int to = Math.min(trace.size() - 1, trace.indexAt(span.toS()));
            int step = Math.max(1, (to - from) / 8000);
            double[] d = new double[Math.max(0, (to - from + step - 1) / step)];
            double quantum = Double.POSITIVE_INFINITY;
            int n = 0;
            for (int i = from; i < to; i += step) {
                d[n++] = Math.abs(raw(i - 1) - 2 * raw(i) + raw(i + 1));
                double first = Math.abs(raw(i) - raw(i - 1));
                if (first > 1e-7) {
                    quantum = Math.min(quantum, first);
                }
            }
            if (n < 8) {
                return new double[] {Math.max(test.rest().noisePa() / PA_PER_BAR, 1e-4), 0};
            }
            Arrays.sort(d, 0, n);
            double median = d[n / 2];
            double mean = 0;
            int trusted = (int) (0.98 * n);
            for (int i = 0; i < trusted; i++) {
                mean += d[i] * d[i];
            }
            // The median rules where there is noise; the trimmed mean square where readings stand still between steps.
            double byMedian = median / 0.6745 / Math.sqrt(6);
            double byMean = Math.sqrt(mean / trusted / 6);
            double noise = byMedian > 0 ? byMedian : byMean;
            return new double[] {Math.max(noise, 1e-5), Double.isInfinite(quantum) ? 0 : quantum};
        }
    }
}
