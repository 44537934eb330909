package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

/** What must not change when only clock, unit, zero or sampling rate do. */
class TraceInvariancesTest {
    private static MadeTrace made(int seed) {
        MadeTrace made = new MadeTrace(seed);
        made.strokes = 8 + seed % 9;
        made.push = List.of(MadeTrace.Push.values()).get(seed % 3);
        made.complianceCm3PerBar = seed % 2 == 0 ? 0.02 : 0.08;
        made.leakCm3PerSBar = seed % 5 == 0 ? made.complianceCm3PerBar / 6 : 0;
        made.holdS = 20;
        return made;
    }

    private static Trace changed(Trace trace, DoubleUnaryOperator clock, DoubleUnaryOperator pressure, int every) {
        int n = trace.size() / every;
        double[] timeS = new double[n];
        double[] pa = new double[n];
        for (int i = 0; i < n; i++) {
            timeS[i] = clock.applyAsDouble(trace.timeS(i * every));
            pa[i] = pressure.applyAsDouble(trace.pressurePa(i * every));
        }
        return Trace.of(timeS, pa);
    }

    /** The phases found; whether a slow approach has become a plateau is a matter of degree, and noise may decide. */
    private static List<Phase> phases(HoldTest test) {
        return test.phases().stream()
                .map(PhaseSpan::phase)
                .filter(phase -> phase != Phase.PLATEAU)
                .toList();
    }

    private static void assertSame(List<HoldTest> expected, List<HoldTest> actual, double shiftS, double toleranceS) {
        assertEquals(expected.size(), actual.size());
        for (int i = 0; i < expected.size(); i++) {
            HoldTest a = expected.get(i);
            HoldTest b = actual.get(i);
            assertEquals(a.strokes().size(), b.strokes().size());
            for (int j = 0; j < a.strokes().size(); j++) {
                assertEquals(
                        a.strokes().get(j).startS() + shiftS, b.strokes().get(j).startS(), toleranceS);
                assertEquals(
                        a.strokes().get(j).endS() + shiftS, b.strokes().get(j).endS(), toleranceS);
            }
            assertEquals(phases(a), phases(b));
            assertEquals(
                    a.phase(Phase.HOLD).orElseThrow().toS() + shiftS,
                    b.phase(Phase.HOLD).orElseThrow().toS(),
                    toleranceS);
        }
    }

    @Property(tries = 40, seed = "17")
    void aClockSetDifferentlyShiftsEveryTime(
            @ForAll @IntRange(min = 1, max = 500) int seed,
            @ForAll @DoubleRange(min = -1000, max = 1000) double shiftS) {
        Trace trace = made(seed).make();
        List<HoldTest> shifted = TraceSegmenter.segment(changed(trace, t -> t + shiftS, p -> p, 1));
        // Where a push ends gently, noise leaves its end open by a part of the push; rounding then decides.
        assertSame(TraceSegmenter.segment(trace), shifted, shiftS, 0.3);
    }

    @Property(tries = 40, seed = "17")
    void pressuresTwiceOrATenthAsHighHaveTheSameTimes(
            @ForAll @IntRange(min = 1, max = 500) int seed, @ForAll @DoubleRange(min = 0.1, max = 4) double factor) {
        Trace trace = made(seed).make();
        List<HoldTest> scaled = TraceSegmenter.segment(changed(trace, t -> t, p -> factor * p, 1));
        assertSame(TraceSegmenter.segment(trace), scaled, 0, 0.3);
    }

    @Property(tries = 40, seed = "17")
    void aZeroThatIsOffIsLearnedAndChangesNoTime(
            @ForAll @IntRange(min = 1, max = 500) int seed, @ForAll @DoubleRange(min = -1e5, max = 1e5) double offPa) {
        Trace trace = made(seed).make();
        List<HoldTest> off = TraceSegmenter.segment(changed(trace, t -> t, p -> p + offPa, 1));
        List<HoldTest> expected = TraceSegmenter.segment(trace);
        assertSame(expected, off, 0, 0.3);
        assertEquals(expected.get(0).rest().zeroPa() + offPa, off.get(0).rest().zeroPa(), 100);
    }

    @Property(tries = 40, seed = "17")
    void halfOrAFifthOfTheSamplesTellTheSame(
            @ForAll @IntRange(min = 1, max = 500) int seed, @ForAll @IntRange(min = 2, max = 5) int every) {
        Trace trace = made(seed).make();
        List<HoldTest> thinned = TraceSegmenter.segment(changed(trace, t -> t, p -> p, every));
        assertSame(TraceSegmenter.segment(trace), thinned, 0, 0.4);
    }
}
