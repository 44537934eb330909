package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdtrace.acquire.LiveLeak.Verdict;
import org.holdtrace.panel.PanelSign;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.Test;

class SignBoardTest {
    private static boolean enough(boolean fault, boolean running, Phase phase, Verdict verdict) {
        return SignBoard.enough(SignBoard.sign(fault, false, running, phase, verdict));
    }

    @Test
    void enoughIsSaidOfALineUnderPressureThatIsBeingRecordedOnly() {
        assertTrue(enough(false, true, Phase.HOLD, Verdict.ENOUGH));
        assertTrue(enough(false, true, Phase.HOLD, Verdict.NO_MORE_TO_LEARN));
        assertFalse(enough(false, true, Phase.HOLD, Verdict.WAIT));
        assertFalse(enough(false, true, Phase.BLEED_OFF, Verdict.ENOUGH));
        assertFalse(enough(false, true, Phase.REST, Verdict.ENOUGH));
        assertFalse(enough(false, false, Phase.HOLD, Verdict.ENOUGH), "no session runs");
        assertFalse(enough(true, true, Phase.HOLD, Verdict.ENOUGH), "the session cannot be written");
    }

    @Test
    void withoutASessionNothingLooksLikeARecording() {
        for (Phase phase : new Phase[] {Phase.REST, Phase.PUMP_UP, Phase.PLATEAU, Phase.SETTLING, Phase.HOLD}) {
            assertEquals(PanelSign.READY, SignBoard.sign(false, false, false, phase, Verdict.ENOUGH), phase.toString());
        }
        assertEquals(
                "nothing is being recorded: pump, or start a session", SignBoard.advice(PanelSign.READY, Verdict.WAIT));
        assertEquals(PanelSign.LETTING_OFF, SignBoard.sign(false, false, false, Phase.BLEED_OFF, Verdict.WAIT));
    }

    @Test
    void aFaultComesBeforeEverythingElse() {
        assertEquals(PanelSign.RECORDING_FAULT, SignBoard.sign(true, true, true, Phase.HOLD, Verdict.ENOUGH));
        assertEquals(PanelSign.SENSOR_FAULT, SignBoard.sign(false, true, true, Phase.HOLD, Verdict.ENOUGH));
        assertEquals(PanelSign.ENOUGH, SignBoard.sign(false, false, true, Phase.HOLD, Verdict.ENOUGH));
    }
}
