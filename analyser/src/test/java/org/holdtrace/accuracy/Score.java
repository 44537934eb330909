package org.holdtrace.accuracy;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdtrace.estimate.HoldTestResult.BudgetLine;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.holdtrace.leak.Law;

/**
 * What the analyser said of one simulated test beside what was true. Flows in m³/s at the pressure the analyser named.
 *
 * @param test the test
 * @param answer what was said; empty where there was no answer at all
 * @param naive what one exponential says; empty without a stated volume
 * @param failure what went wrong, empty where nothing did
 * @param simulateS time to simulate, s
 * @param analyseS time to find phases and estimate, s
 */
record Score(
        SimulatedCase test,
        Optional<Answer> answer,
        Optional<SingleExponential.Answer> naive,
        String failure,
        double simulateS,
        double analyseS) {
    /**
     * @param truth true leak at {@code atPa}
     * @param atPa pressure the analyser named
     * @param unavoidableRelative see {@link Unavoidable}
     * @param verdict what it said of the limit
     * @param wrong whether that was decided and wrong
     * @param fewestStrokes strokes nobody could miss
     * @param mostStrokes strokes that raised pressure at all
     */
    record Answer(
            double truth,
            double estimate,
            double lower,
            double upper,
            double atPa,
            Law law,
            Map<Law, Double> weights,
            double unavoidableRelative,
            Optional<Outcome> verdict,
            boolean wrong,
            int strokes,
            int fewestStrokes,
            int mostStrokes,
            boolean complianceCovered,
            double complianceError,
            List<BudgetLine> budget) {
        Answer {
            weights = Map.copyOf(weights);
            budget = List.copyOf(budget);
        }

        boolean covered() {
            return lower <= truth && truth <= upper;
        }

        double halfWidth() {
            return 0.5 * (upper - lower);
        }

        double relativeError() {
            return (estimate - truth) / truth;
        }

        boolean strokesRight() {
            return strokes >= fewestStrokes && strokes <= mostStrokes;
        }

        Law heaviest() {
            return weights.entrySet().stream()
                    .max(Map.Entry.comparingByValue())
                    .map(Map.Entry::getKey)
                    .orElse(law);
        }

        double heaviestWeight() {
            return weights.getOrDefault(heaviest(), 0.0);
        }
    }

    Law trueLaw() {
        return test.truth().law();
    }

    boolean isTight() {
        return trueLaw() == Law.NONE;
    }
}
