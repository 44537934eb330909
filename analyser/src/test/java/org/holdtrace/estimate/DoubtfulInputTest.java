package org.holdtrace.estimate;

import static org.holdtrace.estimate.Results.cautions;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.holdtrace.trace.Trace;
import org.holdtrace.trace.TraceSegmenter;
import org.holdtrace.wording.Sentences;
import org.holdtrace.wording.ShownUnits;
import org.junit.jupiter.api.Test;

/** What is recorded or stated and cannot be right is said, since a figure that looks sound would be believed. */
class DoubtfulInputTest {
    private static final ClosedForm.Made PORT = Workshop.form().make(Workshop.laminar(1));

    /** The port's result after {@code reading} has made something else of each reading in bar. */
    private static HoldTestResult read(ClosedForm.Made made, DoubleUnaryOperator reading) {
        return read(made, reading, Workshop.known());
    }

    private static HoldTestResult read(ClosedForm.Made made, DoubleUnaryOperator reading, Known known) {
        int n = made.trace().size();
        double[] timeS = new double[n];
        double[] pressurePa = new double[n];
        for (int i = 0; i < n; i++) {
            timeS[i] = made.trace().timeS(i);
            pressurePa[i] = 1e5 * reading.applyAsDouble(made.trace().pressurePa(i) / 1e5);
        }
        Trace trace = Trace.of(timeS, pressurePa);
        return HoldTestEstimator.estimate(
                trace, TraceSegmenter.segment(trace).get(0), known.setup(), EstimateOptions.none());
    }

    @Test
    void aTransducerThatStoodAtItsEndIsNamed() {
        HoldTestResult clipped = read(PORT, bar -> Math.min(bar, 80));
        assertTrue(
                cautions(clipped).contains("end-of-range"), clipped.cautions().toString());
        String text = clipped.cautions().stream()
                .filter(caution -> caution.code().equals("end-of-range"))
                .findFirst()
                .orElseThrow()
                .text();
        assertTrue(text.startsWith("The highest reading stood still for "), text);
    }

    @Test
    void aHoldAtTheTransducersEndGivesNoRateAndAPumpUpThereNoVerdict() {
        double peak = 0;
        for (int i = 0; i < PORT.trace().size(); i++) {
            peak = Math.max(peak, PORT.trace().pressurePa(i) / 1e5);
        }
        double highest = peak;
        HoldTestResult hold = read(PORT, bar -> Math.min(bar, 0.5 * highest));
        assertTrue(hold.leak().isEmpty());
        assertEquals(List.of("end-of-range", "no-usable-hold"), cautions(hold));
        HoldTestResult top = read(
                PORT, bar -> Math.min(bar, 0.96 * highest), Workshop.known().limit("0.01 cm3/min"));
        assertTrue(cautions(top).contains("end-of-range"), top.cautions().toString());
        HoldTestResult.Verdict verdict = top.verdict().orElseThrow();
        assertEquals(HoldTestResult.Outcome.UNDECIDED, verdict.outcome());
        assertEquals(
                "UNDECIDED against the limit of 0.01 cm³/min; the transducer was at its end, so what the pressure did is not known",
                Sentences.verdict(verdict, ShownUnits.METRIC));
        assertTrue(Double.isNaN(verdict.probabilityOver()));
    }

    @Test
    void inputsThatAreWrongAHundredfoldContradictTheOthersAndGiveNoVerdictAndNoAbsurdFigure() {
        for (Known known : List.of(
                Workshop.known().volume("6000 cm3 ± 3 %"),
                Workshop.known().volume("0.6 cm3 ± 3 %"),
                Workshop.known().stroke("5 cm3 ± 2 %"),
                Workshop.known().line("0.62 cm3/bar ± 5 %"))) {
            HoldTestResult result = Results.of(PORT, known.limit("0.01 cm3/min"));
            assertEquals(
                    "inputs-contradict",
                    cautions(result).get(0),
                    result.cautions().toString());
            assertEquals(
                    "the stated inputs contradict one another",
                    result.verdict().orElseThrow().withheld().orElseThrow());
            double highest = result.routes().stream()
                    .mapToDouble(HoldTestResult.RouteRate::upper95)
                    .max()
                    .orElseThrow();
            assertTrue(result.leak().orElseThrow().upper95() <= highest);
        }
    }

    @Test
    void coarseStepsOnATightLineAreNotTheEndOfARange() {
        ClosedForm.Made tight = Workshop.form().make(Workshop.laminar(0.01));
        for (double step : new double[] {0.01, 0.1, 0.5}) {
            HoldTestResult coarse = read(tight, bar -> step * Math.round(bar / step));
            assertFalse(cautions(coarse).contains("end-of-range"), step + " bar");
        }
    }

    @Test
    void aPressureAboveTheStatedRangeOrFarAboveTheStatedReliefIsNamed() {
        assertEquals(List.of(), cautions(Results.of(PORT, Workshop.known())));
        assertTrue(
                cautions(Results.of(PORT, Workshop.known().transducer(80, 0.1))).contains("beyond-range"));
        assertTrue(cautions(Results.of(PORT, Workshop.known().relief("50 bar"))).contains("relief-doubtful"));
    }

    @Test
    void aLineCheckThatLeaksAsMuchAsTheTestIsNamedAndAGoodOneIsNot() {
        HoldTestResult worn = Results.of(PORT, Workshop.known());
        HoldTestResult tight = Results.of(Workshop.form().make(Workshop.laminar(0)), Workshop.known());
        assertTrue(cautions(checkedBy(worn)).contains("line-check-doubtful"));
        assertFalse(
                cautions(checkedBy(tight)).contains("line-check-doubtful"),
                checkedBy(tight).cautions()::toString);
    }

    private static HoldTestResult checkedBy(HoldTestResult line) {
        EstimateOptions options =
                new EstimateOptions(OptionalDouble.empty(), OptionalDouble.empty(), Optional.of(line));
        return Results.of(PORT, Workshop.known(), options);
    }
}
