package org.holdtrace.judge;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.holdtrace.judge.CaseFindings.Contradiction;
import org.holdtrace.wording.Phrases;
import org.holdtrace.wording.ShownUnits;

/**
 * Finds tests that cannot both be right: one that pressed all another did, and perhaps more, and yet lost clearly less.
 * Their intervals are widened until they agree, by the ratio R. T. Birge used for measurements that disagree (Phys. Rev.
 * 40, 1932, from memory).
 */
final class Contradictions {
    /** Standard uncertainties from which on two results are said to contradict one another. */
    private static final double TOO_FAR = 3;

    /** What is left of their distance after widening, in standard uncertainties. */
    private static final double LEFT = 1.5;

    private final List<Contradiction> found = new ArrayList<>();
    private final List<Observation> observations = new ArrayList<>();

    private Contradictions() {}

    /** Looks at each pair. The tests and what they observed are in the same order. */
    static Contradictions among(List<MeasuredTest> tests, List<Observation> observations, ShownUnits units) {
        Contradictions all = new Contradictions();
        double[] factor = new double[tests.size()];
        Arrays.fill(factor, 1);
        for (int i = 0; i < tests.size(); i++) {
            for (int j = 0; j < tests.size(); j++) {
                Observation less = observations.get(i);
                Observation more = observations.get(j);
                boolean same = more.elements().size() == less.elements().size();
                if (i == j
                        || less.elements().isEmpty()
                        || !more.elements().containsAll(less.elements())
                        || (same && i > j && less.m3PerS() == more.m3PerS())) {
                    continue;
                }
                double apart = less.m3PerS() - more.m3PerS();
                double z = apart / Math.hypot(less.belowM3PerS(), more.aboveM3PerS());
                if (z > TOO_FAR) {
                    factor[i] = Math.max(factor[i], z / LEFT);
                    factor[j] = Math.max(factor[j], z / LEFT);
                    all.found.add(contradiction(tests.get(i), tests.get(j), z, same, units));
                }
            }
        }
        for (int i = 0; i < tests.size(); i++) {
            all.observations.add(observations.get(i).widened(factor[i]));
        }
        return all;
    }

    private static Contradiction contradiction(
            MeasuredTest leaky, MeasuredTest tighter, double z, boolean same, ShownUnits units) {
        String rates = Phrases.rate(leaky.leak().orElseThrow(), units) + " against "
                + Phrases.rate(tighter.leak().orElseThrow(), units);
        String how = same
                ? "pressed the same parts and yet disagree (" + rates + ")"
                : "contradict one another: the second pressed all the first did and more, and yet lost less (" + rates
                        + ")";
        return new Contradiction(
                leaky.test().name(),
                tighter.test().name(),
                z,
                "\"" + leaky.test().name() + "\" and \"" + tighter.test().name() + "\" " + how
                        + ". Something differed that the case does not say: a fitting that wept, air, a part that sticks."
                        + " Repeat both; until then their intervals are widened.");
    }

    List<Contradiction> found() {
        return List.copyOf(found);
    }

    /** The observations, those that contradict one another widened. */
    List<Observation> observations() {
        return List.copyOf(observations);
    }
}
