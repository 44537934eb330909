package org.holdtrace.desk.look;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import javax.swing.KeyStroke;
import org.junit.jupiter.api.Test;

class KeysTest {
    @Test
    void onAMacCmdDoesWhatCtrlDoesElsewhere() {
        assertEquals(KeyStroke.getKeyStroke("meta O"), Keys.of("ctrl O", true));
        assertEquals(KeyStroke.getKeyStroke("ctrl LEFT"), Keys.of("ctrl LEFT", false));
        assertEquals(KeyStroke.getKeyStroke("shift B"), Keys.of("shift B", true));
        assertEquals("Cmd+O and Option+1", Keys.named("Ctrl+O and Alt+1", true));
        // As Java names them: "Mac OS X" to this day.
        assertTrue(Keys.isMac("Mac OS X"));
        assertFalse(Keys.isMac("Windows 11"));
    }

    @Test
    void plusHasMoreThanOneKey() {
        assertEquals(
                List.of("ctrl PLUS", "ctrl EQUALS", "ctrl ADD", "ctrl shift EQUALS", "ctrl shift PLUS"),
                Keys.same("ctrl PLUS"));
    }
}
