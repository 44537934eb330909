package org.holdtrace.estimate;

import static org.holdtrace.estimate.WorkingUnits.M3_PER_CM3;
import static org.holdtrace.estimate.WorkingUnits.PA_PER_BAR;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.holdtrace.estimate.HoldTestResult.Compliance;
import org.holdtrace.estimate.HoldTestResult.Leak;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.estimate.HoldTestResult.Verdict;
import org.holdtrace.fit.Normal;
import org.holdtrace.fit.Sample;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;

/** From the joint fit to what is said: the rate with its interval, the law, the verdict. Working units until the end. */
final class Conclusion {
    /** A leak is told from zero when it improves the fit by what this many standard uncertainties would. */
    private static final double TOLD = 3;

    /** Fewer strokes than this make no route, however well their volume is known. */
    static final int FEWEST_STROKES = 4;

    private final Joint joint;
    private final TestSetup setup;
    private final double[] sortedLeak;
    /** What {@link Sample#summary} tells of the compliance, cm³/bar. */
    private final double[] compliance;

    private final boolean told;
    private final boolean lostBeforeShut;
    /** By how much the noise and what is judged of it are to be believed less. */
    private final double doubt;

    private final double widening;
    private final double missedShare;
    private final Spread spread;

    /**
     * Standard deviations of the leak at the stages it is drawn in, cm³/s.
     *
     * @param mixture over laws, settling and all that is known
     * @param widened for misfit, tension, disagreement and uncertainties that are themselves uncertain
     * @param whole with the line check taken off
     */
    record Spread(double mixture, double widened, double whole) {}

    /**
     * @param joint the fit
     * @param setup what was stated
     * @param carry to another temperature
     * @param lineCheck the line's own result, whose leak and compliance are taken off
     * @param routes the separate routes, whose disagreement widens the interval
     */
    Conclusion(Joint joint, TestSetup setup, Carry carry, Optional<HoldTestResult> lineCheck, RouteFits routes) {
        this.joint = joint;
        this.setup = setup;
        double[][] draws = joint.posterior().draw(Posterior.tempered(joint.leakingWeights()), joint.leakBar(), carry);
        this.doubt = joint.misfit() * joint.coverage();
        this.widening = doubt * joint.tension() * routes.disagreement();
        // At a plateau too: a hold that the law found there does not describe says that the leak is not as it was.
        this.missedShare = joint.missedShare();
        double[] drawn = sorted(draws[0]);
        double missed = missedShare * Math.abs(Sample.quantile(drawn, 0.5));
        double deviation = Sample.deviation(draws[0]);
        double[] leak = widen(drawn, deviation > 0 ? Math.hypot(widening, missed / deviation) : widening);
        double widened = Sample.deviation(leak);
        this.compliance = Sample.summary(widen(sorted(draws[1]), widening));
        if (lineCheck.isPresent()) {
            takeOff(leak, lineCheck.get());
        }
        this.spread = new Spread(Sample.deviation(draws[0]), widened, Sample.deviation(leak));
        Arrays.sort(leak);
        boolean leaks = fitsBetterThanNone(leak);
        this.lostBeforeShut = leaks && joint.seenOnlyUntilShut();
        this.told = leaks && !lostBeforeShut;
        if (!told) {
            for (int i = 0; i < leak.length; i++) {
                leak[i] = Math.abs(leak[i]);
            }
            Arrays.sort(leak);
            notBelowNoise(leak, joint.smallestResolvable() * widening);
        }
        this.sortedLeak = leak;
    }

    /**
     * A test excludes no leak that its own noise hides, however well a law fits that leaks nothing at this pressure, or
     * less than nothing: raises draws, in order of size, to those of a leak of 0 with that noise (a limit constrained by
     * the test's power; the idea from memory).
     */
    static void notBelowNoise(double[] sorted, double resolvable) {
        double deviation = resolvable / Joint.RESOLVED_DEVIATIONS;
        for (int i = 0; i < sorted.length; i++) {
            sorted[i] = Math.max(sorted[i], deviation * Normal.quantile(0.5 + 0.5 * (i + 0.5) / sorted.length));
        }
    }

    boolean told() {
        return told;
    }

    /** Whether a leak was seen only until the shut-off valve was shut, and so may have been that. */
    boolean lostBeforeShut() {
        return lostBeforeShut;
    }

    /** What the interval was widened by for a fit that misses the hold, as a part of the leak. */
    double missedShare() {
        return missedShare;
    }

    Spread spread() {
        return spread;
    }

    Leak leak() {
        Map<Law, Double> weights = new EnumMap<>(Law.class);
        for (Law law : Law.values()) {
            weights.put(law, joint.posterior().lawWeight.getOrDefault(law, 0.0));
        }
        double middle = Math.max(0, Sample.quantile(sortedLeak, 0.5));
        return new Leak(
                (told ? middle : Math.max(0, middleOfAll())) * M3_PER_CM3,
                told ? Math.max(0, Sample.quantile(sortedLeak, 0.025)) * M3_PER_CM3 : 0,
                Math.max(0, Sample.quantile(sortedLeak, 0.975)) * M3_PER_CM3,
                joint.leakBar() * PA_PER_BAR,
                told ? joint.likelyLaw() : Law.NONE,
                weights,
                joint.smallestResolvable() * widening * M3_PER_CM3);
    }

    /** Where no leak is told from zero, the best single number is the middle of what is left. */
    private double middleOfAll() {
        return Math.min(Sample.quantile(sortedLeak, 0.5), joint.best().leak(joint.best().x, joint.leakBar()));
    }

    Compliance compliance(Optional<HoldTestResult> lineCheck, int strokes) {
        double[] s = compliance;
        double unit = M3_PER_CM3 / PA_PER_BAR;
        if (lineCheck.isPresent() && lineCheck.get().compliance().isPresent()) {
            Compliance line = lineCheck.get().compliance().get();
            double middle = s[2] - line.m3PerPa() / unit;
            // Independent of one another: the half-widths add up by their squares.
            double below = Math.hypot(s[2] - s[1], (line.upper95() - line.m3PerPa()) / unit);
            double above = Math.hypot(s[3] - s[2], (line.m3PerPa() - line.lower95()) / unit);
            s = new double[] {s[0], middle - below, middle, middle + above};
        }
        List<String> from = new ArrayList<>();
        Knowledge knowledge = joint.knowledge();
        if (knowledge.strokeStated && strokes >= FEWEST_STROKES) {
            from.add("strokes");
        }
        if (knowledge.volumeStated) {
            from.add("volume and oil");
        }
        if (knowledge.bledStated) {
            from.add("bled volume");
        }
        return new Compliance(Math.max(0, s[2]) * unit, Math.max(0, s[1]) * unit, Math.max(0, s[3]) * unit, from);
    }

    /**
     * Probability that the leak is over the limit, from the draws, which all leak. Where no leak is told from zero there
     * may be none at all, as probable as that fits, or as likely as not where all of it was lost before the valve was
     * shut; it is then over no limit, however small.
     */
    Optional<Verdict> verdict() {
        if (setup.limitM3PerS().isEmpty()) {
            return Optional.empty();
        }
        double limit = setup.limitM3PerS().get().value();
        double over = Sample.probabilityOver(sortedLeak, limit / M3_PER_CM3);
        if (!told) {
            double none = joint.posterior().lawWeight.getOrDefault(Law.NONE, 0.0);
            over *= 1 - (lostBeforeShut ? Math.max(0.5, none) : none);
        }
        Outcome outcome =
                told && over >= 0.975 ? Outcome.OVER_LIMIT : over <= 0.025 ? Outcome.WITHIN_LIMIT : Outcome.UNDECIDED;
        return Optional.of(new Verdict(outcome, limit, over));
    }

    /**
     * Widens draws in order of size about their middle. Where none of them comes near zero they are widened in
     * proportion: not knowing how much oil a bar is worth can never turn a leak into none.
     */
    private static double[] widen(double[] sorted, double factor) {
        double[] out = sorted.clone();
        double middle = Sample.quantile(out, 0.5);
        boolean inProportion = Sample.quantile(out, 0.002) > 0;
        double least = Math.max(out[0], 1e-6 * middle);
        for (int i = 0; i < out.length; i++) {
            out[i] = inProportion
                    ? middle * Math.pow(Math.max(out[i], least) / middle, factor)
                    : middle + factor * (out[i] - middle);
        }
        return out;
    }

    private static double[] sorted(double[] values) {
        double[] out = values.clone();
        Arrays.sort(out);
        return out;
    }

    /**
     * The line's own leak by one of the laws that fit the line check.
     *
     * @param weight how well the law fits, 1 for all together
     * @param scale the leak here over the one that is stated there, in cm³/s a m³/s
     */
    private record LineLaw(double weight, double scale) {}

    /** Takes off the line's own leak at the pressure; each draw by one of the laws that fit the line check. */
    private void takeOff(double[] leak, HoldTestResult line) {
        if (line.leak().isEmpty()) {
            return;
        }
        Leak own = line.leak().get();
        double deviation = (own.upper95() - own.lower95()) / 3.92;
        List<LineLaw> laws = lineLaws(line);
        SplittableRandom random = new SplittableRandom(8);
        for (int i = 0; i < leak.length; i++) {
            double rest = random.nextDouble();
            int law = 0;
            while (law < laws.size() - 1 && rest >= laws.get(law).weight()) {
                rest -= laws.get(law++).weight();
            }
            leak[i] -= laws.get(law).scale() * (own.m3PerS() + deviation * random.nextGaussian());
        }
    }

    /** The line's own leak at this test's pressure, cm³/s. */
    double lineLeak(HoldTestResult line) {
        double scale = 0;
        for (LineLaw law : lineLaws(line)) {
            scale += law.weight() * law.scale();
        }
        return scale * line.leak().orElseThrow().m3PerS();
    }

    /** The laws by which the line check may leak; in proportion to pressure where none has any weight. */
    private List<LineLaw> lineLaws(HoldTestResult line) {
        Leak own = line.leak().orElseThrow();
        double ratio = joint.leakBar() * PA_PER_BAR / own.atPa();
        double sum = 0;
        for (Law law : Law.values()) {
            sum += law == Law.NONE ? 0 : own.weights().getOrDefault(law, 0.0);
        }
        List<LineLaw> laws = new ArrayList<>();
        for (Law law : Law.values()) {
            double weight = law == Law.NONE ? 0 : own.weights().getOrDefault(law, 0.0);
            if (weight > 0) {
                laws.add(new LineLaw(weight / sum, lineScale(line, law, ratio) / M3_PER_CM3));
            }
        }
        if (laws.isEmpty()) {
            laws.add(new LineLaw(1, ratio / M3_PER_CM3));
        }
        return laws;
    }

    /** By one law the line's leak here over its leak there, where the pressures are in {@code ratio}. */
    private double lineScale(HoldTestResult line, Law law, double ratio) {
        if (law == Law.LAMINAR) {
            return ratio;
        }
        if (law == Law.ORIFICE) {
            return Math.sqrt(ratio);
        }
        // What the fit of the line check says as it stands, where this is its law.
        Leak own = line.leak().orElseThrow();
        double curve = law == own.law() ? curveRatio(line, joint.leakBar() * PA_PER_BAR, own.atPa()) : Double.NaN;
        return Double.isNaN(curve) ? 0.5 * (ratio + Math.sqrt(ratio)) : curve;
    }

    /** The line check's leak curve at one pressure over that at another; NaN where it has none, or none at the other. */
    private static double curveRatio(HoldTestResult line, double herePa, double therePa) {
        if (line.picture().isEmpty()) {
            return Double.NaN;
        }
        List<HoldTestResult.CurvePoint> curve = line.picture().get().leakCurve();
        double there = onCurve(curve, therePa);
        return there > 0 ? onCurve(curve, herePa) / there : Double.NaN;
    }

    private static double onCurve(List<HoldTestResult.CurvePoint> curve, double pa) {
        for (int i = 1; i < curve.size(); i++) {
            HoldTestResult.CurvePoint before = curve.get(i - 1);
            HoldTestResult.CurvePoint after = curve.get(i);
            if (pa <= after.pressurePa()) {
                double part = (pa - before.pressurePa()) / (after.pressurePa() - before.pressurePa());
                return before.m3PerS() + part * (after.m3PerS() - before.m3PerS());
            }
        }
        return Double.NaN; // beyond what the line check was drawn to
    }

    /** Whether a leak fits the pressures so much better than none, and its interval stays clear of zero. */
    private boolean fitsBetterThanNone(double[] sorted) {
        double needed = TOLD * doubt;
        return Sample.quantile(sorted, 0.025) > 0 && joint.evidenceOfLeak() > needed * needed;
    }
}
