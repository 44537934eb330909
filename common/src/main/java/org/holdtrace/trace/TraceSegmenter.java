package org.holdtrace.trace;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * Finds the hold tests of a whole trace: {@link PhaseDetector} over all samples, then every boundary sharpened with the
 * samples on both sides of it at hand.
 */
public final class TraceSegmenter {
    private TraceSegmenter() {}

    /** The hold tests of {@code trace} in order of time; none where there is nothing but rest. */
    public static List<HoldTest> segment(Trace trace) {
        PhaseDetector detector = new PhaseDetector();
        for (int i = 0; i < trace.size(); i++) {
            detector.accept(trace.timeS(i), trace.pressurePa(i));
        }
        List<FoundTest> seen = detector.finishFound();
        LetOffFinder.complete(trace, seen);
        List<FoundTest> found = TestJoiner.join(seen);
        List<HoldTest> tests = new ArrayList<>();
        RestLevels rest = null;
        for (int i = 0; i < found.size(); i++) {
            FoundTest each = found.get(i);
            double until = i + 1 < found.size() ? found.get(i + 1).restToS : trace.timeS(trace.size() - 1);
            rest = RestLevels.of(trace, each, rest, until);
            HoldTest test = sharpen(trace, each, rest, tests.size() + 1);
            if (test != null) {
                tests.add(test);
            }
        }
        return tests;
    }

    private static HoldTest sharpen(Trace trace, FoundTest found, RestLevels rest, int number) {
        SampleWindow window = new SampleWindow(trace, rest.noisePa());
        StrokeRefiner refiner = new StrokeRefiner(window, rest, found.noisePa);
        double end = Double.isNaN(found.bleedFromS) ? found.endS : found.bleedFromS;
        double from = Double.isNaN(found.restFromS) ? found.lastStrokeEndS() : found.restFromS;
        List<StrokeRefiner.Edges> strokes = refiner.refine(found, from, end);
        if (strokes.isEmpty() && Double.isNaN(found.pumpedUpS)) {
            return null;
        }
        List<PhaseSpan> spans = new ArrayList<>();
        double pumped;
        OptionalDouble plateauMean = OptionalDouble.empty();
        if (strokes.isEmpty()) {
            pumped = found.pumpedUpS;
        } else {
            double begin = strokes.get(0).startS;
            pumped = strokes.get(strokes.size() - 1).endS;
            if (!Double.isNaN(found.restFromS) && begin > found.restFromS) {
                spans.add(new PhaseSpan(Phase.REST, found.restFromS, begin));
            }
            spans.add(new PhaseSpan(Phase.PUMP_UP, begin, pumped));
            int flat = PlateauFinder.firstFlat(strokes);
            if (flat >= 0) {
                double since = strokes.get(flat).startS;
                spans.add(new PhaseSpan(Phase.PLATEAU, since, pumped));
                plateauMean = OptionalDouble.of(TimeMean.of(window, since, pumped) - rest.zeroPa());
            }
        }
        HoldRefiner hold = new HoldRefiner(window, rest.zeroPa());
        double bleed = Double.isNaN(found.bleedFromS) ? Double.NaN : hold.bleedStart(found, pumped);
        double holdEnd = Math.max(pumped, Double.isNaN(bleed) ? found.endS : bleed);
        double settled = hold.settled(pumped, holdEnd, !strokes.isEmpty());
        if (settled > pumped) {
            spans.add(new PhaseSpan(Phase.SETTLING, pumped, settled));
        }
        if (holdEnd > settled) {
            spans.add(new PhaseSpan(Phase.HOLD, settled, holdEnd));
        }
        if (!Double.isNaN(bleed)) {
            spans.add(new PhaseSpan(Phase.BLEED_OFF, holdEnd, Math.max(holdEnd, found.bleedToS)));
        }
        List<Stroke> listed = new ArrayList<>();
        for (StrokeRefiner.Edges each : strokes) {
            listed.add(new Stroke(each.startS, each.endS));
        }
        return new HoldTest(number, spans, listed, rest.level(), plateauMean);
    }
}
