package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.holdtrace.leak.Law;
import org.junit.jupiter.api.Test;

/** Drift against hand calculation: bore 80 mm is 50.265 cm², rod 45 mm 15.904 cm², the annulus 34.361 cm². */
class DriftJudgeTest {
    private static final double BORE_CM2 = Math.PI / 4 * 64;
    private static final double ANNULUS_CM2 = Math.PI / 4 * (64 - 20.25);
    private static final double ROD_CM2 = Math.PI / 4 * 20.25;

    private static DriftFinding drift(CaseFile file, MeasuredTest... tests) {
        return CaseJudge.judge(file, List.of(tests)).drift().orElseThrow();
    }

    private static MeasuredTest portA(double leak) {
        return Cases.measured(Cases.test("port A", "port A", List.of(), List.of()), leak, 0.2, Law.ORIFICE);
    }

    private static MeasuredTest boreSide(double leak) {
        return Cases.measured(
                Cases.test("bore side", "bore side", List.of("rod side"), List.of()), leak, 0.05, Law.LAMINAR);
    }

    @Test
    void speedIsLeakOverArea() throws IOException {
        DriftFinding drift = drift(Cases.of("single cylinder", ""), portA(10));
        // 10 cm³/min over 50.265 cm² is 1.9894 mm/min.
        assertEquals(1.9894, drift.speedMPerS() * 6e4, 0.0001);
        assertEquals((10 - 1.96 * 0.2) / BORE_CM2 * 10, drift.speedLower95() * 6e4, 1e-6);
        assertEquals(DriftFinding.Outcome.EXPLAINS, drift.outcome());
    }

    @Test
    void aSmallerLeakExplainsAPartAndATinyOneNothing() throws IOException {
        assertEquals(
                DriftFinding.Outcome.EXPLAINS_PART,
                drift(Cases.of("single cylinder", ""), portA(4)).outcome());
        assertEquals(
                DriftFinding.Outcome.CANNOT_EXPLAIN,
                drift(Cases.of("single cylinder", ""), portA(0.5)).outcome());
    }

    @Test
    void loadThatPullsStandsOnTheRingArea() throws IOException {
        String text = Cases.text("single cylinder", Cases.FUNCTION, "").replace("retracts", "extends");
        MeasuredTest portB = Cases.measured(Cases.test("port B", "port B", List.of(), List.of()), 6, 0.1, Law.ORIFICE);
        DriftFinding drift = drift(Cases.read(text), portB);
        assertEquals(6 / ANNULUS_CM2 * 10, drift.speedMPerS() * 6e4, 1e-6);
        assertTrue(
                drift.said().get(1).contains("A leaking piston seal alone can cause such a drift"),
                drift.said().toString());
    }

    /** With both ports shut a piston seal lets no oil go for good (AC-44), so its leak is not counted. */
    @Test
    void behindShutPortsThePistonSealIsNotCounted() throws IOException {
        CaseFile file = Cases.of("single cylinder", "");
        assertEquals(
                Optional.empty(), CaseJudge.judge(file, List.of(boreSide(9))).drift());
        assertEquals(List.of("port A"), drift(file, portA(10), boreSide(9)).tests());
    }

    @Test
    void whereTheOtherSideIsOpenToTankItIsCounted() throws IOException {
        CaseFile file =
                Cases.read(Cases.text("load-holding valve", Cases.FUNCTION + ", \"centre\": \"open to tank\"", ""));
        CaseTest test = new CaseTest(
                "bore side",
                "b.hold",
                1,
                "bore side",
                List.of(),
                List.of("rod side", "behind the valve A"),
                List.of(),
                List.of(),
                java.util.OptionalDouble.empty());
        assertEquals(
                9 / BORE_CM2 * 10,
                drift(file, Cases.measured(test, 9, 0.1, Law.LAMINAR)).speedMPerS() * 6e4,
                1e-6);
    }

    /**
     * Load F on the bore side alone makes p = F / A_bore; with the same pressure on both sides only the rod's area bears it:
     * p' = F / A_rod.
     */
    @Test
    void balancedPressureIsThatOfTheRodsArea() throws IOException {
        Cylinder cylinder = Cases.of("single cylinder", "").cylinder();
        double force = 100e5 * BORE_CM2 * 1e-4;
        assertEquals(force / (ROD_CM2 * 1e-4), DriftJudge.balancedPa(cylinder, 100e5), 1);
    }

    /**
     * By hand for a rod 250 mm out at 1.5 GPa: p2 = 316.05 bar; bore side 1256.6 cm³ by 216.05 bar gives 18.10 cm³, rod
     * side 859.0 cm³ by 316.05 bar 18.10 cm³; 36.20 cm³ over 15.904 cm² of rod are 22.76 mm.
     */
    @Test
    void theRodGoesInOnlyAsFarAsTheOilGivesWay() throws IOException {
        Cylinder cylinder = Cases.of("single cylinder", "").cylinder();
        assertEquals(22.76, DriftJudge.travelM(cylinder, 100e5, 0.250, 1.5e9) * 1e3, 0.02);
    }

    @Test
    void aReliefBelowTheBalancedPressureIsNamed() throws IOException {
        CaseFile file = Cases.of("single cylinder", "");
        List<String> said = drift(file, portA(10)).said();
        assertTrue(
                said.get(1).contains("That is above the 180 bar at which a port relief valve opens"), said.toString());
        CaseFile high = Cases.read(Cases.text("single cylinder", Cases.FUNCTION.replace("180 bar", "350 bar"), ""));
        List<String> other = drift(high, portA(10)).said();
        assertTrue(other.get(1).endsWith("it is not the cause of a drift that goes on."), other.toString());
    }

    @Test
    void noElementIsCountedTwice() throws IOException {
        MeasuredTest without = Cases.measured(
                Cases.test("port A without relief", "port A", List.of(), List.of("port relief A")),
                1,
                0.1,
                Law.LAMINAR);
        assertEquals(
                List.of("port A"),
                drift(Cases.of("single cylinder", ""), without, portA(10)).tests());
    }
}
