package org.holdtrace.desk.classroom;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.holdtrace.session.TestSetup;
import org.holdtrace.trace.Phase;
import org.junit.jupiter.api.Test;

class LaneTest {
    private static final double STEP_PA = 2000;

    /** A line at rest whose reading moves by one step of the converter every three seconds. */
    private static Lane fed(double stepPa) {
        Lane lane = new Lane("bench", Verdicts.soFar(TestSetup::unknown));
        lane.setStep(stepPa);
        double[] timeS = new double[250 * 20];
        double[] pa = new double[timeS.length];
        for (int i = 0; i < timeS.length; i++) {
            timeS[i] = i / 250.0;
            pa[i] = 3e4 + STEP_PA * Math.floor(timeS[i] / 3);
        }
        lane.accept(timeS, pa, timeS.length);
        return lane;
    }

    @Test
    void aReadingThatMovesByOneStepOfTheConverterIsNoStrokeWhereTheStepIsKnown() {
        assertEquals(0, fed(STEP_PA).shown().strokes());
        assertEquals(Phase.REST, fed(STEP_PA).shown().phase());
        assertTrue(fed(0).shown().strokes() > 0, "without it nothing tells a step from a stroke");
    }
}
