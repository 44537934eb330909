package org.holdtrace.desk.view;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.FontMetrics;
import java.util.List;
import javax.swing.JLabel;
import org.holdtrace.desk.look.Theme;
import org.junit.jupiter.api.Test;

class RoomTest {
    @Test
    void theLargestTypeOnASmallScreenLeavesTheTraceHalfItsView() {
        Theme theme = new Theme(false, 300);
        // What tabs, menus and the line at the foot leave of 1366 by 768 at that size.
        Room room = Room.of(metrics(theme), 930, 390, true);
        assertTrue(room.isLow());
        assertFalse(room.showsResiduals());
        assertTrue(room.plot().getHeight() > 390 / 2.0, "only " + room.plot());
        assertTrue(room.plot().getMaxY() + room.line() < 390, "the times are below it");
    }

    @Test
    void withTypeOfTheUsualSizeThereIsRoomForAll() {
        Room room = Room.of(metrics(Theme.usual()), 500, 600, true);
        assertTrue(room.showsResiduals());
        assertTrue(room.residuals().getY() > room.plot().getMaxY());
        assertEquals(room.plot().getX(), room.residuals().getX());
        assertTrue(room.residuals().getMaxY() + 3 * room.line() < 600, "times and what the cursors read");
    }

    @Test
    void whatTheCursorsReadIsBrokenBetweenItsPartsAndOnlyThenBetweenWords() {
        FontMetrics metrics = metrics(Theme.usual());
        List<String> parts = List.of("Δt 9.2 s", "Δp -66 bar", "means a leak of 4.55 cm³/min");
        assertEquals(
                List.of("Δt 9.2 s   Δp -66 bar   means a leak of 4.55 cm³/min"), Cursors.lines(parts, metrics, 1000));
        int two = metrics.stringWidth("means a leak of 4.55 cm³/min");
        assertEquals(
                List.of("Δt 9.2 s   Δp -66 bar", "means a leak of 4.55 cm³/min"), Cursors.lines(parts, metrics, two));
        assertEquals(
                List.of("Δt 9.2 s", "Δp -66 bar", "means a leak", "of 4.55", "cm³/min"),
                Cursors.lines(parts, metrics, metrics.stringWidth("means a leak")));
    }

    private static FontMetrics metrics(Theme theme) {
        return new JLabel().getFontMetrics(theme.font(1));
    }
}
