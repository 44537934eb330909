package org.holdtrace.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Against traces made here, of which the truth is known: how they are made is the only source there is. */
class TraceSegmenterTest {
    static final double[] RATES_HZ = {50, 100, 128, 200, 250, 500, 860};

    private static final List<MadeTrace.Push> PUSHES =
            List.of(MadeTrace.Push.HALF_SINE, MadeTrace.Push.EVEN, MadeTrace.Push.GENTLE);

    private static MadeTrace random(long seed) {
        Random random = new Random(seed * 7919);
        MadeTrace made = new MadeTrace(seed);
        made.rateHz = RATES_HZ[random.nextInt(RATES_HZ.length)];
        made.strokes = 8 + random.nextInt(30);
        made.pushS = Math.max(0.15, 0.2 + 0.8 * random.nextDouble());
        made.pauseS = 0.3 + random.nextDouble();
        made.push = PUSHES.get(random.nextInt(PUSHES.size()));
        double riseBar = Math.exp(Math.log(1) + random.nextDouble() * Math.log(25));
        made.complianceCm3PerBar = made.strokeCm3 / riseBar;
        made.airCm3 = random.nextBoolean() ? made.strokeCm3 * 2 * random.nextDouble() : 0;
        if (random.nextInt(3) == 0) {
            double constantS = 1 + 20 * random.nextDouble();
            made.leakCm3PerSBar = made.complianceCm3PerBar / constantS;
        }
        made.noiseBar = 0.002 + 0.01 * riseBar * random.nextDouble() * Math.sqrt(made.rateHz / 860);
        made.stepBar = 0.002 + 0.006 * riseBar * random.nextDouble();
        made.zeroBar = random.nextGaussian() * 0.4;
        made.lagS = 0.001 + 0.015 * random.nextDouble();
        made.lastPart = random.nextBoolean() ? 0.3 + 0.7 * random.nextDouble() : 1;
        made.holdS = 15 + 60 * random.nextDouble();
        made.bleedS = 0.2 + random.nextDouble();
        made.restS = 2 + 4 * random.nextDouble();
        return made;
    }

    @Test
    void nearlyEveryStrokeOfACleanTraceIsFoundWhateverRateShapeSizeAndLeak() {
        int cases = 200;
        int exact = 0;
        int tests = 0;
        StringBuilder wrong = new StringBuilder();
        for (int seed = 1; seed <= cases; seed++) {
            MadeTrace made = random(seed);
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            int strokes = found.isEmpty() ? 0 : found.get(0).strokes().size();
            tests += found.size() == 1 ? 1 : 0;
            exact += strokes == made.strokes ? 1 : 0;
            if (strokes != made.strokes || found.size() != 1) {
                wrong.append(String.format(
                        Locale.ROOT,
                        "%nseed %d: %d tests, %d of %d strokes, %.0f Hz, %s, push %.2f s, pause %.2f s, rise %.1f bar, air %.1f cm3, leak %.4f, noise %.3f, step %.3f",
                        seed,
                        found.size(),
                        strokes,
                        made.strokes,
                        made.rateHz,
                        made.push,
                        made.pushS,
                        made.pauseS,
                        made.strokeCm3 / made.complianceCm3PerBar,
                        made.airCm3,
                        made.leakCm3PerSBar,
                        made.noiseBar,
                        made.stepBar));
            }
        }
        assertTrue(exact >= 0.97 * cases, exact + " of " + cases + wrong);
        assertEquals(cases, tests, () -> "hold tests" + wrong);
    }

    @Test
    void strokesOfCleanTracesAreTimedToASampleAndTheLag() {
        double worstLate = 0;
        int edges = 0;
        int good = 0;
        for (int seed = 1; seed <= 60; seed++) {
            MadeTrace made = random(seed);
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            List<Stroke> strokes = found.get(0).strokes();
            if (strokes.size() != made.strokes) {
                continue;
            }
            for (int i = 0; i < strokes.size(); i++) {
                double late = strokes.get(i).startS() - made.trueStrokes.get(i)[0];
                double early = made.trueStrokes.get(i)[1] - strokes.get(i).endS();
                double tolerance = 1.5 / made.rateHz + made.lagS + 0.12 * made.pushS;
                edges += 2;
                good += Math.abs(late) < tolerance ? 1 : 0;
                good += Math.abs(early) < tolerance + 0.1 * made.pushS ? 1 : 0;
                worstLate = Math.max(worstLate, late);
            }
        }
        assertTrue(good >= 0.9 * edges, good + " of " + edges);
        assertTrue(worstLate < 0.35, "latest " + worstLate);
    }

    @Test
    void holdsEndWhereTheValveWasOpened() {
        for (int seed = 1; seed <= 60; seed++) {
            MadeTrace made = random(seed);
            made.leakCm3PerSBar = 0;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            PhaseSpan hold = found.get(0).phase(Phase.HOLD).orElseThrow();
            assertEquals(made.holdEndS.get(0), hold.toS(), 0.1, "seed " + seed);
            assertTrue(found.get(0).phase(Phase.BLEED_OFF).isPresent(), "seed " + seed);
        }
    }

    @Test
    void phasesFollowOneAnotherWithoutAGap() {
        for (int seed = 1; seed <= 40; seed++) {
            MadeTrace made = random(seed);
            made.tests = 1 + seed % 3;
            for (HoldTest test : TraceSegmenter.segment(made.make())) {
                double clock = Double.NaN;
                for (PhaseSpan span : test.phases()) {
                    if (span.phase() != Phase.PLATEAU) {
                        assertTrue(Double.isNaN(clock) || Math.abs(span.fromS() - clock) < 1e-9, "seed " + seed);
                        clock = span.toS();
                    }
                }
            }
        }
    }

    @Test
    void severalHoldTestsInARowAreToldApart() {
        for (int seed = 1; seed <= 30; seed++) {
            MadeTrace made = random(seed);
            made.tests = 3;
            made.leakCm3PerSBar = 0;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(3, found.size(), "seed " + seed);
            for (int i = 0; i < 3; i++) {
                assertEquals(i + 1, found.get(i).number());
                assertEquals(
                        made.zeroBar * 1e5,
                        found.get(i).rest().zeroPa(),
                        0.05e5 + 300 * made.noiseBar * 1e3,
                        "seed " + seed);
            }
        }
    }

    @Test
    void pressureLeftAfterALetOffIsNotTakenForTheZero() {
        MadeTrace made = new MadeTrace(18);
        made.tests = 2;
        made.leftPart = 0.03;
        List<HoldTest> found = TraceSegmenter.segment(made.make());
        assertEquals(2, found.size());
        assertEquals(made.zeroBar * 1e5, found.get(1).rest().zeroPa(), 0.02e5);
    }

    @Test
    void aWornPortThatNeverHoldsShowsAPlateauAndEveryStroke() {
        for (double constantS : new double[] {0.8, 1.5, 3}) {
            MadeTrace made = new MadeTrace(11);
            made.strokes = 40;
            made.complianceCm3PerBar = 0.015;
            made.leakCm3PerSBar = made.complianceCm3PerBar / constantS;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(1, found.size());
            assertEquals(40, found.get(0).strokes().size());
            PhaseSpan plateau = found.get(0).phase(Phase.PLATEAU).orElseThrow();
            PhaseSpan pumping = found.get(0).phase(Phase.PUMP_UP).orElseThrow();
            assertEquals(pumping.toS(), plateau.toS());
            assertTrue(plateau.durationS() > 0.5 * pumping.durationS());
            // Mean flow in over the leak's conductance is the mean pressure, whatever the pump's rhythm: q = g p.
            double inCm3PerS = made.strokeCm3 / (made.pushS + made.pauseS);
            assertEquals(
                    inCm3PerS / made.leakCm3PerSBar,
                    found.get(0).plateauMeanPa().orElseThrow() / 1e5,
                    3);
        }
    }

    @Test
    void pumpingIntoAReliefValveIsAPlateauWithEveryStroke() {
        MadeTrace made = new MadeTrace(5);
        made.strokes = 24;
        made.ceilingBar = 172;
        made.leakCm3PerSBar = 0.00002;
        List<HoldTest> found = TraceSegmenter.segment(made.make());
        assertEquals(24, found.get(0).strokes().size());
        assertTrue(found.get(0).phase(Phase.PLATEAU).isPresent());
    }

    @Test
    void aPumpUpThatStillRisesAtItsEndHasNoPlateau() {
        for (int seed = 1; seed <= 40; seed++) {
            MadeTrace made = random(seed);
            made.leakCm3PerSBar = 0;
            made.lastPart = 1;
            assertFalse(
                    TraceSegmenter.segment(made.make())
                            .get(0)
                            .phase(Phase.PLATEAU)
                            .isPresent(),
                    "seed " + seed);
        }
    }

    @Test
    void aCylinderThatRisesThreeBarAStrokeInNoiseIsCountedToWithinTwo() {
        for (int seed = 1; seed <= 12; seed++) {
            MadeTrace made = new MadeTrace(seed);
            made.rateHz = RATES_HZ[seed % RATES_HZ.length];
            made.strokes = 60;
            made.complianceCm3PerBar = 0.4 / 3;
            made.noiseBar = 0.2;
            made.correlation = seed % 2 == 0 ? 0.5 : 0;
            made.pauseS = 0.9;
            made.pushS = 0.6;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(1, found.size(), "seed " + seed);
            assertEquals(60, found.get(0).strokes().size(), 2, "seed " + seed);
        }
    }

    @Test
    void spikesGapsAndRepeatedStampsMakeNoStrokesAndEndNoHold() {
        for (int seed = 1; seed <= 40; seed++) {
            MadeTrace made = random(seed);
            made.leakCm3PerSBar = 0;
            made.spikes = 20;
            made.repeats = 10;
            made.gaps = 3;
            made.gapS = 0.1;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(1, found.size(), "seed " + seed);
            assertEquals(made.strokes, found.get(0).strokes().size(), 1, "seed " + seed);
            assertEquals(
                    made.holdEndS.get(0),
                    found.get(0).phase(Phase.HOLD).orElseThrow().toS(),
                    0.25,
                    "seed " + seed);
        }
    }

    @Test
    void faultsOfThreeSamplesAtFiftyHertzAreNeitherStrokesNorNewHoldTests() {
        int tests = 0;
        int exact = 0;
        for (int seed = 1; seed <= 40; seed++) {
            MadeTrace made = random(seed);
            made.rateHz = 50;
            made.holdS = 60;
            made.spikes = 6;
            made.spikeSamples = 3;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            tests += found.size();
            exact += found.get(0).strokes().size() == made.strokes ? 1 : 0;
        }
        assertEquals(40, tests);
        assertTrue(exact >= 36, exact + " of 40");
    }

    @Test
    void aDriftingZeroIsTakenWhereTheStrokesBegin() {
        MadeTrace made = new MadeTrace(3);
        made.restS = 20;
        made.driftBarPerS = 0.01;
        made.zeroBar = 0;
        HoldTest test = TraceSegmenter.segment(made.make()).get(0);
        assertEquals(14, test.strokes().size());
        assertEquals(0.2e5, test.rest().zeroPa(), 0.03e5);
        assertEquals(0.01e5, test.rest().noisePa(), 0.003e5);
        assertTrue(test.rest().fromRest());
    }

    /** 0.6 % of a span of 600 bar: no pressure left in the line, and no hold test before the first stroke. */
    @Test
    void aReadingThatMovesByOneStepOfTheConverterIsNoStroke() {
        for (int seed = 0; seed < 12; seed++) {
            MadeTrace made = new MadeTrace(400 + seed);
            made.restS = 12;
            made.strokes = 10;
            made.noiseBar = 0.002;
            made.stepBar = 0.1;
            // Within the seconds before the first stroke the zero passes from one step to the next.
            made.zeroBar = 0.2501 - 0.0005 * (9 + 0.25 * seed);
            made.driftBarPerS = 0.0005;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(1, found.size(), "seed " + seed);
            assertEquals(10, found.get(0).strokes().size(), "seed " + seed);
        }
    }

    @Test
    void aZeroThatIsOffByBarsIsNotALineThatWasPumpedUpBefore() {
        MadeTrace made = new MadeTrace(3);
        made.zeroBar = 3.6;
        List<HoldTest> found = TraceSegmenter.segment(made.make());
        assertEquals(1, found.size());
        assertEquals(14, found.get(0).strokes().size());
        assertEquals(3.6e5, found.get(0).rest().zeroPa(), 0.03e5);
        assertTrue(found.get(0).rest().fromRest());
    }

    @Test
    void aTraceThatBeginsPumpedUpHasAHoldAndNoStrokes() {
        MadeTrace made = MadeTrace.begunPumpedUp(8, 120);
        made.leakCm3PerSBar = 0.00004;
        List<HoldTest> found = TraceSegmenter.segment(made.make());
        assertEquals(1, found.size());
        assertTrue(found.get(0).strokes().isEmpty());
        assertEquals(made.zeroBar, found.get(0).rest().zeroPa() / 1e5, 0.02);
        assertEquals(
                made.holdEndS.get(0),
                found.get(0).phase(Phase.HOLD).orElseThrow().toS(),
                0.1);
    }

    @Test
    void aTraceThatBeginsAmidThePumpUpIsOneHoldTest() {
        for (int stroke = 0; stroke < 12; stroke++) {
            MadeTrace made = new MadeTrace(20);
            Trace whole = made.make();
            // Amid a pause, and amid a push.
            double[] next = made.trueStrokes.get(stroke + 1);
            double pauseS = 0.5 * (made.trueStrokes.get(stroke)[1] + next[0]);
            for (double fromS : new double[] {pauseS, 0.5 * (next[0] + next[1])}) {
                int from = whole.indexAt(fromS);
                double[] timeS = new double[whole.size() - from];
                double[] pa = new double[timeS.length];
                for (int i = 0; i < timeS.length; i++) {
                    timeS[i] = whole.timeS(from + i);
                    pa[i] = whole.pressurePa(from + i);
                }
                List<HoldTest> found = TraceSegmenter.segment(Trace.of(timeS, pa));
                assertEquals(1, found.size(), "from " + fromS + " s");
                int left = made.trueStrokes.size() - stroke - 1;
                assertEquals(left, found.get(0).strokes().size(), 1, "from " + fromS + " s");
                assertTrue(found.get(0).phase(Phase.REST).isEmpty() || stroke == 0, "from " + fromS + " s");
            }
        }
    }

    @Test
    void aTraceThatEndsInTheHoldHasNoBleedOff() {
        MadeTrace made = new MadeTrace(9);
        made.bleedS = 0;
        Trace trace = made.make();
        HoldTest test = TraceSegmenter.segment(trace).get(0);
        assertFalse(test.phase(Phase.BLEED_OFF).isPresent());
        assertEquals(
                trace.timeS(trace.size() - 1),
                test.phase(Phase.HOLD).orElseThrow().toS(),
                0.1);
    }

    @Test
    void aLeakThatEmptiesThePortInTheHoldIsNoBleedOff() {
        MadeTrace made = new MadeTrace(10);
        made.leakCm3PerSBar = made.complianceCm3PerBar / 3;
        made.bleedS = 0;
        HoldTest test = TraceSegmenter.segment(made.make()).get(0);
        assertFalse(test.phase(Phase.BLEED_OFF).isPresent());
        assertEquals(14, test.strokes().size());
    }

    @Test
    void aTraceThatEndsWhilePumpingKeepsItsStrokes() {
        MadeTrace made = new MadeTrace(12);
        made.endsInPumping = true;
        HoldTest test = TraceSegmenter.segment(made.make()).get(0);
        assertEquals(14, test.strokes().size());
    }

    @Test
    void aPauseForBreathDoesNotEndThePumpUp() {
        MadeTrace made = new MadeTrace(13);
        made.longPauseAfter = 6;
        made.longPauseS = 10;
        List<HoldTest> found = TraceSegmenter.segment(made.make());
        assertEquals(1, found.size());
        assertEquals(14, found.get(0).strokes().size());
    }

    @Test
    void aPushThatHesitatesIsOneStroke() {
        for (int seed = 1; seed <= 20; seed++) {
            MadeTrace made = new MadeTrace(seed);
            made.hesitating = 4 + seed % 7;
            made.pushS = 0.5;
            made.pauseS = 0.8;
            made.leakCm3PerSBar = seed % 2 == 0 ? 0 : made.complianceCm3PerBar / 10;
            assertEquals(
                    14, TraceSegmenter.segment(made.make()).get(0).strokes().size(), "seed " + seed);
        }
    }

    @Test
    void aPushThatHesitatesForLongerThanAPauseIsOneStroke() {
        for (int seed = 1; seed <= 20; seed++) {
            MadeTrace made = new MadeTrace(seed);
            made.hesitating = 4 + seed % 7;
            made.hesitationS = 0.9;
            made.pushS = 0.5;
            made.pauseS = 0.6;
            made.leakCm3PerSBar = seed % 2 == 0 ? 0 : made.complianceCm3PerBar / 40;
            assertEquals(
                    14, TraceSegmenter.segment(made.make()).get(0).strokes().size(), "seed " + seed);
        }
    }

    @Test
    void quickJabsAndManyStrokesAreCounted() {
        MadeTrace jabs = new MadeTrace(14);
        jabs.pushS = 0.05;
        jabs.pauseS = 0.45;
        assertEquals(14, TraceSegmenter.segment(jabs.make()).get(0).strokes().size());
        MadeTrace many = new MadeTrace(15);
        many.strokes = 250;
        many.complianceCm3PerBar = 0.5;
        assertEquals(250, TraceSegmenter.segment(many.make()).get(0).strokes().size());
    }

    @Test
    void aLastStrokeCutToATenthIsFound() {
        MadeTrace made = new MadeTrace(16);
        made.lastPart = 0.1;
        assertEquals(14, TraceSegmenter.segment(made.make()).get(0).strokes().size());
    }

    @Test
    void restAloneAndNoSamplesAreNoHoldTest() {
        MadeTrace made = new MadeTrace(17);
        made.strokes = 0;
        made.bleedS = 0;
        assertTrue(TraceSegmenter.segment(made.make()).isEmpty());
        assertTrue(
                TraceSegmenter.segment(Trace.of(new double[0], new double[0])).isEmpty());
        assertTrue(TraceSegmenter.segment(Trace.of(new double[] {0}, new double[] {1e7}))
                .isEmpty());
    }

    @Test
    void settlingLeavesAtLeastTwoThirdsToTheHold() {
        for (int seed = 1; seed <= 30; seed++) {
            HoldTest test = TraceSegmenter.segment(random(seed).make()).get(0);
            double settling =
                    test.phase(Phase.SETTLING).map(PhaseSpan::durationS).orElse(0.0);
            double hold = test.phase(Phase.HOLD).orElseThrow().durationS();
            assertTrue(settling <= 0.51 * hold, "seed " + seed + ": " + settling + " s of " + hold);
        }
    }
}
