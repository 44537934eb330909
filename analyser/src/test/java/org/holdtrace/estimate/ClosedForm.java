package org.holdtrace.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * A hold test written down from a closed form: every pressure is the exact solution of the volume balance of a
 * {@link Line}, to which a little white noise is added. Strokes are so quick that they fall between two samples.
 * Neither the simulator nor anything of the estimator takes part.
 */
final class ClosedForm {
    private static final double PA_PER_BAR = 1e5;

    /** A shut line whose pressure is known in closed form; it keeps its state. */
    interface Line {
        /** Gauge pressure now, bar. */
        double bar();

        /** Lets {@code cm3} in at once. */
        void stroke(double cm3);

        /** Waits {@code s} seconds. */
        void pass(double s);
    }

    /** The samples and what happened when. */
    record Made(Trace trace, HoldTest test) {}

    double rateHz = 100;
    double restS = 3;
    int strokes = 20;
    double strokeCm3 = 0.45;
    double everyS = 1;
    /** How much of the hold is called settling. */
    double settlingS = 3;

    double holdS = 60;
    /** 0 for a trace that ends in the hold. */
    double bleedS = 0;

    double noiseBar = 0.005;
    double zeroBar = 0;
    long seed = 1;
    /** The stroke, counted from 0, that the plateau begins with; negative for none. */
    int plateauFrom = -1;

    /** A line of one compliance, into which strokes come at once. */
    private abstract static class OfOneCompliance implements Line {
        final double cm3PerBar;
        double p;

        OfOneCompliance(double cm3PerBar) {
            this.cm3PerBar = cm3PerBar;
        }

        @Override
        public double bar() {
            return p;
        }

        @Override
        public void stroke(double cm3) {
            p += cm3 / cm3PerBar;
        }
    }

    /** C dp/dt = −G p: an exponential (C-04); G = 0 for a tight line. */
    static Line laminar(double cm3PerBar, double cm3PerSBar) {
        return new OfOneCompliance(cm3PerBar) {
            @Override
            public void pass(double s) {
                p *= Math.exp(-s * cm3PerSBar / cm3PerBar);
            }
        };
    }

    /**
     * Oil that stiffens, K = K0 + m p, with a laminar leak: V/(K0 + m p) dp/dt = −G p, so that p/(K0 + m p) falls
     * exponentially with the time constant V/(K0 G).
     */
    static Line stiffening(double cm3, double modulusBar, double barPerBar, double cm3PerSBar) {
        return new Line() {
            private double p;

            @Override
            public double bar() {
                return p;
            }

            @Override
            public void stroke(double more) {
                // V/m ln(K0 + m p) grows by what is pumped.
                double stiff = (modulusBar + barPerBar * p) * Math.exp(more * barPerBar / cm3);
                p = (stiff - modulusBar) / barPerBar;
            }

            @Override
            public void pass(double s) {
                double ratio = p / (modulusBar + barPerBar * p) * Math.exp(-s * modulusBar * cm3PerSBar / cm3);
                p = modulusBar * ratio / (1 - barPerBar * ratio);
            }
        };
    }

    /** C dp/dt = −K √p: √p falls in a straight line to zero (C-05). */
    static Line orifice(double cm3PerBar, double cm3PerSRootBar) {
        return new OfOneCompliance(cm3PerBar) {
            @Override
            public void pass(double s) {
                double root = Math.max(0, Math.sqrt(p) - cm3PerSRootBar * s / (2 * cm3PerBar));
                p = root * root;
            }
        };
    }

    /**
     * Oil that warms in a stroke and cools to its walls with one time constant (TH-08), with a laminar leak. With w the
     * pressure that the lost heat has already followed, C_S p + (C_T − C_S) w changes by what is pumped less what leaks,
     * and dw/dt = (p − w)/θ: two linear equations, solved by their eigenvalues.
     *
     * @param slowCm3PerBar isothermal compliance C_T of oil and walls
     * @param fastCm3PerBar compliance C_S a stroke sees
     * @param thetaS time constant θ of the cooling
     * @param cm3PerSBar laminar leak G
     */
    static Line warming(double slowCm3PerBar, double fastCm3PerBar, double thetaS, double cm3PerSBar) {
        double h = (slowCm3PerBar - fastCm3PerBar) / fastCm3PerBar;
        // p' = a p + b w,  w' = c p + d w
        double a = -cm3PerSBar / fastCm3PerBar - h / thetaS;
        double b = h / thetaS;
        double c = 1 / thetaS;
        double d = -1 / thetaS;
        double middle = 0.5 * (a + d);
        double root = Math.sqrt(0.25 * (a - d) * (a - d) + b * c);
        return new OfOneCompliance(fastCm3PerBar) {
            private double w;

            @Override
            public void pass(double s) {
                double grow = Math.exp(middle * s);
                double cosh = Math.cosh(root * s);
                double sinh = Math.sinh(root * s) / root;
                double pNext = grow * ((cosh + (a - middle) * sinh) * p + b * sinh * w);
                w = grow * (c * sinh * p + (cosh + (d - middle) * sinh) * w);
                p = pNext;
            }
        };
    }

    /**
     * Tight oil with entrained air that follows at once (EF-03): V (1 − α) p/E + α V (1 − p_a/(p_a + p)) has been pumped,
     * a quadratic in p.
     */
    static Line aerated(double cm3, double modulusBar, double airFraction, double atmosphereBar) {
        return new Line() {
            private double pumped;

            @Override
            public double bar() {
                double stiff = cm3 * (1 - airFraction) / modulusBar;
                double free = cm3 * airFraction;
                // stiff p² + (stiff p_a + free − pumped) p − pumped p_a = 0
                double half = 0.5 * (stiff * atmosphereBar + free - pumped);
                return (-half + Math.sqrt(half * half + stiff * pumped * atmosphereBar)) / stiff;
            }

            @Override
            public void stroke(double more) {
                pumped += more;
            }

            @Override
            public void pass(double s) {
                // nothing leaks and nothing cools
            }
        };
    }

    Made make(Line line) {
        double end = restS + (strokes - 1) * everyS;
        double to = end + holdS + 0.3 / rateHz;
        int n = (int) Math.round((to + bleedS) * rateHz) + 1;
        double[] timeS = new double[n];
        double[] pa = new double[n];
        SplittableRandom random = new SplittableRandom(seed);
        List<Stroke> made = new ArrayList<>();
        double dt = 1 / rateHz;
        double plateauSum = 0;
        int plateauCount = 0;
        double plateauFromS = plateauFrom < 0 ? Double.POSITIVE_INFINITY : restS + plateauFrom * everyS;
        double released = 0;
        for (int i = 0; i < n; i++) {
            double t = i * dt;
            timeS[i] = t;
            boolean holds = t <= to;
            released = holds ? line.bar() : released * Math.exp(-dt / 0.15);
            pa[i] = PA_PER_BAR * (zeroBar + released + noiseBar * random.nextGaussian());
            if (t >= plateauFromS && t < end) {
                plateauSum += line.bar();
                plateauCount++;
            }
            boolean push = made.size() < strokes && t >= restS + made.size() * everyS - 1e-9;
            line.pass(dt / 2);
            if (push) {
                line.stroke(strokeCm3);
                // Off the samples' own instants, so that no rounding decides which side a sample is on.
                made.add(new Stroke(t + 0.3 * dt, t + 0.7 * dt));
            }
            line.pass(dt / 2);
        }
        return new Made(
                Trace.of(timeS, pa),
                test(
                        made,
                        to,
                        plateauFromS,
                        plateauCount == 0
                                ? OptionalDouble.empty()
                                : OptionalDouble.of(PA_PER_BAR * plateauSum / plateauCount)));
    }

    /** A trace that begins in the hold, after {@code cm3} have been pumped and all heat of it has gone. */
    Made begunPumpedUp(Line line, double cm3) {
        line.stroke(cm3);
        int n = (int) Math.round(holdS * rateHz) + 1;
        double[] timeS = new double[n];
        double[] pa = new double[n];
        SplittableRandom random = new SplittableRandom(seed);
        for (int i = 0; i < n; i++) {
            timeS[i] = i / rateHz;
            pa[i] = PA_PER_BAR * (line.bar() + noiseBar * random.nextGaussian());
            line.pass(1 / rateHz);
        }
        HoldTest test = new HoldTest(
                1,
                List.of(new PhaseSpan(Phase.HOLD, 0, timeS[n - 1])),
                List.of(),
                new HoldTest.RestLevel(0, PA_PER_BAR * noiseBar, false),
                OptionalDouble.empty());
        return new Made(Trace.of(timeS, pa), test);
    }

    /** The same with a thermometer in the oil that reads {@code kelvin} at first and {@code kPerS} more each second. */
    Made withOilTemperature(Made made, double kelvin, double kPerS) {
        int n = made.trace.size();
        double[] timeS = new double[n];
        double[] pa = new double[n];
        double[] oilK = new double[n];
        for (int i = 0; i < n; i++) {
            timeS[i] = made.trace.timeS(i);
            pa[i] = made.trace.pressurePa(i);
            oilK[i] = kelvin + kPerS * timeS[i];
        }
        return new Made(new Trace(timeS, pa, oilK, null, Optional.empty()), made.test);
    }

    private HoldTest test(List<Stroke> made, double toS, double plateauFromS, OptionalDouble plateauPa) {
        double from = made.get(0).startS();
        double last = made.get(made.size() - 1).endS();
        List<PhaseSpan> phases = new ArrayList<>();
        phases.add(new PhaseSpan(Phase.REST, 0, from));
        phases.add(new PhaseSpan(Phase.PUMP_UP, from, last));
        if (plateauPa.isPresent()) {
            phases.add(new PhaseSpan(Phase.PLATEAU, plateauFromS, last));
        }
        phases.add(new PhaseSpan(Phase.SETTLING, last, last + settlingS));
        phases.add(new PhaseSpan(Phase.HOLD, last + settlingS, toS));
        if (bleedS > 0) {
            phases.add(new PhaseSpan(Phase.BLEED_OFF, toS, toS + bleedS));
        }
        return new HoldTest(
                1, phases, made, new HoldTest.RestLevel(PA_PER_BAR * zeroBar, PA_PER_BAR * noiseBar, true), plateauPa);
    }
}
