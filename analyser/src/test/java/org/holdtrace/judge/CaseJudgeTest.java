package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.holdtrace.judge.CaseFindings.ElementFinding;
import org.holdtrace.judge.CaseFindings.Standing;
import org.holdtrace.judge.CaseFindings.Status;
import org.holdtrace.leak.Law;
import org.junit.jupiter.api.Test;

class CaseJudgeTest {
    private static final String DRY = """
            "elements": [ { "name": "rod seal", "seen": "dry" }, { "name": "hose A", "seen": "dry" },
                          { "name": "hose B", "seen": "dry" } ],
            """;

    private static MeasuredTest port(String port, double leak) {
        return Cases.measured(
                Cases.test("port " + port, "port " + port, List.of(), List.of()), leak, 0.05, Law.LAMINAR);
    }

    private static MeasuredTest boreSide(double leak) {
        return Cases.measured(
                Cases.test("bore side", "bore side", List.of("rod side"), List.of()), leak, 0.01, Law.LAMINAR);
    }

    private static ElementFinding of(CaseFindings findings, String name) {
        return findings.elements().stream()
                .filter(each -> each.element().name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void nothingIsDecidedWhileAPartIsNotTested() throws IOException {
        CaseFile file = Cases.of("single cylinder", DRY);
        assertEquals(Standing.OPEN, CaseJudge.judge(file, List.of()).standing());
        MeasuredTest without = Cases.measured(
                Cases.test("relief out", "port A", List.of(), List.of("port relief A")), 1.0, 0.05, Law.LAMINAR);
        assertEquals(
                Standing.OPEN,
                CaseJudge.judge(file, List.of(port("A", 12), without, port("B", 1.0)))
                        .standing());
        CaseFindings all = CaseJudge.judge(file, List.of(port("A", 12), without, port("B", 1.0), boreSide(0.02)));
        assertEquals(Standing.DECIDED, all.standing(), all.summary().toString());
        assertEquals(List.of(), all.next());
    }

    @Test
    void aLimitThatCannotBeCarriedToTheOilOfTheTestsIsSaidToStandAsItIs() throws IOException {
        String function = Cases.FUNCTION.replace("12 cm3/min", "12 cm3/min at 100 bar, 40 degC");
        String said = "The limit of spool A and spool B is stated at an oil temperature, and is not carried";
        String oil = "\"oilGrade\": \"ISO VG 46\",";
        for (String more : List.of("", oil, oil + " \"referenceTemperature\": \"20 degC\",")) {
            CaseFile file = Cases.read(Cases.text("single cylinder", function, more));
            boolean cautioned =
                    CaseJudge.judge(file, List.of()).cautions().stream().anyMatch(caution -> caution.startsWith(said));
            assertEquals(!more.contains("referenceTemperature"), cautioned, more);
        }
    }

    @Test
    void aReliefSetBelowTheLoadOpensAsItShould() throws IOException {
        String function = Cases.FUNCTION.replace("180 bar", "90 bar");
        List<String> cautions = CaseJudge.judge(
                        Cases.read(Cases.text("single cylinder", function, DRY)), List.of(port("A", 9)))
                .cautions();
        assertTrue(
                cautions.contains("port relief A is set to 90 bar, below the 100 bar of the load: there it opens as it"
                        + " should, and what it lets through is no wear. Check the setting."),
                cautions.toString());
    }

    @Test
    void aComplaintThatNothingTestedExplainsKeepsSuspicionOnWhatWasOnlyLookedAt() throws IOException {
        CaseFindings findings = CaseJudge.judge(
                Cases.of("single cylinder", DRY), List.of(port("A", 1.0), port("B", 1.0), boreSide(0.02)));
        assertEquals(Status.UNDECIDED, of(findings, "hose A").status());
        assertEquals(Standing.OPEN, findings.standing());
    }

    @Test
    void anImprobablePartThatNobodyTestedKeepsTheCaseOpen() throws IOException {
        String rare =
                DRY.replace("\"elements\": [", "\"elements\": [ { \"name\": \"piston seal\", \"prior\": \"0.01 %\" },");
        CaseFindings findings =
                CaseJudge.judge(Cases.of("single cylinder", rare), List.of(port("A", 1.0), port("B", 1.0)));
        assertEquals(Status.NOT_TESTED, of(findings, "piston seal").status());
        assertEquals(Standing.OPEN, findings.standing());
        assertEquals(List.of("piston seal"), findings.notTested());
    }

    @Test
    void aPersonMayStopAndWhatIsNotTestedIsSaid() throws IOException {
        CaseFindings findings = CaseJudge.judge(
                Cases.of("single cylinder", DRY + "\"stopped\": \"the relief valve is changed first\","),
                List.of(port("A", 1.0)));
        assertEquals(Standing.STOPPED, findings.standing());
        assertEquals(List.of(), findings.next());
        assertTrue(
                findings.summary()
                        .contains(
                                "Not tested, and so not cleared: spool B, port relief B, anti-cavitation B and piston seal."),
                findings.summary().toString());
    }

    @Test
    void whatIsHiddenBehindALargerLeakIsNotCleared() throws IOException {
        // The hose may lose 0.05 cm³/min; a spool that loses 1 cm³/min beside it hides that.
        CaseFile file = Cases.of("single cylinder", "");
        CaseTest joined = new CaseTest(
                "all of A",
                "a.hold",
                1,
                "port A",
                List.of("bore side"),
                List.of("rod side"),
                List.of(),
                List.of(),
                OptionalDouble.empty());
        CaseFindings findings = CaseJudge.judge(file, List.of(Cases.measured(joined, 1.0, 0.05, Law.LAMINAR)));
        assertEquals(Status.CLEARED, of(findings, "spool A").status());
        assertEquals(Status.UNDECIDED, of(findings, "hose A").status());
    }

    @Test
    void twoSuspectsAndOneClearedLeaveTheOther() throws IOException {
        CaseFile file =
                Cases.read(Cases.text("load-holding valve", Cases.FUNCTION + ", \"centre\": \"open to tank\"", ""));
        CaseTest without = new CaseTest(
                "seal alone",
                "s.hold",
                1,
                "bore side",
                List.of(),
                List.of("rod side", "behind the valve A"),
                List.of(),
                List.of("load-holding valve"),
                OptionalDouble.empty());
        CaseFindings before = CaseJudge.judge(file, List.of());
        CaseFindings after = CaseJudge.judge(file, List.of(Cases.measured(without, 0, 0.01, Law.LAMINAR)));
        // By hand: before, P(valve) = 0.06 / (1 - 0.95 * 0.95 * 0.94); with the seal cleared 0.06 / (0.06 + 0.05 *
        // 0.94).
        double none = 0.95 * 0.94;
        assertEquals(0.06 / (1 - 0.95 * none), of(before, "load-holding valve").probability(), 1e-9);
        assertEquals(
                0.06 / (0.06 + 0.05 * 0.94), of(after, "load-holding valve").probability(), 1e-3);
        assertEquals(Status.CLEARED, of(after, "piston seal").status());
    }

    @Test
    void aFindingThatRestsOnPriorsSaysSo() throws IOException {
        CaseFindings findings = CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(port("A", 12.0)));
        assertTrue(of(findings, "port relief A").lowest()
                < of(findings, "port relief A").highest());
        CaseFindings near = CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(boreSide(0.222)));
        ElementFinding seal = of(near, "piston seal");
        assertTrue(seal.probability() > 0.9 && seal.restsOnPriors(), seal.toString());
        assertTrue(
                near.cautions().stream().anyMatch(caution -> caution.contains("rests on how often such parts fail")),
                near.cautions().toString());
    }

    @Test
    void testsThatContradictOneAnotherArePointedOut() throws IOException {
        MeasuredTest less = Cases.measured(
                Cases.test("relief out", "port A", List.of(), List.of("port relief A")), 9, 0.1, Law.ORIFICE);
        CaseFindings findings = CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(port("A", 3), less));
        assertEquals(1, findings.contradictions().size());
        String said = findings.contradictions().get(0).said();
        assertTrue(
                said.startsWith(
                        "\"relief out\" and \"port A\" contradict one another: the second pressed all the first did"
                                + " and more, and yet lost less"),
                said);
        assertTrue(findings.cautions().contains(said));
    }

    @Test
    void whatATestClearedIsSaidOnce() throws IOException {
        CaseFindings findings = CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(port("A", 1.0)));
        assertEquals(
                List.of(
                        "1.000 cm³/min at 100 bar (0.902 to 1.098) through spool A, port relief A and anti-cavitation A"
                                + " together; law: laminar, as through a clearance.",
                        "Clears spool A, port relief A and anti-cavitation A."),
                findings.tests().get(0).said());
    }

    @Test
    void limitsAreCarriedToTheConditionsOfTheCase() throws IOException {
        // LK-01, LK-09: a clearance in proportion to pressure and against viscosity, a seat with the root of pressure.
        String function = Cases.FUNCTION
                .replace("12 cm3/min", "12 cm3/min at 200 bar")
                .replace("4 cm3/min", "4 cm3/min at 200 bar");
        CaseFindings findings = CaseJudge.judge(Cases.read(Cases.text("single cylinder", function, "")), List.of());
        assertEquals(6, of(findings, "spool A").limitM3PerS() / Cases.CM3_PER_MIN, 1e-9);
        assertEquals(4 / Math.sqrt(2), of(findings, "port relief A").limitM3PerS() / Cases.CM3_PER_MIN, 1e-9);
    }

    @Test
    void aSpoolThatLosesNextToNothingIsCleared() throws IOException {
        CaseFindings findings = CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(port("A", 0.02)));
        assertEquals(Status.CLEARED, of(findings, "spool A").status());
        assertEquals(0, of(findings, "spool A").probability(), 1e-6);
    }

    @Test
    void aStreamBesideAPartThatIsMeasuredToAThousandthOfIt() throws IOException {
        MeasuredTest allOfA =
                Cases.measured(joined("all of A", "port A", "bore side", "rod side"), 100_000, 100, Law.ORIFICE);
        MeasuredTest seal = Cases.measured(
                Cases.test("bore side", "bore side", List.of("rod side"), List.of()), 0.01, 0.0001, Law.LAMINAR);
        CaseFindings findings = CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(allOfA, seal));
        assertEquals(Status.CLEARED, of(findings, "piston seal").status());
        assertTrue(findings.probabilityNoneOver() < 1e-6);
    }

    @Test
    void testsThatCannotAllBeRightArePointedOutThoughNoTwoOfThemContradict() throws IOException {
        MeasuredTest spool = Cases.measured(
                Cases.test("both out", "port A", List.of(), List.of("port relief A", "anti-cavitation A")),
                1.0,
                0.02,
                Law.LAMINAR);
        MeasuredTest reliefOut = Cases.measured(
                Cases.test("relief out", "port A", List.of(), List.of("port relief A")), 2.0, 0.02, Law.LAMINAR);
        MeasuredTest checkOut = Cases.measured(
                Cases.test("check out", "port A", List.of(), List.of("anti-cavitation A")), 2.0, 0.02, Law.LAMINAR);
        CaseFindings findings =
                CaseJudge.judge(Cases.of("single cylinder", DRY), List.of(spool, reliefOut, checkOut, port("A", 9.0)));
        assertEquals(List.of(), findings.contradictions());
        assertTrue(
                findings.cautions()
                        .contains(
                                "\"both out\", \"relief out\", \"check out\" and \"port A\" cannot be right as they stand:"
                                        + " whatever the parts in them leak does not add up to what they gave. Something differed"
                                        + " that the case does not say. Repeat them; until then their intervals are widened."),
                findings.cautions().toString());
        findings.elements().forEach(element -> assertTrue(element.probability() >= 0, element.toString()));
    }

    @Test
    void testsOfTheWholeCircuitThatOverlapInManyWaysAreWeighedTogether() throws IOException {
        MeasuredTest reliefOut = Cases.measured(
                Cases.test("relief out", "port A", List.of(), List.of("port relief A")), 1.0, 0.05, Law.LAMINAR);
        MeasuredTest checkOut = Cases.measured(
                Cases.test("check out", "port A", List.of(), List.of("anti-cavitation A")), 12, 0.4, Law.ORIFICE);
        MeasuredTest allOfA =
                Cases.measured(joined("all of A", "port A", "bore side", "rod side"), 12.2, 0.4, Law.ORIFICE);
        MeasuredTest allOfB =
                Cases.measured(joined("all of B", "port B", "rod side", "bore side"), 1.0, 0.05, Law.LAMINAR);
        CaseFindings findings = CaseJudge.judge(
                Cases.of("single cylinder", DRY),
                List.of(port("A", 12.1), reliefOut, checkOut, allOfA, boreSide(0.02), allOfB));
        assertTrue(
                findings.cautions().stream().noneMatch(caution -> caution.contains("is not weighed")),
                findings.cautions().toString());
        assertEquals(Status.OVER, of(findings, "port relief A").status());
        assertEquals(Status.CLEARED, of(findings, "spool B").status());
    }

    private static CaseTest joined(String name, String node, String with, String open) {
        return new CaseTest(
                name,
                name + ".hold",
                1,
                node,
                List.of(with),
                List.of(open),
                List.of(),
                List.of(),
                OptionalDouble.empty());
    }

    /** Near a limit three parts together are doubtful sooner than each of them alone. */
    @Test
    void thatAllClearedPartsAreInOrderIsAsSureAsAnyVerdict() throws IOException {
        CaseFile file = Cases.of("single cylinder", DRY);
        boolean refused = false;
        for (double leak = 3; leak < 5; leak += 0.05) {
            CaseFindings findings = CaseJudge.judge(file, List.of(port("A", leak)));
            assertTrue(
                    findings.probabilityClearedOver() <= 0.025,
                    "at " + leak + " one of the cleared: " + findings.probabilityClearedOver());
            refused |= findings.elements().stream()
                    .anyMatch(each -> each.status() == Status.UNDECIDED && each.highest() <= 0.025);
        }
        assertTrue(refused, "no part that alone would have been cleared was left undecided");
    }

    @Test
    void everyPartOfEveryMachineIsNamedInTheSummary() {
        for (int index = 0; index < 20; index++) {
            InventedMachine machine = InventedMachine.draw(new SplittableRandom(index), index, 4);
            List<MeasuredTest> tests = new ArrayList<>();
            CaseFindings findings = CaseJudge.judge(machine.file(), tests);
            while (tests.size() < 3 && !findings.next().isEmpty()) {
                PlannedTest next = findings.next().get(0);
                tests.add(machine.measure(next.test(), next.reach()));
                findings = CaseJudge.judge(machine.file(), tests);
                String said = String.join(" ", findings.summary());
                findings.elements()
                        .forEach(each -> assertTrue(said.contains(each.element().name()), each + " in " + said));
            }
        }
    }

    @Test
    void aTestOfMorePartsThanCanBeReckonedWithIsNotProposedAndSaidNotToBeWeighed() throws IOException {
        StringBuilder reliefs = new StringBuilder();
        for (int i = 0; i < 20; i++) {
            reliefs.append("{ \"name\": \"relief " + i
                    + "\", \"kind\": \"port relief valve\", \"from\": \"rail\", \"limit\": \"3 cm3/min\" }, ");
        }
        CaseFile file = Cases.read("""
                { "machine": "Press 9", "complaint": { "actuator": "lift", "direction": "retracts" },
                  "circuit": { "nodes": [ { "name": "rail", "access": "5 min", "volume": "20 cm3" },
                               { "name": "bore", "access": "5 min", "volume": "20 cm3" }, { "name": "rod", "access": "5 min", "volume": "20 cm3" } ],
                    "elements": [ %s { "name": "seal", "kind": "piston seal", "from": "bore", "to": "rod", "limit": "1 cm3/min" } ],
                    "cylinders": [ { "name": "lift", "bore": "80 mm", "rod": "45 mm", "stroke": "500 mm", "boreNode": "bore",
                                     "rodNode": "rod" } ] },
                  "referencePressure": "100 bar",
                  "testLine": { "ratings": [ { "part": "hose", "pressure": "250 bar" } ], "volume": "20 cm3" } }
                """.formatted(reliefs));
        MeasuredTest rail =
                Cases.measured(Cases.test("the rail", "rail", List.of(), List.of()), 2.0, 0.05, Law.LAMINAR);
        CaseFindings findings = CaseJudge.judge(file, List.of(rail));
        assertTrue(
                findings.next().stream().noneMatch(test -> test.reach().direct().size() > 12));
        assertTrue(
                findings.cautions()
                        .contains(
                                "\"the rail\" is not weighed: it has too many parts in it, or overlaps with the other tests"
                                        + " in too many ways, for all to be reckoned with together. What it showed stands above."),
                findings.cautions().toString());
    }
}
