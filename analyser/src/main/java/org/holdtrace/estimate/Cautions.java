package org.holdtrace.estimate;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.BudgetLine;
import org.holdtrace.estimate.HoldTestResult.Caution;
import org.holdtrace.estimate.HoldTestResult.Verdict;
import org.holdtrace.leak.Law;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;

/** What the reader must know before leaning on a figure. Codes are stable; sentences may be reworded. */
final class Cautions {
    /** Missing the pressures of the hold by more than this part of what was lost is named. */
    private static final double MISSED = 0.04;

    /** A source that owns this share of the variance is named. */
    private static final double LARGE_SHARE = 0.25;

    /** A gap is worth a caution from this many sample intervals. */
    private static final double GAP_INTERVALS = 8;

    /** Over its setting a relief may creep up by this factor. */
    private static final double ABOVE_RELIEF = 1.2;

    private static final String END_OF_RANGE = "end-of-range";
    private static final String INPUTS_CONTRADICT = "inputs-contradict";
    private static final String FALLS_FASTER = "falls-faster";

    private final List<Caution> found = new ArrayList<>();

    List<Caution> list() {
        return found;
    }

    void add(String code, String text) {
        found.add(new Caution(code, text));
    }

    /** Inputs that contradict one another come before everything else. */
    void ofContradiction(String text) {
        found.add(0, new Caution(INPUTS_CONTRADICT, text));
    }

    /** Why nothing can rest on a rate with these cautions, as part of a sentence; empty where something can. */
    static Optional<String> nothingRests(List<Caution> cautions) {
        for (Caution caution : cautions) {
            if (caution.code().equals(END_OF_RANGE)) {
                return Optional.of("the transducer was at its end, so what the pressure did is not known");
            }
            if (caution.code().equals(INPUTS_CONTRADICT)) {
                return Optional.of("the stated inputs contradict one another");
            }
            if (caution.code().equals(FALLS_FASTER)) {
                return Optional.of("pressure fell faster as it got lower, which none of the leak laws does");
            }
        }
        return Optional.empty();
    }

    /** The verdict, withheld where a caution leaves it nothing to rest on. */
    Optional<Verdict> permitted(Optional<Verdict> verdict) {
        if (verdict.isEmpty()) {
            return verdict;
        }
        Optional<String> why = nothingRests(found);
        if (why.isPresent()) {
            return Optional.of(verdict.get().withheld(why.get()));
        }
        return verdict;
    }

    /** What is missing from the setup and what it costs. */
    void ofSetup(TestSetup setup, HoldTest test) {
        boolean strokes = setup.pumpStrokeM3().isPresent() && test.strokes().size() >= Conclusion.FEWEST_STROKES;
        boolean volume = setup.trappedVolumeM3().isPresent();
        boolean bled = setup.bledVolumeM3().isPresent();
        if (!strokes && !volume && !bled) {
            add(
                    "no-calibration",
                    "Neither stroke volume nor trapped volume nor bled volume is known: how fast pressure falls is "
                            + "measured, how much oil that is rests on what is usual, hence the very wide interval.");
        } else if (!strokes && setup.pumpStrokeM3().isPresent()) {
            add(
                    "few-strokes",
                    "Fewer than " + Conclusion.FEWEST_STROKES
                            + " strokes were seen: their volume is known, but tells no rate from "
                            + "stroke tails or plateau flow.");
        } else if (!strokes) {
            add(
                    "missing-pump-stroke",
                    "The volume of a pump stroke is not known: no rate from stroke tails or plateau flow.");
        } else if (!volume && !bled) {
            add("missing-trapped-volume", "The trapped volume is not known: no rate from decay with volume and oil.");
        }
        if (volume && setup.lineComplianceM3PerPa().isEmpty() && !strokes) {
            add(
                    "missing-line-compliance",
                    "What hose and gauge swell by is not known and was taken from a wide range: the interval is wider.");
        }
        if (volume && setup.bulkModulusPa().isEmpty() && setup.oilGrade().isEmpty()) {
            add("missing-oil", "Neither modulus nor grade of the oil is known: a middling mineral oil was taken.");
        }
        if (setup.transducerAccuracy().isEmpty()) {
            add("missing-transducer", "The transducer's accuracy is not known: 0.5 % of its span was taken.");
        }
    }

    /** What the samples themselves give reason for. */
    void ofTrace(Trace trace, HoldTest test, EndOfRange.Stand end) {
        if (!test.rest().fromRest()) {
            add("no-rest", "The trace has no rest before pumping: the transducer's zero could not be learned.");
        }
        double leftBar = TestPressures.leftBar(trace, test);
        if (leftBar > 0) {
            add(
                    "pressure-left",
                    "The line still held " + fixed(leftBar, 2)
                            + " bar before pumping, or the transducer's zero has moved: "
                            + "pressure is counted from what was read once it had been let off.");
        }
        ofEndOfRange(end);
        Optional<PhaseSpan> hold = test.phase(Phase.HOLD);
        double from =
                test.phases().isEmpty() ? trace.timeS(0) : test.phases().get(0).fromS();
        double to = trace.timeS(trace.size() - 1);
        if (hold.isPresent()) {
            to = hold.get().toS();
        } else if (!test.phases().isEmpty()) {
            to = test.phases().get(test.phases().size() - 1).toS();
        }
        int a = trace.indexAt(from);
        int b = Math.min(trace.size(), trace.indexAt(to));
        double usual = b - a > 1 ? (trace.timeS(b - 1) - trace.timeS(a)) / (b - a - 1) : 0;
        int gaps = 0;
        double longest = 0;
        int repeated = 0;
        for (int i = a + 1; i < b; i++) {
            double dt = trace.timeS(i) - trace.timeS(i - 1);
            if (dt > GAP_INTERVALS * usual) {
                gaps++;
                longest = Math.max(longest, dt);
            }
            repeated += dt <= 0 ? 1 : 0;
        }
        if (gaps > 0) {
            add(
                    "gap",
                    "Samples are missing in " + gaps + (gaps == 1 ? " place, " : " places, ") + fixed(longest, 2)
                            + " s at the longest.");
        }
        if (repeated > 0) {
            add(
                    "repeated-time",
                    repeated + (repeated == 1 ? " sample bears" : " samples bear") + " the time of the one before.");
        }
    }

    /** A transducer or converter at its end. */
    void ofEndOfRange(EndOfRange.Stand stand) {
        if (stand.standsS() > 0) {
            add(
                    END_OF_RANGE,
                    "The highest reading stood still for " + fixed(stand.standsS(), 1)
                            + " s, without any noise: the transducer or its "
                            + "converter was at its end. What the pressure did above that is lost"
                            + (stand.spoilsTest() ? ", and the hold with it" : ", and this rate may be far off")
                            + "; pump less high or use a larger range.");
        }
    }

    /** Where the pressures and what is stated of them cannot both be right. */
    void ofPressures(TestSetup setup, double peakBar) {
        double rangeBar = setup.transducerMaxPa().orElse(Double.POSITIVE_INFINITY) / WorkingUnits.PA_PER_BAR;
        if (peakBar > 1.01 * rangeBar) {
            add(
                    "beyond-range",
                    "The pressure went up to " + fixed(peakBar, 0)
                            + " bar, but the transducer's range is stated to end at " + fixed(rangeBar, 0)
                            + " bar: how good its readings are above that is not known.");
        }
        double reliefBar = WorkingUnits.in(WorkingUnits.PA_PER_BAR, setup.reliefSettingPa(), Double.POSITIVE_INFINITY);
        if (peakBar > ABOVE_RELIEF * reliefBar) {
            add(
                    "relief-doubtful",
                    "The pressure went up to " + fixed(peakBar, 0) + " bar, but the relief is stated to open at "
                            + fixed(reliefBar, 0) + " bar; strokes above that were not counted. Is the setting right?");
        }
    }

    /** Whether the line check can be one of this line. */
    void ofLineCheck(HoldTestResult line, Joint joint, Conclusion conclusion) {
        double own = 0;
        if (line.leak().isPresent() && line.leak().get().law() != Law.NONE) {
            own = conclusion.lineLeak(line);
        }
        double whole = joint.best().leak(joint.best().x, joint.leakBar());
        boolean softer = line.compliance().isPresent()
                && line.compliance().get().lower95()
                        > conclusion.compliance(Optional.empty(), 0).upper95();
        if (own > 0.5 * whole || softer) {
            add(
                    "line-check-doubtful",
                    own > 0.5 * whole
                            ? "The line check leaks more than half of what this test shows. Was it of this line, and was the "
                                    + "adapter blanked off?"
                            : "The line check is softer than line and component together. Was it of this line?");
        }
    }

    /** What the fit itself gives reason for. */
    void ofFit(Joint joint, RouteFits routes, Conclusion conclusion, List<BudgetLine> budget, HoldTest test) {
        Reduction data = joint.data();
        double low = Double.POSITIVE_INFINITY;
        double high = 0;
        for (int row : joint.rows()) {
            if (data.kind[row] != Reduction.Kind.END) {
                low = Math.min(low, data.pressureBar[row]);
                high = Math.max(high, data.pressureBar[row]);
            }
        }
        double at = joint.leakBar();
        if (at < 0.97 * low || at > 1.03 * high) {
            add(
                    "outside-pressures",
                    "The rate is stated for " + fixed(at, 0) + " bar, but the test saw " + fixed(low, 0) + " to "
                            + fixed(high, 0) + " bar: it was carried there by law.");
        }
        if (routes.agreement().isPresent() && !routes.agreement().get().agree()) {
            add(
                    "routes-disagree",
                    "The routes to the rate disagree by more than their uncertainties allow: a stated input or a "
                            + "stroke count may be wrong. The interval was widened.");
        }
        if (joint.tension() > 1) {
            add(
                    "input-doubtful",
                    "A stated input does not fit the pressures: " + tense(joint) + ". The interval was widened.");
        }
        double missed = conclusion.missedShare();
        if (conclusion.told() && missed > MISSED) {
            add(
                    "fit-misses",
                    "The fit misses the pressures of the hold by " + fixed(100 * missed, 0)
                            + " % of what was lost: something happened that the model does not know. The interval was "
                            + "widened.");
        }
        if (FallCourse.steepens(joint.data(), joint.errors())) {
            add(
                    FALLS_FASTER,
                    "Pressure fell faster as it got lower, which none of the leak laws does: a seat that pressure presses "
                            + "shut, or a valve that was opened. The rate may be far too high.");
        }
        if (conclusion.lostBeforeShut()) {
            add(
                    "lost-before-shut",
                    "Pressure was lost in the first seconds after the last push only, while the shut-off valve may have "
                            + "been open, and held from then on. Shut it at once and test again to tell.");
        }
        int left = leftOut(joint.unknownStrokes());
        if (left > 0 && joint.knowledge().strokeStated) {
            add(
                    "strokes-left-out",
                    left + " of " + joint.unknownStrokes().length
                            + " strokes did not deliver a full stroke into the line and "
                            + (left == 1 ? "was" : "were") + " not counted.");
        }
        Map<Law, Double> weights = joint.posterior().lawWeight;
        double best = weights.isEmpty() ? 1 : 0;
        for (double weight : weights.values()) {
            best = Math.max(best, weight);
        }
        if (conclusion.told() && best < 0.6) {
            add("law-open", "The leak law cannot be told from this test; the interval allows for all that fit.");
        }
        double total = 0;
        for (BudgetLine line : budget) {
            total += line.standardUncertaintyM3PerS() * line.standardUncertaintyM3PerS();
        }
        for (BudgetLine line : budget) {
            double share = line.standardUncertaintyM3PerS() * line.standardUncertaintyM3PerS() / total;
            if (share > LARGE_SHARE) {
                large(line.source());
            }
        }
        Optional<PhaseSpan> hold = test.phase(Phase.HOLD);
        if (hold.isPresent() && hold.get().durationS() < 10) {
            add("short-hold", "The hold lasted only " + fixed(hold.get().durationS(), 1) + " s.");
        }
    }

    /** Strokes between full ones that were no full ones: those that fill the line, and the last, are no surprise. */
    private static int leftOut(boolean[] unknown) {
        int first = 0;
        while (first < unknown.length && unknown[first]) {
            first++;
        }
        int left = 0;
        for (int k = first; k + 1 < unknown.length; k++) {
            left += unknown[k] ? 1 : 0;
        }
        return left;
    }

    /** Not by String.format, which costs a short run a tenth of its time. */
    private static String fixed(double value, int decimals) {
        return BigDecimal.valueOf(value)
                .setScale(decimals, RoundingMode.HALF_UP)
                .toPlainString();
    }

    /** The stated input that had to give way most. */
    static String tense(Joint joint) {
        int worst = joint.knowledge().stated()[0];
        for (int v : joint.knowledge().stated()) {
            worst = Math.abs(joint.best().x[v]) > Math.abs(joint.best().x[worst]) ? v : worst;
        }
        return Knowledge.NAME[worst];
    }

    private void large(String source) {
        switch (source) {
            case "dissolving air" ->
                add(
                        "air-dissolving",
                        "Air going into solution also lowers pressure and cannot be told from a small leak here.");
            case "temperature drift" ->
                add(
                        "temperature-drift",
                        "A slow drift of temperature also moves pressure and cannot be told from a small leak here; recording "
                                + "the oil temperature would help.");
            case "heat of compression" ->
                add(
                        "settling",
                        "Heat of compression is still leaving the oil during the hold; a longer hold would help.");
            case "hose creep" ->
                add("hose-creep", "The hose is still creeping during the hold; a longer hold would help.");
            default -> {
                // The other sources are in the budget; none of them can pass for a leak.
            }
        }
    }
}
