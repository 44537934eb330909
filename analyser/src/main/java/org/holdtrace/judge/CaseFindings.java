package org.holdtrace.judge;

import java.util.List;
import java.util.Optional;

/**
 * Everything said about a case: what a report prints, a screen shows and a program reads. SI throughout; sentences are
 * ready for people.
 *
 * @param caseFile the case itself
 * @param standing whether it is decided
 * @param summary the outcome in a few sentences a customer understands
 * @param elements every element of the circuit, in its order
 * @param combinations the most probable sets of elements over their limits, most probable first
 * @param probabilityNoneOver probability that no element at all is over its limit
 * @param probabilityClearedOver the largest probability, with other priors too, that one of the elements tested and cleared
 *     is over its limit all the same; 0 where none is
 * @param tests every hold test with what it changed, in order
 * @param contradictions tests that cannot both be right
 * @param drift whether the leaks found explain the complaint; empty where no speed is complained of or nothing that
 *     bears the load is tested
 * @param next tests worth doing, best first; empty where there is nothing left to learn by testing
 * @param notTested elements no test and no look has reached
 * @param cautions what the reader must know
 */
public record CaseFindings(
        CaseFile caseFile,
        Standing standing,
        List<String> summary,
        List<ElementFinding> elements,
        List<Beliefs.Combination> combinations,
        double probabilityNoneOver,
        double probabilityClearedOver,
        List<TestFinding> tests,
        List<Contradiction> contradictions,
        Optional<DriftFinding> drift,
        List<PlannedTest> next,
        List<String> notTested,
        List<String> cautions) {
    public CaseFindings {
        summary = List.copyOf(summary);
        elements = List.copyOf(elements);
        combinations = List.copyOf(combinations);
        tests = List.copyOf(tests);
        contradictions = List.copyOf(contradictions);
        next = List.copyOf(next);
        notTested = List.copyOf(notTested);
        cautions = List.copyOf(cautions);
    }

    /** How far a case is. */
    public enum Standing {
        /** Every element is either over its limit or cleared. */
        DECIDED("decided"),
        /** Some element could still be over its limit. */
        OPEN("open"),
        /** The person stopped although some element could still be over its limit. */
        STOPPED("stopped");

        private final String label;

        Standing(String label) {
            this.label = label;
        }

        /** The word used in output. */
        public String label() {
            return label;
        }
    }

    /** What is said of one element. */
    public enum Status {
        /** At least 97.5 % probable to be over its limit. */
        OVER("over its limit"),
        /**
         * Tested or looked at, and at most 2.5 % probable to be over its limit, under other priors too, and so all tested
         * ones together.
         */
        CLEARED("cleared"),
        /** Tested, and neither. */
        UNDECIDED("undecided"),
        /** Neither tested nor looked at: not cleared, however improbable. */
        NOT_TESTED("not tested");

        private final String label;

        Status(String label) {
            this.label = label;
        }

        /** The words used in output. */
        public String label() {
            return label;
        }
    }

    /**
     * What is said of one element.
     *
     * @param element the element
     * @param limitM3PerS its limit carried to the pressure and temperature of the case, m³/s
     * @param before probability that it is over its limit before any test, complaint included
     * @param probability probability that it is over its limit now
     * @param lowest the smallest of that under other priors
     * @param highest the largest
     * @param status what follows
     * @param restsOnPriors whether other priors would lead to another status
     * @param onPath whether its leak could cause the complaint
     */
    public record ElementFinding(
            Element element,
            double limitM3PerS,
            double before,
            double probability,
            double lowest,
            double highest,
            Status status,
            boolean restsOnPriors,
            boolean onPath) {
        /** The same, not cleared. */
        ElementFinding undecided() {
            return new ElementFinding(
                    element,
                    limitM3PerS,
                    before,
                    probability,
                    lowest,
                    highest,
                    Status.UNDECIDED,
                    restsOnPriors,
                    onPath);
        }
    }

    /**
     * One hold test of the case.
     *
     * @param measured the test and its result
     * @param reach what it implicates
     * @param changes the elements whose probability it changed
     * @param said what it showed, in a sentence or two
     */
    public record TestFinding(MeasuredTest measured, Reach reach, List<Change> changes, List<String> said) {
        public TestFinding {
            changes = List.copyOf(changes);
            said = List.copyOf(said);
        }
    }

    /** Probability of one element to be over its limit before and after a test. */
    public record Change(String element, double before, double after) {}

    /** Two tests that cannot both be right, and by how many standard uncertainties they disagree. */
    public record Contradiction(String first, String second, double standardUncertainties, String said) {}
}
