package org.holdtrace.accuracy;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.Rig;
import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.HoldTest;
import org.holdtrace.trace.Phase;
import org.holdtrace.trace.PhaseSpan;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.Test;

/** The yardsticks of the benchmark, held against cases that can be worked out by hand. */
class AccuracyFiguresTest {
    private static final double BAR = 1e5;

    /** Reference list C-04 (calc): 100 ml, 1.30 GPa, 0.1 ml/min per 100 bar: tau = 461.538 s, p(600 s) = 27.2532 bar. */
    @Test
    void oneExponentialIsExactWhereTheLineIsOne() {
        int n = 6001;
        double[] t = new double[n];
        double[] p = new double[n];
        for (int i = 0; i < n; i++) {
            t[i] = 0.1 * i;
            p[i] = 100 * BAR * Math.exp(-t[i] / 461.538);
        }
        assertEquals(27.2532, p[n - 1] / BAR, 1e-4);
        HoldTest test = new HoldTest(
                1,
                List.of(new PhaseSpan(Phase.HOLD, 0, 600)),
                List.of(),
                new HoldTest.RestLevel(0, 1000, true),
                OptionalDouble.empty());
        TestSetup setup = stating(
                Optional.of(new Quantity(100e-6, 2e-6)), Optional.of(new Quantity(1.3e9, 0.0)), Optional.empty());
        SingleExponential.Answer answer = SingleExponential.estimate(Trace.of(t, p), test, setup, 100 * BAR)
                .orElseThrow();
        assertEquals(0.1, answer.m3PerS() * 60e6, 1e-6);
        assertEquals(0.1 * (1 + 1.96 * 0.02), answer.upper95() * 60e6, 1e-6);
    }

    @Test
    void withoutAVolumeOneExponentialHasNoAnswer() {
        HoldTest test = new HoldTest(
                1,
                List.of(new PhaseSpan(Phase.HOLD, 0, 9)),
                List.of(),
                new HoldTest.RestLevel(0, 1000, true),
                OptionalDouble.empty());
        Trace trace = Trace.of(new double[] {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, new double[10]);
        assertTrue(SingleExponential.estimate(trace, test, TestSetup.unknown(), BAR)
                .isEmpty());
    }

    /** Two independent values of the same uncertainty have a mean of 1/sqrt(2) of it. */
    @Test
    void independentRoutesAddTheirWeights() {
        TestSetup setup = stating(Optional.empty(), Optional.empty(), Optional.of(new Quantity(1e-6, 2e-8)));
        Rig rig = new Corpus(7, Roughness.PLAIN).simulate(0).test().truth().rig();
        assertEquals(0.02, Unavoidable.relative(setup, rig, true, 100), 1e-12);
        assertEquals(0.02 / Math.sqrt(2), Unavoidable.relative(bled(setup), rig, true, 100), 1e-12);
        assertTrue(Double.isInfinite(Unavoidable.relative(setup, rig, false, 100)));
    }

    @Test
    void aCaseDependsOnSeedAndIndexAlone() {
        SimulatedCase.Recorded once = new Corpus(7, Roughness.ROUGH).simulate(30);
        SimulatedCase.Recorded again = new Corpus(7, Roughness.ROUGH).simulate(30);
        assertEquals(once.test(), again.test());
        assertArrayEquals(pressures(once.trace()), pressures(again.trace()));
    }

    private static double[] pressures(Trace trace) {
        double[] out = new double[trace.size()];
        for (int i = 0; i < out.length; i++) {
            out[i] = trace.pressurePa(i);
        }
        return out;
    }

    private static TestSetup bled(TestSetup with) {
        return stating(
                with.trappedVolumeM3(),
                with.bulkModulusPa(),
                with.pumpStrokeM3(),
                Optional.of(new Quantity(2e-6, 4e-8)));
    }

    private static TestSetup stating(Optional<Quantity> volume, Optional<Quantity> modulus, Optional<Quantity> stroke) {
        return stating(volume, modulus, stroke, Optional.empty());
    }

    private static TestSetup stating(
            Optional<Quantity> volume, Optional<Quantity> modulus, Optional<Quantity> stroke, Optional<Quantity> bled) {
        return new TestSetup(
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                modulus,
                Optional.empty(),
                volume,
                Optional.empty(),
                stroke,
                bled,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }
}
