package org.holdtrace.testdata;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.leak.Law;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/**
 * Invented hold tests with invented results, for tests of what is printed and drawn. The pressures follow a simple
 * volume balance; the results are made up to look like such a test's and are no check of the estimator.
 */
public final class InventedTests {
    private static final double BAR = 1e5;
    private static final double CM3_PER_MIN = 1e-6 / 60;

    private InventedTests() {}

    /** A trace and what is said about it. */
    public record Case(String name, Trace trace, TestSetup setup, HoldTestResult result) {}

    /** A valve port whose leak the hand pump cannot outrun: pump-up, plateau, hold, bleed-off. */
    public static Case wornPort() {
        Drawn drawn = draw(250, 5, 26, 1.0, 0.05, 60, 0.45, 26.0, 3, 9, 2);
        return new Case(
                "port-a-worn.hold",
                drawn.trace,
                setup("Loader 7", "Bucket valve", "A", 15),
                new HoldTestResult(
                        drawn.test,
                        Optional.of(compliance(0.0502, 0.0471, 0.0533)),
                        Optional.of(leak(26.4, 24.6, 28.3, 19.8, Law.LAMINAR, 0.93, 0.21)),
                        List.of(
                                route(HoldTestResult.Route.DECAY, 25.9, 22.4, 29.4),
                                route(HoldTestResult.Route.STROKE_TAILS, 26.6, 24.3, 28.9),
                                route(HoldTestResult.Route.PLATEAU_FLOW, 26.3, 23.6, 29.0)),
                        Optional.of(new HoldTestResult.Agreement(0.42, 2, true)),
                        Optional.of(new HoldTestResult.Verdict(
                                HoldTestResult.Outcome.OVER_LIMIT, 15 * CM3_PER_MIN, 0.99999)),
                        List.of(budget("pump stroke", 0.71), budget("stroke scatter", 0.42), budget("transducer", 0.3)),
                        List.of(new HoldTestResult.Caution(
                                "plateau",
                                "Pressure stalled at 19.8 bar; the leak is stated there, not at the pressure wanted.")),
                        Optional.of(picture(drawn, 33, 0.07, 25))));
    }

    /** A cylinder that holds: settling by heat only, no leak to be seen. */
    public static Case tightCylinder() {
        Drawn drawn = draw(250, 6, 70, 0.8, 0.21, 210, 0.45, 0.0, 60, 240, 4);
        return new Case(
                "cylinder-sound.hold",
                drawn.trace,
                setup("Press 2", "Lift cylinder", "bore", 2),
                new HoldTestResult(
                        drawn.test,
                        Optional.of(compliance(0.214, 0.208, 0.220)),
                        Optional.of(leak(0.004, 0, 0.031, 140, Law.NONE, 0.88, 0.035)),
                        List.of(
                                route(HoldTestResult.Route.DECAY, 0.006, 0, 0.05),
                                route(HoldTestResult.Route.STROKE_TAILS, 0.1, 0, 0.9)),
                        Optional.of(new HoldTestResult.Agreement(0.05, 1, true)),
                        Optional.of(new HoldTestResult.Verdict(
                                HoldTestResult.Outcome.WITHIN_LIMIT, 2 * CM3_PER_MIN, 0.0000001)),
                        List.of(budget("settling", 0.012)),
                        List.of(
                                new HoldTestResult.Caution(
                                        "settling",
                                        "Heat of compression is still leaving the oil for much of the hold."),
                                new HoldTestResult.Caution("no-oil-temperature", "The oil temperature was not stated."),
                                new HoldTestResult.Caution(
                                        "creep", "Hose creep cannot be told from a very small leak.")),
                        Optional.of(picture(drawn, 0.004, 0.027, 150))));
    }

    /** Nothing known beside the samples: no limit, one route, an orifice. */
    public static Case bareTrace() {
        Drawn drawn = draw(60, 2, 8, 1.2, 0.05, 60, 0.45, 3.0, 5, 900, 0);
        return new Case(
                "seat.csv",
                drawn.trace,
                TestSetup.unknown(),
                new HoldTestResult(
                        drawn.test,
                        Optional.empty(),
                        Optional.of(leak(3.2, 1.1, 5.3, 62, Law.ORIFICE, 0.55, 0.8)),
                        List.of(route(HoldTestResult.Route.DECAY, 3.2, 1.1, 5.3)),
                        Optional.empty(),
                        Optional.empty(),
                        List.of(),
                        List.of(),
                        Optional.of(picture(drawn, 3.2, 0.33, 62))));
    }

    /** Close to the limit: no verdict either way, and routes that do not agree. */
    public static Case doubtful() {
        Drawn drawn = draw(250, 4, 40, 0.9, 0.08, 180, 0.45, 4.0, 20, 60, 3);
        return new Case(
                "relief-early.hold",
                drawn.trace,
                setup("Rig 11", "Port relief valve, boom raise side", "B1", 4),
                new HoldTestResult(
                        drawn.test,
                        Optional.of(compliance(0.082, 0.075, 0.089)),
                        Optional.of(leak(4.1, 3.3, 4.9, 120, Law.THRESHOLD, 0.71, 0.4)),
                        List.of(
                                route(HoldTestResult.Route.DECAY, 3.2, 2.7, 3.7),
                                route(HoldTestResult.Route.STROKE_TAILS, 5.2, 4.6, 5.8)),
                        Optional.of(new HoldTestResult.Agreement(9.7, 1, false)),
                        Optional.of(
                                new HoldTestResult.Verdict(HoldTestResult.Outcome.UNDECIDED, 4 * CM3_PER_MIN, 0.61)),
                        List.of(budget("trapped volume", 0.31), budget("air", 0.2)),
                        List.of(new HoldTestResult.Caution(
                                "routes-disagree", "The routes disagree: one of the stated inputs is probably wrong.")),
                        Optional.of(picture(drawn, 4.1, 0.2, 150))));
    }

    /** Pumped up and let off at once: no hold, no plateau, no rate. */
    public static Case noHold() {
        Drawn drawn = draw(100, 3, 6, 1.0, 0.05, 60, 0.45, 1.0, 0.4, 0, 2);
        return new Case(
                "no-hold.csv",
                drawn.trace,
                setup("Loader 7", "Tilt cylinder", "rod", 1),
                new HoldTestResult(
                        drawn.test,
                        Optional.empty(),
                        Optional.empty(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty(),
                        List.of(),
                        List.of(new HoldTestResult.Caution(
                                "no-hold", "Pressure was let off before anything could be seen.")),
                        Optional.empty()));
    }

    public static List<Case> all() {
        return List.of(wornPort(), tightCylinder(), bareTrace(), doubtful(), noHold());
    }

    private record Drawn(Trace trace, HoldTest test, double holdFromS, double holdToS) {}

    private static TestSetup setup(String machine, String component, String port, double limitCm3PerMin) {
        TestSetup none = TestSetup.unknown();
        return new TestSetup(
                Optional.of(machine),
                Optional.of(component),
                none.componentKind(),
                Optional.of(port),
                none.oilGrade(),
                none.oilTemperatureK(),
                none.bulkModulusPa(),
                none.airFraction(),
                none.trappedVolumeM3(),
                none.lineComplianceM3PerPa(),
                none.pumpStrokeM3(),
                none.bledVolumeM3(),
                none.transducerMinPa(),
                none.transducerMaxPa(),
                none.transducerAccuracy(),
                none.referencePressurePa(),
                none.reliefSettingPa(),
                Optional.of(Quantity.exactly(limitCm3PerMin * CM3_PER_MIN)));
    }

    private static HoldTestResult.Compliance compliance(double cm3PerBar, double lower, double upper) {
        return new HoldTestResult.Compliance(
                cm3PerBar * 1e-11, lower * 1e-11, upper * 1e-11, List.of("strokes", "volume and oil"));
    }

    private static HoldTestResult.Leak leak(
            double rate, double lower, double upper, double atBar, Law law, double weight, double resolvable) {
        Map<Law, Double> weights = new EnumMap<>(Law.class);
        for (Law other : Law.values()) {
            weights.put(other, other == law ? weight : (1 - weight) / 4);
        }
        return new HoldTestResult.Leak(
                rate * CM3_PER_MIN,
                lower * CM3_PER_MIN,
                upper * CM3_PER_MIN,
                atBar * BAR,
                law,
                weights,
                resolvable * CM3_PER_MIN);
    }

    private static HoldTestResult.RouteRate route(HoldTestResult.Route route, double rate, double lower, double upper) {
        return new HoldTestResult.RouteRate(route, rate * CM3_PER_MIN, lower * CM3_PER_MIN, upper * CM3_PER_MIN);
    }

    private static HoldTestResult.BudgetLine budget(String source, double rate) {
        return new HoldTestResult.BudgetLine(source, rate * CM3_PER_MIN);
    }

    /** Strokes of {@code strokeCm3} into {@code cm3PerBar} with a laminar leak of {@code leakPer20Bar} cm³/min. */
    private static Drawn draw(
            double rateHz,
            double restS,
            int strokes,
            double strokeEveryS,
            double cm3PerBar,
            double targetBar,
            double strokeCm3,
            double leakPer20Bar,
            double settlingS,
            double holdS,
            double bleedS) {
        Random random = new Random(7);
        double pumpS = strokes * strokeEveryS;
        double totalS = restS + pumpS + settlingS + holdS + bleedS;
        int n = (int) (totalS * rateHz);
        double[] t = new double[n];
        double[] p = new double[n];
        double bar = 0;
        double warm = 0;
        List<Stroke> found = new ArrayList<>();
        double stepS = 1 / rateHz;
        double plateauFromS = Double.NaN;
        for (int i = 0; i < n; i++) {
            t[i] = i * stepS;
            double intoPump = t[i] - restS;
            double leak = leakPer20Bar / 60 * bar / 20 / cm3PerBar * stepS;
            if (intoPump >= 0 && intoPump < pumpS) {
                double intoStroke = intoPump % strokeEveryS;
                if (intoStroke < 0.4 * strokeEveryS && bar < targetBar) {
                    double rise = strokeCm3 / cm3PerBar / 0.4 / strokeEveryS * stepS;
                    bar += rise;
                    warm += 0.06 * rise;
                }
                if ((int) (intoPump / strokeEveryS + 1e-9) == found.size()) {
                    found.add(new Stroke(t[i], t[i] + 0.4 * strokeEveryS));
                    if (found.size() == strokes / 2 && leakPer20Bar > 10) {
                        plateauFromS = t[i];
                    }
                }
            }
            double lost = warm * stepS / Math.max(2, settlingS / 2);
            warm -= lost;
            bar = Math.max(0, bar - leak - lost);
            if (t[i] > totalS - bleedS) {
                bar *= Math.exp(-stepS / 0.4);
            }
            double spike = i == n / 2 ? 3 : 0;
            p[i] = BAR * (0.3 + bar + 0.03 * random.nextGaussian() + spike);
        }
        List<PhaseSpan> phases = new ArrayList<>();
        phases.add(new PhaseSpan(Phase.REST, 0, restS));
        double pumpEndS = restS + pumpS;
        phases.add(new PhaseSpan(Phase.PUMP_UP, restS, pumpEndS));
        if (!Double.isNaN(plateauFromS)) {
            phases.add(new PhaseSpan(Phase.PLATEAU, plateauFromS, pumpEndS));
        }
        double holdFromS = pumpEndS + settlingS;
        phases.add(new PhaseSpan(Phase.SETTLING, pumpEndS, holdFromS));
        if (holdS > 0) {
            phases.add(new PhaseSpan(Phase.HOLD, holdFromS, holdFromS + holdS));
        }
        if (bleedS > 0) {
            phases.add(new PhaseSpan(Phase.BLEED_OFF, holdFromS + holdS, totalS));
        }
        HoldTest test = new HoldTest(
                1,
                phases,
                found,
                new HoldTest.RestLevel(0.3 * BAR, 0.03 * BAR, true),
                Double.isNaN(plateauFromS) ? OptionalDouble.empty() : OptionalDouble.of(19.8 * BAR));
        return new Drawn(Trace.of(t, p), test, pumpEndS, holdFromS + holdS);
    }

    private static HoldTestResult.FitPicture picture(Drawn drawn, double rate, double relativeHalf, double toBar) {
        List<HoldTestResult.FitPoint> fit = new ArrayList<>();
        Trace trace = drawn.trace;
        int from = trace.indexAt(drawn.holdFromS);
        int to = Math.min(trace.size(), trace.indexAt(drawn.holdToS));
        int block = Math.max(1, (to - from) / 300);
        double zero = drawn.test.rest().zeroPa();
        for (int i = from; i + block < to; i += block) {
            double sum = 0;
            double smooth = 0;
            for (int k = i; k < i + block; k++) {
                sum += trace.pressurePa(k) - zero;
            }
            int wide = Math.max(1, (to - from) / 20);
            int low = Math.max(from, i - wide);
            int high = Math.min(to, i + wide);
            for (int k = low; k < high; k++) {
                smooth += trace.pressurePa(k) - zero;
            }
            fit.add(new HoldTestResult.FitPoint(trace.timeS(i), sum / block, smooth / (high - low)));
        }
        List<HoldTestResult.CurvePoint> curve = new ArrayList<>();
        for (int i = 0; i <= 40; i++) {
            double share = i / 40.0;
            double q = rate * share * CM3_PER_MIN;
            double half = (relativeHalf < 0.03 ? 0.03 : relativeHalf * rate) * CM3_PER_MIN * (0.2 + 0.8 * share);
            curve.add(new HoldTestResult.CurvePoint(share * toBar * BAR, q, Math.max(0, q - half), q + half));
        }
        return new HoldTestResult.FitPicture(fit, curve);
    }
}
