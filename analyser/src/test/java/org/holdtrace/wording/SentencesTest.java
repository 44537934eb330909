package org.holdtrace.wording;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.leak.Law;
import org.junit.jupiter.api.Test;

class SentencesTest {
    private static final double CM3_PER_MIN = 1e-6 / 60;

    private static HoldTestResult.Leak leak(Law law, Map<Law, Double> weights) {
        return new HoldTestResult.Leak(1e-8, 0, 1e-7, 120e5, law, weights, 1e-9);
    }

    @Test
    void whereNoLeakCanBeToldNoLawIsNamedAndNoWeightGiven() {
        assertEquals(
                "none can be named, since no leak can be told from zero",
                Sentences.law(leak(Law.NONE, Map.of(Law.NONE, 0.08, Law.LAMINAR, 0.92))));
        assertEquals(
                "laminar, as through a clearance, weight 0.80 (also possible: orifice 0.15)",
                Sentences.law(leak(Law.LAMINAR, Map.of(Law.LAMINAR, 0.8, Law.ORIFICE, 0.15, Law.MIXED, 0.05 - 1e-9))));
    }

    @Test
    void aVerdictSaysWhatItRestsOnAndAWithheldOneWhy() {
        assertEquals(
                "OVER the limit of 5 cm³/min; probability of being over it above 99.9 %",
                Sentences.verdict(
                        new HoldTestResult.Verdict(Outcome.OVER_LIMIT, 5 * CM3_PER_MIN, 1), ShownUnits.METRIC));
        assertEquals(
                "UNDECIDED against the limit of 5 cm³/min; probability of being over it 61 %; a longer hold or better known"
                        + " inputs may decide",
                Sentences.verdict(
                        new HoldTestResult.Verdict(Outcome.UNDECIDED, 5 * CM3_PER_MIN, 0.61), ShownUnits.METRIC));
        assertEquals(
                "UNDECIDED against the limit of 5 cm³/min; the stated inputs contradict one another",
                Sentences.verdict(
                        new HoldTestResult.Verdict(
                                Outcome.UNDECIDED,
                                5 * CM3_PER_MIN,
                                Double.NaN,
                                Optional.of("the stated inputs contradict one another")),
                        ShownUnits.METRIC));
    }
}
