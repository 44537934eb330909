package org.holdtrace.judge;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.List;
import org.holdtrace.session.InputException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CaseReaderTest {
    private static String refusal(String text) {
        return assertThrows(InputException.class, () -> Cases.read(text)).getMessage();
    }

    private static String withTest(String test) {
        return Cases.text("single cylinder", Cases.FUNCTION, "\"tests\": [ { " + test + " } ],");
    }

    @Test
    void everyFieldIsTaken() throws IOException {
        CaseFile file = Cases.read("""
                { "machine": "Press 9", "note": "invented", "oilGrade": "ISO VG 46", "stopped": "parts are here",
                  "complaint": { "actuator": "lift", "direction": "extends", "speed": "1.5 ± 0.1 mm/min",
                                 "load": "30 ± 2 kN", "rodOut": "200 mm", "oilTemperature": "45 degC" },
                  "circuit": { "template": "single cylinder", "functions": [ { "name": "lift", "bore": "80 mm",
                      "rod": "45 mm", "stroke": "500 mm", "spoolLimit": "12 cm3/min at 100 bar, 40 degC",
                      "seatLimit": "ISO 5208 rate D, DN 10", "reliefSetting": "180 bar", "ratedPressure": "250 bar",
                      "centre": "blocked" } ] },
                  "elements": [ { "name": "spool A", "prior": "4 %", "limit": "9 cm3/min" },
                                { "name": "rod seal", "seen": "wet" },
                                { "name": "port relief B", "setting": "150 bar", "canBeBlanked": "no" } ],
                  "nodes": [ { "name": "port A", "access": "5 min", "volume": "70 cm3", "ratedPressure": "210 bar" } ],
                  "referencePressure": "110 bar", "referenceTemperature": "45 degC",
                  "testLine": { "ratings": [ { "part": "hose", "pressure": "250 bar" } ], "volume": "20 cm3",
                      "compliance": "0.0075 cm3/bar", "pumpStroke": "0.45 cm3", "transducerMax": "250 bar",
                      "transducerAccuracy": "0.25 %", "lineCheck": "line.hold" },
                  "tests": [ { "name": "first", "file": "one.hold", "number": "2", "pressurised": "port A",
                               "joined": ["bore side"], "open": ["rod side"], "blanked": ["port relief A"],
                               "rodOut": "500 mm" } ] }
                """);

        assertEquals("parts are here", file.stopped().orElseThrow());
        double annulus = Math.PI / 4 * (0.080 * 0.080 - 0.045 * 0.045);
        assertEquals(
                30e3 / annulus, file.complaint().loadPressurePa().orElseThrow().value(), 1);
        assertEquals(
                2e3 / annulus, file.complaint().loadPressurePa().orElseThrow().standardUncertainty(), 1);
        Element spool = file.circuit().element("spool A");
        assertEquals(0.04, spool.prior(), 1e-12);
        assertTrue(spool.priorStated());
        assertEquals(9 * Cases.CM3_PER_MIN, spool.limit().m3PerS(), 1e-15);
        assertEquals(Element.Seen.WET, file.circuit().element("rod seal").seen().orElseThrow());
        assertEquals(150e5, file.circuit().element("port relief B").settingPa().orElseThrow(), 1);
        assertEquals(300, file.circuit().node("port A").accessS(), 1e-9);
        assertEquals(70e-6, file.circuit().node("port A").volumeM3(), 1e-15);
        // No limit of the seal stated: JB/T 10205-2000 for a bore of 80 mm (AC-40).
        assertEquals(
                0.13 * Cases.CM3_PER_MIN,
                file.circuit().element("piston seal").limit().m3PerS(),
                1e-15);
        CaseTest test = file.tests().get(0);
        assertEquals(2, test.number());
        assertEquals(List.of("bore side"), test.joined());
        assertEquals(List.of("port relief A"), test.blanked());
    }

    @Test
    void allProblemsComeAtOnceWithPlaceAndWhatWasMeant() {
        String said = refusal("""
                { "machin": "Press 9",
                  "complaint": { "actuator": "lifft", "direction": "sinks", "speed": "0 mm/min" },
                  "circuit": { "template": "single cylinder",
                    "functions": [ { "name": "lift", "bore": "80 mm", "rod": "90 mm", "stroke": "500 mm",
                      "spoolLimit": "tight", "seatLimit": "4 cm3/min" } ] },
                  "elements": [ { "name": "spol A", "prior": "4 %" }, { "name": "spool A", "seen": "dry" } ],
                  "referencePressure": "100 bar",
                  "testLine": { "ratings": [ ], "volume": "20 cm3" } }
                """);

        assertEquals("""
                x.case.json, line 4, field circuit.functions[1].rod: a rod that is no thinner than the bore; expected a thinner one
                x.case.json, line 5, field circuit.functions[1].spoolLimit: "tight" is no limit: not one of the standards known here; expected %1$s
                x.case.json, line 6, field elements[1].name: "spol A"; expected "spool A"?
                x.case.json, line 6, field elements[2].seen: "spool A", which leaks where nobody can see it; expected a rod seal or a line
                x.case.json, line 2, field complaint.direction: "sinks"; expected "retracts" or "extends": which way the rod drifts
                x.case.json, line 2, field complaint.actuator: "lifft", which the circuit does not have; expected "lift"?
                x.case.json, line 2, field complaint.speed: "0 mm/min"; expected a value above 0
                x.case.json, line 8, field testLine: no rated pressures; expected "ratings": hose, adapter, hand pump, plugs, each as its maker rates it
                x.case.json, line 1: no "machine"; expected its name, such as "Loader 7"
                x.case.json, line 1, field machin: unknown field "machin"; expected "machine"?""".formatted(LimitText.EXAMPLES), said);
    }

    @Test
    void aRotaryMotorIsRefusedWithTheReason() {
        String said = refusal(Cases.text("rotary motor", Cases.FUNCTION, ""));
        assertTrue(
                said.contains("\"rotary motor\"; a motor leaks from its work ports to its case by design")
                        && said.contains("a hold test cannot tell a worn one from a sound one: measure its case drain"),
                said);
    }

    @Test
    void aMotorInACircuitOfOnesOwnIsRefusedToo() {
        String text = """
                { "machine": "Winch", "complaint": { "actuator": "winch", "direction": "extends" },
                  "circuit": { "nodes": [ { "name": "a", "access": "5 min", "volume": "50 cm3" } ],
                    "elements": [ { "name": "motor", "kind": "gerotor motor", "from": "a", "to": "tank",
                                    "limit": "1 cm3/min" } ] },
                  "referencePressure": "100 bar",
                  "testLine": { "ratings": [ { "part": "hose", "pressure": "250 bar" } ], "volume": "20 cm3" } }
                """;
        assertTrue(refusal(text).contains("\"gerotor motor\"; a motor leaks"), refusal(text));
    }

    @Test
    void anUnknownTemplateIsAnsweredWithTheOneThatWasMeant() {
        assertTrue(
                refusal(Cases.text("single cilinder", Cases.FUNCTION, "")).contains("expected \"single cylinder\"?"));
        assertTrue(refusal(Cases.text("crane", Cases.FUNCTION, ""))
                .contains("one of single cylinder, load-holding valve, pilot-check clamp, valve bank"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "\"file\": \"a.hold\", \"pressurised\": \"port C\" => \"port C\"; expected \"port A\"?",
                "\"file\": \"a.hold\", \"pressurised\": \"bore side\" => nothing said of \"rod side\", which an element"
                        + " parts from the pressed oil; expected it in \"open\" or in \"blocked\"",
                "\"file\": \"a.hold\", \"pressurised\": \"port A\", \"blanked\": [\"relief A\"] => \"relief A\"; expected",
                "\"pressurised\": \"port A\" => no \"file\"; expected the session or trace, relative to the case file",
                "\"file\": \"a.hold\" => no \"pressurised\"; expected the node the test line is screwed to",
                "\"file\": \"a.hold\", \"pressurised\": \"port A\", \"joined\": [\"port B\"] => \"port B\", to which no"
                        + " line leads from \"port A\"",
                "\"file\": \"a.hold\", \"pressurised\": \"bore side\", \"open\": [\"rod side\"], \"blocked\":"
                        + " [\"rod side\"] => \"rod side\" in \"open\" and in \"blocked\"; expected it in one of them",
                "\"file\": \"a.hold\", \"pressurised\": \"port A\", \"open\": \"rod side\" => expected a list of texts",
                "\"file\": \"a.hold\", \"pressurised\": \"port A\", \"opened\": [] => unknown field \"opened\"; expected"
                        + " \"open\"?"
            })
    void aTestThatCannotBeRightIsRefused(String example) {
        String[] parts = example.split(" => ", 2);
        String said = refusal(withTest(parts[0]));
        assertTrue(said.contains(parts[1]), said);
    }

    @Test
    void oneHoldTestDoesNotCountTwice() {
        String test = "{ \"name\": \"%s\", \"file\": \"a.hold\", \"pressurised\": \"port A\" }";
        String said = refusal(Cases.text(
                "single cylinder",
                Cases.FUNCTION,
                "\"tests\": [ " + test.formatted("one") + ", " + test.formatted("two") + " ],"));
        assertTrue(said.contains("hold test 1 of \"a.hold\" twice; expected each hold test once"), said);
    }

    @Test
    void pressingBehindACheckPressesWhatItOpensInto() {
        String test =
                "\"tests\": [ { \"file\": \"a.hold\", \"pressurised\": \"behind the valve A\", \"open\": [%s] %s } ],";
        String said = refusal(
                Cases.text("load-holding valve", Cases.FUNCTION, test.formatted("\"bore side\", \"rod side\"", "")));
        assertTrue(
                said.contains("\"behind the valve A\" pressed and not \"bore side\", into which a check valve lets"),
                said);
    }

    @Test
    void aSpoolOpenToTankNeedsAValveThatHolds() {
        String open = Cases.FUNCTION + ", \"centre\": \"open to tank\"";
        assertTrue(refusal(Cases.text("single cylinder", open, ""))
                .contains("with nothing before it that holds the load"));
    }

    /** What a template is told that is no spelling mistake and yet cannot be so. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "\"spoolLimit\": \"12 cm3/min\" > \"spoolLimit\": \"-3 cm3/min\" > \"-3 cm3/min\" is no leak above zero",
                "\"name\": \"lift\" > \"name\": \"lift\", \"motor\": \"swing\" > a motor leaks from its work ports",
                "\"actuator\" > \"rodOut\": \"900 mm\", \"actuator\" > further than \"lift\" goes",
                "\"complaint\" > \"complained\" > no \"complaint\"; expected what is complained of",
                "\"testLine\" > \"testline\" > no \"testLine\"; expected the hand pump with its hose"
            })
    void whatCannotBeIsRefused(String example) {
        String[] parts = example.split(" > ", -1);
        String said = refusal(Cases.text("single cylinder", Cases.FUNCTION, "").replace(parts[0], parts[1]));
        assertTrue(said.contains(parts[2]), said);
    }

    @Test
    void twoEntriesForOnePartAreRefusedAndNotTheLastTaken() {
        String twice = "\"elements\": [ { \"name\": \"rod seal\", \"seen\": \"dry\" },"
                + " { \"name\": \"rod seal\", \"seen\": \"wet\" } ],";
        String said = refusal(Cases.text("single cylinder", Cases.FUNCTION, twice));
        assertTrue(said.contains("elements[2].name: \"rod seal\" a second time"), said);
    }

    @Test
    void textThatIsNoJsonSaysWhere() {
        String said = refusal("{ \"machine\": ");
        assertTrue(said.startsWith("x.case.json, line 1: not valid JSON"), said);
    }
}
