package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Examples that textbooks work by hand, put in as if the events were worn parts. */
class BayesTextbookTest {
    /**
     * D. M. Eddy, Probabilistic reasoning in clinical medicine, in Judgment under Uncertainty (1982): 1 % are ill, 79.2 % of
     * these and 9.6 % of the others test positive; 7.7 % of those who test positive are ill. From memory.
     */
    @Test
    void aPositiveScreeningTestLeavesIllnessImprobable() {
        Element illness = suspect("illness", 0.01);
        Beliefs beliefs = Beliefs.of(
                List.of(new Component(List.of(illness), List.of(), new double[] {0.096, 0.792}, 1)),
                Map.of("illness", 0.01),
                Set.of());

        assertEquals(0.077, beliefs.probabilityOver("illness"), 0.0005);
        assertEquals(0.00792 / (0.00792 + 0.09504), beliefs.probabilityOver("illness"), 1e-12);
    }

    /**
     * J. Pearl's burglar alarm, with the numbers of Russell and Norvig, Artificial Intelligence: A Modern Approach, chapter
     * on Bayesian networks: P(burglary | both call) = 0.284, P(earthquake | both call) = 0.176. From memory; the digits
     * beyond that were worked by hand from the network's tables.
     */
    @Test
    void twoCallsMakeABurglaryAsProbableAsTheTextbookSays() {
        Element burglary = suspect("burglary", 0.001);
        Element earthquake = suspect("earthquake", 0.002);
        double[] alarm = {0.001, 0.94, 0.29, 0.95}; // neither, burglary, earthquake, both
        double[] calls = new double[4];
        for (int i = 0; i < calls.length; i++) {
            calls[i] = alarm[i] * 0.90 * 0.70 + (1 - alarm[i]) * 0.05 * 0.01;
        }
        Beliefs beliefs = Beliefs.of(
                List.of(new Component(List.of(burglary, earthquake), List.of(), calls, 1)),
                Map.of("burglary", 0.001, "earthquake", 0.002),
                Set.of());

        assertEquals(0.284171835, beliefs.probabilityOver("burglary"), 1e-9);
        assertEquals(0.176, beliefs.probabilityOver("earthquake"), 0.0005);
        // one cause explains the other away
        assertEquals(
                0.00326,
                beliefs.probability(Map.of("burglary", true, "earthquake", true))
                        / beliefs.probability(Map.of("earthquake", true)),
                0.00005);
    }

    /** By hand: odds of either suspect 1:19, complaint without cause a twentieth as frequent; one cleared leaves the other. */
    @Test
    void aComplaintMakesItsSuspectsProbableAndClearingOneLeavesTheOther() {
        Element first = suspect("first", 0.05);
        Element second = suspect("second", 0.05);
        Map<String, Double> priors = Map.of("first", 0.05, "second", 0.05);
        Set<String> path = Set.of("first", "second");
        Beliefs before = Beliefs.of(List.of(Component.untested(first), Component.untested(second)), priors, path);
        // P(neither) 0.9025 × 0.05 = 0.045125; P(one, not the other) 0.0475; P(both) 0.0025
        double evidence = 0.045125 + 2 * 0.0475 + 0.0025;
        assertEquals((0.0475 + 0.0025) / evidence, before.probabilityOver("first"), 1e-12);

        Component clear = new Component(List.of(first), List.of(), new double[] {1, 0}, 1);
        Beliefs after = Beliefs.of(List.of(clear, Component.untested(second)), priors, path);
        assertEquals(0, after.probabilityOver("first"), 0);
        assertEquals(0.0475 / (0.0475 + 0.045125), after.probabilityOver("second"), 1e-12);
    }

    private static Element suspect(String name, double prior) {
        return new Element(
                name,
                ElementKind.PISTON_SEAL,
                "a",
                Node.TANK,
                Limit.ofMaker(1e-9, OptionalDouble.empty(), OptionalDouble.empty()),
                prior,
                true,
                OptionalDouble.empty(),
                false,
                Optional.empty());
    }
}
