package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Locale;
import java.util.function.DoubleUnaryOperator;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.ShrinkingMode;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.holdtrace.estimate.HoldTestResult.Leak;
import org.holdtrace.estimate.HoldTestResult.Route;
import org.holdtrace.quantity.Dimension;
import org.holdtrace.quantity.Unit;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Stroke;
import org.holdtrace.trace.Trace;

/** What must not change a leak rate when only unit, clock, zero or sampling rate do, and what must when the volume does. */
class EstimateInvariancesTest {
    private static final int TRIES = 6;

    /** Rounding may give a node one draw more; of 4000 draws the quantiles are then others by a hundredth to three. */
    private static final double DRAWN = 0.03;

    /** An ordinary port with a leak of one of three laws, {@code rateHz} samples a second. */
    private static ClosedForm.Made made(int kind, double cm3PerMin, double rateHz) {
        ClosedForm form = Workshop.form();
        form.seed = 100L + kind;
        form.rateHz = rateHz;
        form.holdS = 40;
        double at100 = cm3PerMin / 60;
        DoubleUnaryOperator leak = switch (kind) {
            case 0 -> p -> at100 * p / 100;
            case 1 -> p -> at100 * Math.sqrt(p / 100);
            default -> p -> at100 * Math.max(0, p - 50) / 50;
        };
        return form.make(Workshop.line(leak));
    }

    private static void assertSame(Leak expected, Leak actual, double ofHalfWidth) {
        double half = 0.5 * (expected.upper95() - expected.lower95());
        assertEquals(expected.m3PerS(), actual.m3PerS(), ofHalfWidth * half, actual.toString());
        assertEquals(expected.lower95(), actual.lower95(), ofHalfWidth * half, actual.toString());
        assertEquals(expected.upper95(), actual.upper95(), ofHalfWidth * half, actual.toString());
        assertEquals(expected.law(), actual.law());
    }

    private static ClosedForm.Made changed(ClosedForm.Made made, DoubleUnaryOperator pa, double shiftS, int every) {
        Trace trace = made.trace();
        int n = (trace.size() + every - 1) / every;
        double[] timeS = new double[n];
        double[] pressurePa = new double[n];
        for (int i = 0; i < n; i++) {
            timeS[i] = trace.timeS(i * every) + shiftS;
            pressurePa[i] = pa.applyAsDouble(trace.pressurePa(i * every));
        }
        HoldTest test = made.test();
        return new ClosedForm.Made(
                Trace.of(timeS, pressurePa),
                new HoldTest(
                        test.number(),
                        test.phases().stream()
                                .map(s -> new PhaseSpan(s.phase(), s.fromS() + shiftS, s.toS() + shiftS))
                                .toList(),
                        test.strokes().stream()
                                .map(s -> new Stroke(s.startS() + shiftS, s.endS() + shiftS))
                                .toList(),
                        new HoldTest.RestLevel(
                                pa.applyAsDouble(test.rest().zeroPa()),
                                test.rest().noisePa(),
                                test.rest().fromRest()),
                        test.plateauMeanPa()));
    }

    private static String in(Unit unit, double siValue, double siUncertainty) {
        return String.format(
                Locale.ROOT,
                "%.17g ± %.17g %s",
                unit.fromSi(siValue),
                unit.differenceFromSi(siUncertainty),
                unit.symbol());
    }

    @Property(tries = TRIES, seed = "5", shrinking = ShrinkingMode.OFF)
    void psiAndCubicInchesGiveTheSameRate(
            @ForAll @IntRange(max = 2) int kind, @ForAll @DoubleRange(min = 0.2, max = 3) double cm3PerMin) {
        ClosedForm.Made made = made(kind, cm3PerMin, 50);
        Known bar = Workshop.known();
        Unit inchesPerPsi = Unit.of(Dimension.COMPLIANCE, "in3/psi");
        Known psi = new Known()
                .transducer(160, 0.1)
                .reference(in(Unit.PSI, 100e5, 0))
                .volume(in(Unit.IN3, 60e-6, 1.8e-6))
                .modulus(in(Unit.PSI, 1.42e9, 0.0426e9))
                .air("0 %")
                .line(in(inchesPerPsi, 0.0062e-11, 0.00031e-11))
                .stroke(in(Unit.IN3, 0.05e-6, 0.001e-6))
                .grade("ISO VG 46")
                .temperature("68 ± 1.8 degF");
        ClosedForm.Made inPsi = changed(made, pa -> Unit.PSI.toSi(Unit.PSI.fromSi(pa)), 0, 1);
        assertSame(Results.leak(Results.of(made, bar)), Results.leak(Results.of(inPsi, psi)), DRAWN);
    }

    @Property(tries = TRIES, seed = "6", shrinking = ShrinkingMode.OFF)
    void theClockMayStartAnywhere(
            @ForAll @IntRange(max = 2) int kind,
            @ForAll @DoubleRange(min = 0.2, max = 3) double cm3PerMin,
            @ForAll @DoubleRange(min = -1000, max = 1000) double shiftS) {
        ClosedForm.Made made = made(kind, cm3PerMin, 50);
        HoldTestResult early = Results.of(made, Workshop.known());
        for (double shift : new double[] {shiftS, 1000}) {
            HoldTestResult late = Results.of(changed(made, pa -> pa, shift, 1), Workshop.known());
            assertSame(Results.leak(early), Results.leak(late), DRAWN);
        }
    }

    @Property(tries = TRIES, seed = "7", shrinking = ShrinkingMode.OFF)
    void aZeroLearnedAtRestDoesNotMatter(
            @ForAll @IntRange(max = 2) int kind,
            @ForAll @DoubleRange(min = 0.2, max = 3) double cm3PerMin,
            @ForAll @DoubleRange(min = -1, max = 1) double zeroBar) {
        ClosedForm.Made made = made(kind, cm3PerMin, 50);
        HoldTestResult plain = Results.of(made, Workshop.known());
        for (double zero : new double[] {zeroBar, 0.7}) {
            HoldTestResult offset = Results.of(changed(made, pa -> pa + zero * 1e5, 0, 1), Workshop.known());
            assertSame(Results.leak(plain), Results.leak(offset), DRAWN);
        }
    }

    @Property(tries = TRIES, seed = "8", shrinking = ShrinkingMode.OFF)
    void theSamplingRateHardlyMatters(
            @ForAll @IntRange(max = 2) int kind, @ForAll @DoubleRange(min = 0.2, max = 3) double cm3PerMin) {
        ClosedForm.Made fast = made(kind, cm3PerMin, 500);
        Leak at500 = Results.leak(Results.of(fast, Workshop.known()));
        for (int every : new int[] {2, 5}) {
            Leak slower = Results.leak(Results.of(changed(fast, pa -> pa, 0, every), Workshop.known()));
            assertSame(at500, slower, 0.3);
        }
    }

    @Property(tries = 3, seed = "10", shrinking = ShrinkingMode.OFF)
    void fewerSamplesMakeTheIntervalNoNarrower(
            @ForAll @IntRange(max = 2) int kind, @ForAll @DoubleRange(min = 0.3, max = 2) double cm3PerMin) {
        ClosedForm.Made fast = made(kind, cm3PerMin, 860);
        Leak at860 = Results.leak(Results.of(fast, Workshop.known()));
        // About 290, 96 and 50 samples a second.
        for (int every : new int[] {3, 9, 17}) {
            Leak slower = Results.leak(Results.of(changed(fast, pa -> pa, 0, every), Workshop.known()));
            double width = (slower.upper95() - slower.lower95()) / (at860.upper95() - at860.lower95());
            assertEquals(1, width, 0.25, slower.toString());
            assertSame(at860, slower, 0.3);
        }
    }

    @Property(tries = TRIES, seed = "9", shrinking = ShrinkingMode.OFF)
    void twiceTheVolumeIsTwiceTheLeakByDecay(
            @ForAll @IntRange(max = 1) int kind, @ForAll @DoubleRange(min = 0.2, max = 3) double cm3PerMin) {
        ClosedForm.Made made = made(kind, cm3PerMin, 50);
        Known one = Workshop.sensor().volume("149 cm3 ± 3 %");
        Known two = Workshop.sensor().volume("298 cm3 ± 3 %");
        for (Known known : List.of(one, two)) {
            known.modulus("1.42 GPa ± 3 %").line("1e-6 cm3/bar").air("0 %");
        }
        double single = Results.route(Results.of(made, one), Route.DECAY).m3PerS();
        double twice = Results.route(Results.of(made, two), Route.DECAY).m3PerS();
        // Not to the letter: heat is expected to take longer to leave a larger volume (TH-09), which a decay alone
        // hardly tells.
        assertEquals(2, twice / single, 0.07);
    }
}
