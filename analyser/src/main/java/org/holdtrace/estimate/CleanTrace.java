package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.util.Arrays;
import org.holdtrace.trace.Excursion;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** The pressures of a hold test in bar, the zero taken off, and how noisy they are. */
final class CleanTrace {
    final Trace trace;
    final HoldTest test;
    final double zeroBar;
    /** Standard deviation of a sample by successive differences, bar. */
    final double noiseBar;
    /** Smallest step between readings, bar; 0 where none was seen. */
    final double quantumBar;
    /** What a sample must part from its neighbours by to be taken for a spike, bar. */
    final double spikeBar;

    private final double[] around = new double[2 * Excursion.REACH + 1];

    CleanTrace(Trace trace, HoldTest test) {
        this.trace = trace;
        this.test = test;
        this.zeroBar = test.rest().zeroPa() / PA_PER_BAR;
        double[] noise = sampleNoise();
        this.noiseBar = noise[0];
        this.quantumBar = noise[1];
        this.spikeBar = 8 * Math.max(noiseBar, quantumBar / 2) + 1e-6;
    }

    /** The reading as it is, bar. */
    double raw(int i) {
        return trace.pressurePa(i) / PA_PER_BAR;
    }

    /** The reading less the zero, bar; an isolated spike of a few samples gives way to its neighbours. */
    double bar(int i) {
        double p = raw(i);
        int reach = Excursion.REACH;
        if (i >= reach
                && i + reach < trace.size()
                && Math.abs(p - raw(i - reach)) > spikeBar
                && Math.abs(p - raw(i + reach)) > spikeBar) {
            for (int k = 0; k < around.length; k++) {
                around[k] = raw(i - reach + k);
            }
            double quiet = Excursion.without(around, spikeBar);
            if (quiet != p) {
                return quiet - zeroBar;
            }
        }
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
