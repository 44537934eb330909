package org.holdtrace.panel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The patterns against what a person can tell apart; thresholds: common practice, no source. */
class PanelPatternTest {
    private static final int SLOTS = PanelPattern.SLOTS;

    private static int differing(PanelPattern a, PanelPattern b, int shift) {
        int slots = 0;
        for (int i = 0; i < SLOTS; i++) {
            boolean same = true;
            for (int lamp = 0; lamp < 3; lamp++) {
                same &= a.lamp(lamp).charAt(i) == b.lamp(lamp).charAt((i + shift) % SLOTS);
            }
            slots += same ? 0 : 1;
        }
        return slots;
    }

    /** All lamps as one: what somebody sees who cannot tell where the light is. */
    private static String light(PanelPattern pattern) {
        StringBuilder light = new StringBuilder();
        for (int i = 0; i < SLOTS; i++) {
            boolean lit = false;
            for (int lamp = 0; lamp < 3; lamp++) {
                lit |= pattern.lamp(lamp).charAt(i) == '#';
            }
            light.append(lit ? '#' : '.');
        }
        return light.toString();
    }

    private static int litLamps(PanelPattern pattern) {
        int lamps = 0;
        for (int lamp = 0; lamp < 3; lamp++) {
            lamps |= pattern.lamp(lamp).indexOf('#') >= 0 ? 1 << lamp : 0;
        }
        return lamps;
    }

    private static boolean sameRhythm(String a, String b) {
        return (a + a).contains(b);
    }

    @Test
    void everySignHasAWholePattern() {
        for (PanelSign sign : PanelSign.values()) {
            PanelPattern pattern = PanelPattern.of(sign);
            assertNotNull(pattern, sign.name());
            for (int lamp = 0; lamp < 3; lamp++) {
                assertEquals(SLOTS, pattern.lamp(lamp).length(), sign.name());
            }
            assertEquals(SLOTS, pattern.beep().length());
            assertTrue(light(pattern).contains("#"), sign + " is never dark: a dark panel means no power");
            assertEquals(pattern.beep().indexOf('#') < 0, pattern.sounds().isEmpty(), sign.name());
        }
    }

    @TestFactory
    Stream<DynamicTest> anyTwoSignsDifferByWhichLampsLightOrClearlyByRhythm() {
        List<DynamicTest> pairs = new ArrayList<>();
        for (PanelSign a : PanelSign.values()) {
            for (PanelSign b : PanelSign.values()) {
                if (a.compareTo(b) < 0) {
                    pairs.add(DynamicTest.dynamicTest(a + " and " + b, () -> tellApart(a, b)));
                }
            }
        }
        return pairs.stream();
    }

    private static void tellApart(PanelSign first, PanelSign second) {
        PanelPattern a = PanelPattern.of(first);
        PanelPattern b = PanelPattern.of(second);
        // Nobody knows when the cycle began: the least difference over all shifts counts.
        int least = SLOTS;
        for (int shift = 0; shift < SLOTS; shift++) {
            least = Math.min(least, differing(a, b, shift));
        }
        assertTrue(least >= 4, "differ in " + least + " slots of 16 only");
        // Position alone or rhythm alone may be all that is seen.
        assertTrue(litLamps(a) != litLamps(b) || !sameRhythm(light(a), light(b)));
        boolean faultAndNot = (litLamps(a) == 4) != (litLamps(b) == 4);
        assertTrue(!faultAndNot || !sameRhythm(light(a), light(b)), "a fault has a rhythm of its own too");
    }

    @Test
    void onlyFaultsLightTheRightLampAlone() {
        for (PanelSign sign : PanelSign.values()) {
            boolean fault = sign == PanelSign.SENSOR_FAULT || sign == PanelSign.RECORDING_FAULT;
            assertEquals(fault, litLamps(PanelPattern.of(sign)) == 4, sign.name());
        }
    }

    @Test
    void thePatternPlaysSlotBySlotAndTheBeeperInItsCycles() {
        PanelPattern enough = PanelPattern.of(PanelSign.ENOUGH);
        long slot = PanelPattern.SLOT_NS;
        assertTrue(enough.isLit(0, 0) && !enough.isLit(0, 2 * slot) && enough.isLit(2, 3 * slot + 1));
        assertTrue(enough.isLit(1, SLOTS * slot), "and again after two seconds");
        assertTrue(enough.beeps(0));
        assertTrue(!enough.beeps(SLOTS * slot) && enough.beeps(5 * SLOTS * slot), "every fifth cycle");
        PanelPattern settling = PanelPattern.of(PanelSign.SETTLING);
        assertTrue(settling.beeps(0) && !settling.beeps(5 * SLOTS * slot), "once");
    }
}
