package org.holdtrace.desk.view;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class TimeWindowTest {
    private static final TimeWindow WHOLE = new TimeWindow(0, 100);

    @Test
    void zoomingKeepsTheTimeUnderThePointerInItsPlace() {
        assertEquals(new TimeWindow(30, 70), new TimeWindow(20, 100).zoomed(40, 0.5, WHOLE));
    }

    @Test
    void panningStopsAtTheEndsWithoutChangingTheLength() {
        assertEquals(new TimeWindow(80, 100), new TimeWindow(70, 90).panned(50, WHOLE));
        assertEquals(new TimeWindow(0, 20), new TimeWindow(10, 30).panned(-50, WHOLE));
    }

    @Test
    void zoomingOutEndsWithTheWholeTraceAndInAtAHundredthOfASecond() {
        assertEquals(WHOLE, new TimeWindow(10, 90).zoomed(50, 4, WHOLE));
        assertEquals(0.01, new TimeWindow(10, 10.02).zoomed(10.01, 0.001, WHOLE).durationS(), 1e-12);
    }
}
