package org.holdtrace.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdtrace.acquire.LiveLeak.Verdict;
import org.holdtrace.panel.PanelSign;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.Test;

class SignBoardTest {
    @Test
    void enoughIsSaidOfALineUnderPressureOnly() {
        assertTrue(SignBoard.enough(Phase.HOLD, Verdict.ENOUGH));
        assertTrue(SignBoard.enough(Phase.HOLD, Verdict.NO_MORE_TO_LEARN));
        assertFalse(SignBoard.enough(Phase.HOLD, Verdict.WAIT));
        assertFalse(SignBoard.enough(Phase.BLEED_OFF, Verdict.ENOUGH));
        assertFalse(SignBoard.enough(Phase.REST, Verdict.ENOUGH));
    }

    @Test
    void aFaultComesBeforeEverythingElse() {
        assertEquals(PanelSign.RECORDING_FAULT, SignBoard.sign(true, true, true, Phase.HOLD, Verdict.ENOUGH));
        assertEquals(PanelSign.SENSOR_FAULT, SignBoard.sign(false, true, true, Phase.HOLD, Verdict.ENOUGH));
        assertEquals(PanelSign.ENOUGH, SignBoard.sign(false, false, true, Phase.HOLD, Verdict.ENOUGH));
    }
}
