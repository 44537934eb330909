package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.holdtrace.session.TestSetup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How far to pump, how much that takes, and what comes first. */
class SizingTest {
    private static final String SUSPECT_SEAL = "\"elements\": [ { \"name\": \"piston seal\", \"prior\": \"40 %\" } ],";

    private static List<PlannedTest> planned(CaseFile file) {
        return CaseJudge.judge(file, List.of()).next();
    }

    private static PlannedTest of(CaseFile file, String name) {
        return planned(file).stream()
                .filter(test -> test.test().name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    /** Whatever is rated lowest is never pumped above, and the plan says what it was. */
    @ParameterizedTest
    @CsvSource({
        "loadPressure, 250 bar, 200 bar, 95, the pressure of the load",
        "ratedPressure, 82 bar, 250 bar, 80, the rated pressure at port A (82 bar)",
        "reliefSetting, 70 bar, 250 bar, 60, 90 % of the setting of port relief A (70 bar)",
        "hose, 61 bar, 250 bar, 60, the rated pressure of the hose (61 bar)",
        "adapter, 58 bar, 250 bar, 55, the rated pressure of the adapter (58 bar)",
        "transducer, 40 bar, 250 bar, 40, the range of the transducer (40 bar)"
    })
    void neverAboveTheLowestThingInTheWay(String what, String low, String high, double bar, String from)
            throws IOException {
        String function = "\"name\": \"lift\", \"bore\": \"80 mm\", \"rod\": \"45 mm\", \"stroke\": \"500 mm\","
                + " \"spoolLimit\": \"12 cm3/min\", \"seatLimit\": \"4 cm3/min\", \"reliefSetting\": \"%s\","
                + " \"ratedPressure\": \"%s\"";
        String text = """
                { "machine": "Press 9",
                  "complaint": { "actuator": "lift", "direction": "retracts", "loadPressure": "95 bar" },
                  "circuit": { "template": "single cylinder", "functions": [ { %s } ] },
                  "referencePressure": "95 bar",
                  "testLine": { "ratings": [ { "part": "hose", "pressure": "%s" },
                                             { "part": "adapter", "pressure": "%s" } ],
                                "volume": "20 cm3", "transducerMax": "%s" } }
                """.formatted(
                        function.formatted(
                                what.equals("reliefSetting") ? low : high, what.equals("ratedPressure") ? low : high),
                        what.equals("hose") ? low : high,
                        what.equals("adapter") ? low : high,
                        what.equals("transducer") ? low : high);
        CaseFile file = Cases.read(text);

        PlannedTest test = of(file, "press port A");

        assertEquals(bar, test.pressurePa() / 1e5, 1e-9);
        assertEquals(from, test.pressureFrom());
        assertFalse(planned(file).isEmpty());
    }

    /**
     * The oil to pump by hand: 60 cm³ in port and line at an isothermal modulus of 1.55 GPa (ISO VG 46 at 20 °C, BM-04)
     * and 0.01 cm³/bar of hose take 0.387 + 1.0 cm³ for 100 bar, and 0.5 % of air, 0.3 cm³ at atmosphere.
     */
    @Test
    void theOilToPumpIsWhatComplianceAndAirTake() throws IOException {
        PlannedTest test = of(Cases.of("single cylinder", "\"oilGrade\": \"ISO VG 46\","), "press port A");
        assertEquals(0.387 + 1.0 + 0.3, test.pumpedM3() * 1e6, 0.03);
    }

    @Test
    void aPortIsTestedBeforeACylinderAndTheComplaintsSideBeforeTheOther() throws IOException {
        List<PlannedTest> tests = planned(Cases.of("single cylinder", ""));
        assertEquals("press port A", tests.get(0).test().name());
        List<String> names = tests.stream().map(test -> test.test().name()).toList();
        assertTrue(
                names.indexOf("press bore side") < 0
                        || names.indexOf("press port A") < names.indexOf("press bore side"),
                names.toString());
        for (int i = 1; i < tests.size(); i++) {
            assertTrue(tests.get(i - 1).worthPerSecond() >= tests.get(i).worthPerSecond());
        }
    }

    @Test
    void aTestWhoseAnswerIsKnownIsWorthNothing() {
        assertEquals(0, Planner.entropyBits(0), 0);
        assertEquals(0, Planner.entropyBits(1), 0);
        assertEquals(1, Planner.entropyBits(0.5), 1e-12);
        // Binary entropy at 0.11 is 0.4999 bit: C. E. Shannon, A Mathematical Theory of Communication (1948), fig. 7;
        // the number from memory.
        assertEquals(0.4999, Planner.entropyBits(0.11), 0.0002);
    }

    /** The far side of a piston is never shut: that would multiply the pressure there by the ratio of the areas. */
    @Test
    void noPlanShutsTheFarSideOfAPiston() throws IOException {
        for (String template : List.of("single cylinder", "load-holding valve", "pilot-check clamp")) {
            Circuit circuit = Cases.of(template, "").circuit();
            for (CaseTest test : Planner.arrangements(circuit)) {
                boolean bore =
                        test.pressurised().equals("bore side") || test.joined().contains("bore side");
                boolean rod =
                        test.pressurised().equals("rod side") || test.joined().contains("rod side");
                assertFalse(bore && rod, test.name());
                assertFalse(bore && test.blocked().contains("rod side"), test.name());
                assertFalse(rod && test.blocked().contains("bore side"), test.name());
            }
        }
    }

    @Test
    void aPistonThatIsPressedIsCautionedAbout() throws IOException {
        PlannedTest test = of(Cases.of("single cylinder", SUSPECT_SEAL), "press bore side");
        // Areas by hand: 80 mm bore, 45 mm rod: 50.27 cm² over 34.36 cm² is 1.5.
        assertEquals(
                List.of(
                        "The pump moves the rod of lift: have it fully out, against its own stop, and the load secured so"
                                + " that nothing can move, before the first stroke.",
                        "Never shut rod side during this test: a moving piston would multiply the pressure there by 1.5."
                                + " Leave it open into a container and watch from a distance whether oil comes."),
                test.cautions());
    }

    @Test
    void thePlanForTheLoggerSaysWhatIsKnown() throws IOException {
        TestSetup plan = of(Cases.of("single cylinder", ""), "press port A").plan();
        assertEquals("Press 9", plan.machine().orElseThrow());
        assertEquals(
                "spool A, port relief A and anti-cavitation A", plan.component().orElseThrow());
        assertEquals(60e-6, plan.trappedVolumeM3().orElseThrow().value(), 1e-12);
        assertEquals(180e5, plan.reliefSettingPa().orElseThrow().value(), 1e-3);
        assertEquals(4 * Cases.CM3_PER_MIN, plan.limitM3PerS().orElseThrow().value(), 5e-12);
    }
}
