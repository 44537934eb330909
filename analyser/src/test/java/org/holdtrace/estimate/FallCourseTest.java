package org.holdtrace.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.holdtrace.estimate.HoldTestResult.Outcome;
import org.junit.jupiter.api.Test;

/** A fall that quickens fits no leak that grows with pressure: what passes is written down, nothing of it is the estimator's. */
class FallCourseTest {
    private static HoldTestResult result(DoubleUnaryOperator cm3PerMin) {
        ClosedForm form = Workshop.form();
        form.holdS = 90;
        return Results.of(
                form.make(Workshop.line(p -> cm3PerMin.applyAsDouble(p) / 60)),
                Workshop.known().limit("0.05 cm3/min"));
    }

    private static boolean fallsFaster(HoldTestResult result) {
        return result.cautions().stream().anyMatch(c -> c.code().equals("falls-faster"));
    }

    @Test
    void aSeatThatPressurePressesShutIsNamedAndNotJudged() {
        HoldTestResult result = result(p -> 3 * Math.sqrt(p / 100) * Math.exp((100 - p) / 30) / 10);
        assertTrue(fallsFaster(result));
        assertEquals(Outcome.UNDECIDED, result.verdict().orElseThrow().outcome());
    }

    @Test
    void noLeakThatGrowsWithPressureIsTakenForOne() {
        assertFalse(fallsFaster(result(p -> 2 * p / 100)));
        assertFalse(fallsFaster(result(p -> 2 * Math.sqrt(Math.max(0, p) / 100))));
        assertFalse(fallsFaster(result(p -> 0.05 * Math.max(0, p - 60))));
        assertFalse(fallsFaster(result(p -> 0)));
    }
}
