package org.holdtrace.desk;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.estimate.HoldTestResult;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.wording.Figures;

/** Where each figure comes from: which samples, which inputs, which method. */
final class Origins {
    static final String VERDICT = "Share of the leak's distribution above the limit in the setup."
            + " Within or over needs 97.5 %; anything less is undecided.";
    static final String AGREEMENT = "Chi-square of the routes about their weighted mean, with what they share (the same"
            + " compliance, the same transducer) not counted twice.";
    static final String BUDGET =
            "Standard uncertainty of the leak rate that this source alone would cause. The bars add"
                    + " up by their squares.";
    static final String WEIGHT =
            "AICc weight: how well the law explains the pressure, more parameters counted against it."
                    + " All five add up to 1.";
    static final String CURVE = "Leak by the laws that fit, each with its weight; the band holds 95 % of the draws."
            + " Beyond the pressures of the test it is the law that speaks, not the samples.";
    static final String RESOLVABLE =
            "From the noise of the pressure, the length of the hold and the doubt of the inputs"
                    + " together: a leak below it would have looked like none.";

    private Origins() {}

    static String leak(HoldTestResult result) {
        return "One fit of the pressure itself over " + samples(result.holdTest())
                + ", all laws by their weights; the interval from 4000 draws of everything in doubt (GUM Supplement 1)."
                + " It is the volume of oil at line pressure.";
    }

    static String law(HoldTestResult result) {
        return "The law with the highest AICc weight among none, laminar, orifice, mixed and threshold, fitted over "
                + samples(result.holdTest()) + ".";
    }

    static String compliance(HoldTestResult result) {
        return "What one unit of pressure takes of oil, isothermal, with everything under pressure: oil, the air in it,"
                + " hose and walls. Fitted together with the leak over " + samples(result.holdTest()) + ".";
    }

    static String route(Route route, HoldTest test) {
        return switch (route) {
            case DECAY ->
                "Compliance from trapped volume and oil, or from the bled volume, times the fall of pressure over the "
                        + span(test, Phase.HOLD) + ". No stroke is counted.";
            case STROKE_TAILS ->
                "The strokes' known volume calibrates the line over the " + span(test, Phase.PUMP_UP)
                        + "; what is lost between strokes and over the " + span(test, Phase.HOLD)
                        + " is the leak. No trapped volume is needed.";
            case PLATEAU_FLOW ->
                "Oil pumped over the " + span(test, Phase.PLATEAU)
                        + " by its time: what goes in while pressure stands goes out. No compliance is needed.";
        };
    }

    private static String samples(HoldTest test) {
        List<String> parts = new ArrayList<>();
        for (Phase phase : List.of(Phase.PUMP_UP, Phase.SETTLING, Phase.HOLD)) {
            if (test.phase(phase).isPresent()) {
                parts.add(span(test, phase));
            }
        }
        return String.join(", ", parts);
    }

    private static String span(HoldTest test, Phase phase) {
        return phase.label() + test.phase(phase).map(Origins::times).orElse("");
    }

    private static String times(PhaseSpan span) {
        return " (" + Figures.significant(span.fromS(), 5) + " to " + Figures.significant(span.toS(), 5) + " s)";
    }
}
