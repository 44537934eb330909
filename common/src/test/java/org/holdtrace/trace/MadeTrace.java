package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * A trace made for a test, with what is true of it: a hand pump into a compliance with some air and a linear leak,
 * {@code C dp/dt = q − g p}, seen through a transducer that lags, rounds and is noisy. All settings are in bar, s and cm³.
 */
final class MadeTrace {
    /** How a hand pushes. */
    enum Push {
        HALF_SINE,
        EVEN,
        GENTLE,
        /** Half the time at a third of the flow of the other half. */
        TWO_SPEEDS,
        /** Seven tenths of the volume in the first quarter of the time, then slower, without a stop. */
        LEANING_IN,
        /** Flow swings four times a push between its greatest and a tenth of that. */
        JERKS
    }

    double rateHz = 250;
    double restS = 4;
    int strokes = 14;
    double strokeCm3 = 0.4;
    double complianceCm3PerBar = 0.02;
    double airCm3 = 0;
    double leakCm3PerSBar = 0;
    /** Pressure below which nothing leaks, bar. */
    double leaksAboveBar = 0;
    /** Law of the leak: 1 laminar, 0.5 an orifice, whose flow at 100 bar is that of the laminar one. */
    double leakExponent = 1;
    /** A line shut in under a temperature that swings: what that does to the pressure, bar, and its period, s. */
    double swingBar = 0;

    double swingS = 300;
    double ceilingBar = Double.POSITIVE_INFINITY;
    double pushS = 0.4;
    double pauseS = 0.6;
    double scatter = 0.12;
    Push push = Push.HALF_SINE;
    double lastPart = 1;
    int hesitating = -1;
    double hesitationS = Double.NaN;
    int longPauseAfter = -1;
    double longPauseS = 9;
    int anotherPauseAfter = -1;
    double anotherPauseS = 9;
    double holdS = 40;
    double bleedS = 1.2;
    /** Time the valve takes to open, its passage growing with the square of time, s. */
    double openingS = 0;

    double afterS = 4;
    int tests = 1;
    double leftPart = 0;
    double startBar = 0;
    boolean endsInPumping;
    double noiseBar = 0.01;
    double correlation = 0;
    double stepBar = 0.005;
    double zeroBar = 0.2;
    double driftBarPerS = 0;
    double lagS = 0.003;
    int spikes;
    int spikeSamples = 1;
    int gaps;
    double gapS = 0.3;
    int repeats;
    /** By how much of an interval the stamps are off, at the most. */
    double jitter;

    final List<double[]> trueStrokes = new ArrayList<>();
    final List<Double> holdEndS = new ArrayList<>();
    final List<Integer> strokesOfTest = new ArrayList<>();
    private final List<double[]> flows = new ArrayList<>();
    private final Random random;

    MadeTrace(long seed) {
        random = new Random(seed);
    }

    /** Two dozen slow pushes of one kind into a small line, one a second or two. */
    static MadeTrace pumped(long seed, MadeTrace.Push push, double leakCm3PerSBar) {
        MadeTrace made = new MadeTrace(seed);
        made.rateHz = 200;
        made.strokes = 24;
        made.strokeCm3 = 0.3;
        made.complianceCm3PerBar = 0.05;
        made.airCm3 = 0.1;
        made.leakCm3PerSBar = leakCm3PerSBar;
        made.pushS = 0.9;
        made.pauseS = 0.9;
        made.push = push;
        return made;
    }

    /** A line that stood under pressure when the trace began. */
    static MadeTrace begunPumpedUp(long seed, double bar) {
        MadeTrace made = new MadeTrace(seed);
        made.startBar = bar;
        made.strokes = 0;
        return made;
    }

    /** Makes the trace. */
    Trace make() {
        double clock = restS;
        List<double[]> letOffs = new ArrayList<>();
        for (int test = 0; test < tests; test++) {
            clock = plan(clock);
            if (endsInPumping) {
                break;
            }
            clock += holdS;
            holdEndS.add(clock);
            if (bleedS > 0) {
                double open = leftPart > 0 ? -Math.log(leftPart) * bleedS : openingS + 8 * bleedS + afterS;
                letOffs.add(new double[] {clock, bleedS, open});
                clock += open + afterS;
            }
        }
        return record(run(clock, letOffs));
    }

    private double plan(double fromS) {
        double clock = fromS;
        int before = trueStrokes.size();
        for (int i = 0; i < strokes; i++) {
            double length = pushS * (1 + scatter * (2 * random.nextDouble() - 1));
            double part = i == strokes - 1 ? lastPart : 1;
            length *= part;
            double volume = strokeCm3 * part;
            if (i == hesitating) {
                double stop = Double.isNaN(hesitationS) ? 0.35 * pushS : hesitationS;
                flows.add(new double[] {clock, 0.5 * length, 0.5 * volume});
                flows.add(new double[] {clock + 0.5 * length + stop, 0.5 * length, 0.5 * volume});
                length += stop;
            } else {
                flows.add(new double[] {clock, length, volume});
            }
            trueStrokes.add(new double[] {clock, clock + length});
            clock += length;
            if (i < strokes - 1) {
                clock += i == longPauseAfter
                        ? longPauseS
                        : i == anotherPauseAfter
                                ? anotherPauseS
                                : pauseS * (1 + scatter * (2 * random.nextDouble() - 1));
            }
        }
        strokesOfTest.add(trueStrokes.size() - before);
        return clock;
    }

    private double[] run(double endS, List<double[]> letOffs) {
        int steps = (int) Math.max(1, Math.ceil(1000 / rateHz));
        double dt = 1 / rateHz / steps;
        int n = (int) (endS * rateHz);
        double[] bar = new double[n];
        double p = startBar;
        double seen = startBar;
        int next = 0;
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < steps; k++) {
                double t = (i + (double) k / steps) / rateHz;
                while (next < flows.size() && flows.get(next)[0] + flows.get(next)[1] < t) {
                    next++;
                }
                double q = next < flows.size() ? flow(flows.get(next), t) : 0;
                double above = Math.max(0, p - leaksAboveBar);
                q -= leakCm3PerSBar * (leakExponent == 1 ? above : 100 * Math.pow(above / 100, leakExponent));
                double c = complianceCm3PerBar + airCm3 / ((1 + p) * (1 + p));
                p += q / c * dt;
                if (swingBar > 0 && p > 1) {
                    p += swingBar * 2 * Math.PI / swingS * Math.cos(2 * Math.PI * t / swingS) * dt;
                }
                for (double[] bleed : letOffs) {
                    if (t >= bleed[0] && t < bleed[0] + bleed[2]) {
                        double opened = openingS == 0 ? 1 : Math.min(1, (t - bleed[0]) / openingS);
                        p -= opened * opened * p / bleed[1] * dt;
                    }
                }
                p = Math.max(0, Math.min(p, ceilingBar));
                seen += (p - seen) * Math.min(1, dt / lagS);
            }
            bar[i] = seen;
        }
        return bar;
    }

    private double flow(double[] stroke, double t) {
        double u = (t - stroke[0]) / stroke[1];
        if (u < 0 || u > 1) {
            return 0;
        }
        double mean = stroke[2] / stroke[1];
        return switch (push) {
            case HALF_SINE -> mean * Math.PI / 2 * Math.sin(Math.PI * u);
            case EVEN -> mean * Math.min(1, Math.min(u, 1 - u) / 0.1) / 0.9;
            case GENTLE -> mean * (1 - Math.cos(2 * Math.PI * u));
            case TWO_SPEEDS -> mean * (u < 0.5 ? 0.5 : 1.5);
            case LEANING_IN -> mean * (u < 0.25 ? 2.8 : 0.4);
            case JERKS -> mean * (0.55 - 0.45 * Math.cos(8 * Math.PI * u)) / 0.55;
        };
    }

    private Trace record(double[] bar) {
        int n = bar.length;
        double[] timeS = new double[n];
        double[] pa = new double[n];
        double colour = 0;
        for (int i = 0; i < n; i++) {
            timeS[i] = (i + jitter * (2 * random.nextDouble() - 1)) / rateHz;
            colour = correlation * colour + Math.sqrt(1 - correlation * correlation) * random.nextGaussian();
            double reading = bar[i] + zeroBar + driftBarPerS * timeS[i] + noiseBar * colour;
            pa[i] = 1e5 * stepBar * Math.round(reading / stepBar);
        }
        for (int i = 0; i < spikes; i++) {
            int from = random.nextInt(n);
            double offPa = 1e5 * (random.nextBoolean() ? 1 : -1) * Math.pow(10, 3 * random.nextDouble() - 1);
            for (int k = from; k < Math.min(n, from + spikeSamples); k++) {
                pa[k] += offPa;
            }
        }
        for (int i = 0; i < repeats; i++) {
            int at = 1 + random.nextInt(n - 1);
            timeS[at] = timeS[at - 1];
        }
        return gaps == 0 ? Trace.of(timeS, pa) : withGaps(timeS, pa);
    }

    private Trace withGaps(double[] timeS, double[] pa) {
        boolean[] lost = new boolean[timeS.length];
        for (int i = 0; i < gaps; i++) {
            int from = random.nextInt(timeS.length);
            for (int j = from; j < Math.min(timeS.length, from + (int) (gapS * rateHz)); j++) {
                lost[j] = true;
            }
        }
        double[] keptS = new double[timeS.length];
        double[] keptPa = new double[timeS.length];
        int n = 0;
        for (int i = 0; i < timeS.length; i++) {
            if (!lost[i]) {
                keptS[n] = timeS[i];
                keptPa[n++] = pa[i];
            }
        }
        return Trace.of(java.util.Arrays.copyOf(keptS, n), java.util.Arrays.copyOf(keptPa, n));
    }
}
