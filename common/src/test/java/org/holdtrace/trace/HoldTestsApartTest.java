package org.holdtrace.trace;

import static org.holdtrace.trace.TraceSegmenterTest.RATES_HZ;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Where one hold test ends and the next begins: let-offs, rests amid the pump-up, topping up. Against traces made here. */
class HoldTestsApartTest {
    @Test
    void holdsEndWhereAValveWasOpenedGently() {
        double[] leaksPerS = {0, 1 / 300.0, 1 / 80.0};
        int found = 0;
        int cases = 0;
        StringBuilder wrong = new StringBuilder();
        for (double rateHz : RATES_HZ) {
            for (double leak : leaksPerS) {
                for (double openingS = 0.5; openingS < 10; openingS *= 2) {
                    MadeTrace made = new MadeTrace(cases + 1L);
                    made.rateHz = rateHz;
                    made.leakCm3PerSBar = leak * made.complianceCm3PerBar;
                    made.leakExponent = cases % 2 == 0 ? 1 : 0.5;
                    made.openingS = openingS;
                    made.bleedS = 2.5;
                    made.tests = 1 + cases % 2;
                    made.afterS = 25;
                    List<HoldTest> tests = TraceSegmenter.segment(made.make());
                    String about = rateHz + " Hz, leak " + leak + ", opening " + openingS + " s";
                    assertEquals(made.tests, tests.size(), about);
                    for (int i = 0; i < made.tests; i++) {
                        HoldTest test = tests.get(i);
                        assertEquals(14, test.strokes().size(), about);
                        assertTrue(test.phase(Phase.BLEED_OFF).isPresent(), about);
                        cases++;
                        double late = test.phase(Phase.HOLD).orElseThrow().toS() - made.holdEndS.get(i);
                        // In a fifth of the time an evenly opening valve has let off less than a hundredth.
                        boolean good = Math.abs(late) < 0.15 + 0.2 * openingS;
                        found += good ? 1 : 0;
                        wrong.append(good ? "" : "\n" + about + ": late by " + late);
                    }
                }
            }
        }
        assertTrue(found >= 0.95 * cases, found + " of " + cases + wrong);
    }

    @Test
    void nothingButALetOffEndsAHold() {
        double[] constantsS = {2, 5, 15, 60, 400};
        for (double rateHz : new double[] {50, 250, 860}) {
            for (double constantS : constantsS) {
                for (double exponent : new double[] {0.5, 1}) {
                    for (double aboveBar : new double[] {0, 60}) {
                        for (double swingBar : constantS < 60 ? new double[] {0} : new double[] {0, 15}) {
                            MadeTrace made = new MadeTrace(Math.round(rateHz + 7 * constantS));
                            made.rateHz = rateHz;
                            made.airCm3 = 0.5;
                            made.holdS = 200;
                            made.bleedS = 0;
                            made.leakCm3PerSBar = made.complianceCm3PerBar / constantS;
                            made.leakExponent = exponent;
                            made.leaksAboveBar = aboveBar;
                            made.swingBar = swingBar;
                            List<HoldTest> tests = TraceSegmenter.segment(made.make());
                            String about = rateHz + " Hz, " + constantS + " s, exponent " + exponent + ", above "
                                    + aboveBar + " bar, swing " + swingBar;
                            assertEquals(1, tests.size(), about);
                            assertFalse(tests.get(0).phase(Phase.BLEED_OFF).isPresent(), about);
                            assertEquals(
                                    made.holdEndS.get(0),
                                    tests.get(0).phase(Phase.HOLD).orElseThrow().toS(),
                                    0.2,
                                    about);
                        }
                    }
                }
            }
        }
    }

    @Test
    void aRestAmidThePumpUpIsNoHoldTestOfItsOwn() {
        for (double rateHz : RATES_HZ) {
            for (double constantS : new double[] {30, Double.POSITIVE_INFINITY}) {
                MadeTrace made = paused(rateHz, constantS, 6, 27);
                made.holdS = 60;
                List<HoldTest> found = TraceSegmenter.segment(made.make());
                assertEquals(1, found.size(), rateHz + " Hz, " + constantS + " s");
                HoldTest test = found.get(0);
                assertEquals(14, test.strokes().size(), rateHz + " Hz, " + constantS + " s");
                assertEquals(
                        made.trueStrokes.get(0)[0],
                        test.phase(Phase.PUMP_UP).orElseThrow().fromS(),
                        0.1);
                assertEquals(
                        made.trueStrokes.get(13)[1],
                        test.phase(Phase.PUMP_UP).orElseThrow().toS(),
                        0.1);
            }
        }
    }

    @Test
    void twoRestsAmidThePumpUpAreStillOneHoldTest() {
        // The first rest is longer than the second is: only from the hold at the end both are seen to be short.
        MadeTrace made = paused(200, Double.POSITIVE_INFINITY, 4, 30);
        made.anotherPauseAfter = 9;
        made.anotherPauseS = 24;
        made.holdS = 120;
        List<HoldTest> found = TraceSegmenter.segment(made.make());
        assertEquals(1, found.size());
        assertEquals(14, found.get(0).strokes().size());
    }

    @Test
    void aHoldBeforeMoreIsPumpedStaysAHoldTest() {
        for (double rateHz : RATES_HZ) {
            // As long as the one at a higher pressure; a minute of it; and the only one there is.
            for (double[] each : new double[][] {{30, 40, 0}, {65, 300, 0}, {30, 40, 1}}) {
                MadeTrace made = paused(rateHz, 500, 6, each[0]);
                made.holdS = each[1];
                made.endsInPumping = each[2] > 0;
                List<HoldTest> found = TraceSegmenter.segment(made.make());
                assertEquals(2, found.size(), rateHz + " Hz, " + each[0] + " s");
                assertEquals(7, found.get(0).strokes().size(), rateHz + " Hz");
                assertEquals(7, found.get(1).strokes().size(), rateHz + " Hz");
            }
        }
    }

    @Test
    void whatIsToppedUpIsAHoldTestOfItsOwn() {
        for (double rateHz : RATES_HZ) {
            MadeTrace made = paused(rateHz, 250, 11, 25);
            made.holdS = 120;
            List<HoldTest> found = TraceSegmenter.segment(made.make());
            assertEquals(2, found.size(), rateHz + " Hz");
            assertEquals(12, found.get(0).strokes().size(), rateHz + " Hz");
            assertEquals(2, found.get(1).strokes().size(), rateHz + " Hz");
        }
    }

    private static MadeTrace paused(double rateHz, double constantS, int after, double pauseS) {
        MadeTrace made = new MadeTrace(Math.round(rateHz));
        made.rateHz = rateHz;
        made.leakCm3PerSBar = made.complianceCm3PerBar / constantS;
        made.longPauseAfter = after;
        made.longPauseS = pauseS;
        return made;
    }
}
