package org.holdtrace.trace;

/** A stretch of a trace to look at closely: wild samples taken out, thinned by averages to a bearable number. */
final class SampleWindow implements UnbrokenPushes.Readings {
    private static final int MOST = 100;
    private static final int ENOUGH_FOR_MEAN = 200;
    private static final double SPIKE_SIGMAS = 8;

    private final Trace trace;
    private final double noisePa;
    private double[] s = new double[256];
    private double[] pa = new double[256];
    private final double[] around = new double[2 * Excursion.REACH + 1];
    private int n;
    private int averaged;

    /** Looks at {@code trace}, whose samples have a standard deviation of {@code noisePa}. */
    SampleWindow(Trace trace, double noisePa) {
        this.trace = trace;
        this.noisePa = noisePa;
    }

    /** Loads the samples from {@code fromS} to {@code toS}, averaging neighbours where there are very many. */
    SampleWindow load(double fromS, double toS) {
        loadAll(fromS, toS);
        averaged = Math.max(1, (n + MOST - 1) / MOST);
        if (averaged > 1) {
            int kept = n / averaged;
            for (int i = 0; i < kept; i++) {
                double sumS = 0;
                double sumPa = 0;
                for (int j = i * averaged; j < (i + 1) * averaged; j++) {
                    sumS += s[j];
                    sumPa += pa[j];
                }
                s[i] = sumS / averaged;
                pa[i] = sumPa / averaged;
            }
            n = kept;
        }
        return this;
    }

    @Override
    public void loadAll(double fromS, double toS) {
        n = 0;
        averaged = 1;
        int from = trace.indexAt(fromS);
        double last = Double.NEGATIVE_INFINITY;
        for (int i = from; i < trace.size() && trace.timeS(i) <= toS; i++) {
            if (trace.timeS(i) > last && Double.isFinite(trace.pressurePa(i))) {
                if (n == s.length) {
                    s = java.util.Arrays.copyOf(s, 2 * n);
                    pa = java.util.Arrays.copyOf(pa, 2 * n);
                }
                last = trace.timeS(i);
                s[n] = last;
                pa[n++] = withoutSpike(i);
            }
        }
    }

    /** The sample, or the median around it where it fits neither the samples before nor those after. */
    private double withoutSpike(int i) {
        double value = trace.pressurePa(i);
        if (i < 2 || i > trace.size() - 3) {
            return value;
        }
        if (standsOff(i, value)) {
            for (int k = 0; k < around.length; k++) {
                around[k] = trace.pressurePa(i - Excursion.REACH + k);
            }
            double quiet = Excursion.without(around, SPIKE_SIGMAS * noisePa);
            if (quiet != value) {
                return quiet;
            }
        }
        double before = trace.pressurePa(i - 1);
        double before2 = trace.pressurePa(i - 2);
        double after = trace.pressurePa(i + 1);
        double after2 = trace.pressurePa(i + 2);
        double median = Medians.ofFive(before2, before, value, after, after2);
        double off = Math.abs(value - median);
        // The peak of a saw-tooth is no spike: the rise before it, or the fall after it, leads to it.
        boolean spike = off > SPIKE_SIGMAS * noisePa
                && Math.abs(value - (2 * before - before2)) > 0.5 * off
                && Math.abs(value - (2 * after - after2)) > 0.5 * off;
        return spike ? median : value;
    }

    /** Whether a sample is far from those an excursion's length before and after it. */
    private boolean standsOff(int i, double value) {
        int reach = Excursion.REACH;
        return i >= reach
                && i + reach < trace.size()
                && Math.abs(value - trace.pressurePa(i - reach)) > SPIKE_SIGMAS * noisePa
                && Math.abs(value - trace.pressurePa(i + reach)) > SPIKE_SIGMAS * noisePa;
    }

    @Override
    public double[] s() {
        return s;
    }

    @Override
    public double[] pa() {
        return pa;
    }

    @Override
    public int n() {
        return n;
    }

    /** How many samples were averaged to one. */
    int averaged() {
        return averaged;
    }

    /** Mean over [fromS, toS], spikes taken out, from no more samples than a mean needs; NaN where there are none. */
    double mean(double fromS, double toS) {
        int from = trace.indexAt(fromS);
        int to = trace.indexAt(Math.nextUp(toS));
        int stride = Math.max(1, (to - from) / ENOUGH_FOR_MEAN);
        double sum = 0;
        int count = 0;
        for (int i = from; i < to; i += stride) {
            if (Double.isFinite(trace.pressurePa(i))) {
                sum += withoutSpike(i);
                count++;
            }
        }
        return count == 0 ? Double.NaN : sum / count;
    }

    /** Time of the first sample in [fromS, toS] that is no spike and lies below {@code limitPa}; {@code toS} if none. */
    double firstBelow(double limitPa, double fromS, double toS) {
        for (int i = trace.indexAt(fromS); i < trace.size() && trace.timeS(i) < toS; i++) {
            if (trace.pressurePa(i) < limitPa && withoutSpike(i) < limitPa) {
                return trace.timeS(i);
            }
        }
        return toS;
    }

    /** Time of the last sample in [fromS, toS] that is no spike and lies above {@code limitPa}; {@code fromS} if none. */
    double lastAbove(double limitPa, double fromS, double toS) {
        for (int i = Math.min(trace.size(), trace.indexAt(toS)) - 1; i >= 0 && trace.timeS(i) > fromS; i--) {
            if (trace.pressurePa(i) > limitPa && withoutSpike(i) > limitPa) {
                return trace.timeS(i);
            }
        }
        return fromS;
    }

    @Override
    public double noisePa() {
        return noisePa;
    }
}
