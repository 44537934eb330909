package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.holdtrace.leak.Law;
import org.holdtrace.leak.LeakLaw;
import org.junit.jupiter.api.Test;

class LeaksTest {
    private static final LeakLaw GAP = new LeakLaw.Laminar(1e-15);
    private static final LeakLaw HOLE = new LeakLaw.Orifice(3e-12);
    private static final LeakLaw RELIEF = new LeakLaw.Threshold(1e-14, 95e5);
    private static final LeakLaw TRACE_OF_A_GAP = new LeakLaw.Laminar(1e-18);

    private static Law law(LeakLaw component, LeakLaw line) {
        return new Leaks(component, line).law();
    }

    @Test
    void flowsAdd() {
        assertEquals(GAP.flow(5e6) + HOLE.flow(5e6), new Leaks(GAP, HOLE).flow(5e6));
        assertEquals(GAP.slope(5e6) + HOLE.slope(5e6), new Leaks(GAP, HOLE).slope(5e6));
    }

    @Test
    void lawsAddWhereTheyCan() {
        assertEquals(Law.NONE, law(LeakLaw.none(), LeakLaw.none()));
        assertEquals(Law.LAMINAR, law(GAP, GAP));
        assertEquals(Law.LAMINAR, law(LeakLaw.none(), GAP));
        assertEquals(Law.ORIFICE, law(HOLE, LeakLaw.none()));
        assertEquals(Law.MIXED, law(HOLE, GAP));
        assertEquals(Law.THRESHOLD, law(RELIEF, GAP));
    }

    @Test
    void aTraceOfALeakDoesNotChangeTheLaw() {
        assertEquals(Law.ORIFICE, law(HOLE, TRACE_OF_A_GAP));
        assertEquals(Law.ORIFICE, law(TRACE_OF_A_GAP, HOLE));
        assertEquals(Law.LAMINAR, law(LeakLaw.none(), TRACE_OF_A_GAP));
    }
}
