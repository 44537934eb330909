package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import org.holdtrace.leak.LeakLaw;
import org.holdtrace.session.InputException;
import org.junit.jupiter.api.Test;

class RigFileTest {
    private static final String SMALLEST = """
            {
              "trappedVolume": "48 cm3",
              "pump": { "stroke": "0.1 cm3" },
              "transducer": { "upTo": "250 bar" },
              "tests": [ { "target": "120 bar", "hold": "20 s", "bleedOff": "2 s" } ]
            }
            """;

    private static final String FULL = """
            {
              "note": "all fields", "seed": "42",
              "oil": { "grade": "ISO VG 32", "temperature": "24 degC", "bulkModulus": "1.44 GPa", "secantSlope": "5.2",
                       "air": "0.6 %", "airIndex": "1.2", "airDissolving": "8 min" },
              "trappedVolume": "52 cm3",
              "walls": { "rigidCompliance": "0.0002 cm3/bar", "hoseCompliance": "0.009 cm3/bar",
                         "hoseStiffShare": "60 %", "hoseStiffening": "90 bar", "creepPerDecade": "2 %",
                         "creepFrom": "0.3 s", "creepTo": "1 h", "expansion": "none" },
              "heat": { "modes": [ { "time": "3 s", "share": "70 %" }, { "time": "40 s", "share": "30 %" } ],
                        "driftPerHour": "-1.5 K", "swing": "0.1 K", "swingPeriod": "4 min" },
              "pump": { "stroke": "0.45 cm3", "scatter": "2 %", "lossAt100Bar": "1 %", "relief": "280 bar",
                        "deadVolume": "0.8 cm3", "shutWithin": "2 s", "backLeak": "3 cm3/min",
                        "stemVolume": "0.005 cm3" },
              "hand": { "stroke": "0.6 s", "pause": "0.4 s", "spread": "15 %", "slowing": "50 %",
                        "shapes": "half sine, front loaded", "halfStrokes": "5 %",
                        "hesitations": { "share": "10 %", "time": "0.4 s" },
                        "breaks": { "share": "5 %", "time": "3 s" },
                        "reaction": "0.15 s", "finishesLastStroke": "yes" },
              "leak": { "law": "threshold", "flow": "12 cm3/min", "at": "120 bar", "opensAt": "95 bar" },
              "lineLeak": { "law": "mixed", "flow": "0.02 cm3/min", "at": "100 bar", "laminarShare": "25 %",
                            "thickeningAt100Bar": "19.363 %" },
              "transducer": { "upTo": "250 bar", "converter": "12 bit", "samplesPerSecond": "100", "jitter": "0.2 ms",
                              "gainError": "-0.2 %", "zeroError": "0.3 bar", "bow": "0.1 bar",
                              "zeroDriftPerMinute": "0.01 bar", "lag": "2 ms", "whiteNoise": "0.05 bar",
                              "colouredNoise": "0.02 bar", "colourTime": "0.5 s",
                              "zeroWalkPerRootSecond": "0.001 bar", "spikesPerMinute": "1", "spikeSize": "6 bar",
                              "gapsPerMinute": "0.5", "gapSamples": "12", "oilTemperature": "yes",
                              "ambientTemperature": "no" },
              "tests": [ { "rest": "4 s", "drained": "1 cm3", "target": "120 bar", "stallStrokes": "6",
                           "maxStrokes": "60", "hold": "30 s", "bleedOff": "3 s", "emptiesIn": "0.8 s",
                           "startsPumpedUp": "no" },
                         { "target": "60 bar", "hold": "20 s" } ]
            }
            """;

    private static RigFile parse(String json) throws InputException {
        return RigFile.parse(json.getBytes(StandardCharsets.UTF_8), "some.rig.json");
    }

    private static String refusal(String json) {
        return assertThrows(InputException.class, () -> parse(json)).getMessage();
    }

    @Test
    void theSmallestRecipeIsATightTestOfPlainOil() throws InputException {
        RigFile file = parse(SMALLEST);
        assertEquals(LeakLaw.none(), file.rig().leaks().component());
        assertEquals(48e-6, file.rig().fill().volumeM3());
        assertEquals(293.15, file.rig().fill().temperatureK());
        SimulatedRun run = file.simulate();
        assertTrue(run.truth().tests().get(0).reachedTarget());
        assertArrayEquals(run.counts(), parse(SMALLEST).simulate().counts());
    }

    @Test
    void everyFieldArrivesInItsSiUnit() throws InputException {
        RigFile file = parse(FULL);
        Rig rig = file.rig();
        assertEquals(42, file.seed());
        assertEquals("all fields", file.note());
        assertEquals(297.15, rig.fill().temperatureK(), 1e-9);
        assertEquals(1.44e9, rig.fill().modulusPa());
        assertEquals(5.2, rig.fill().secantSlope());
        assertEquals(0.006, rig.fill().air().fraction());
        assertEquals(480, rig.fill().airDissolvingS());
        assertEquals(new Walls(0.0002e-11, 0.009e-11, 0.6, 90e5, 0.02, 0.3, 3600, 0), rig.walls());
        assertEquals(new Heat.Mode(40, 0.3), rig.heat().modes().get(1));
        assertEquals(-1.5 / 3600, rig.heat().driftKPerS());
        assertEquals(240, rig.heat().swingPeriodS());
        assertEquals(new HandPump(0.45e-6, 0.02, 1e-9, 280e5, 0.8e-6, new ShutOff(2, 5e-8, 5e-9)), rig.pump());
        assertEquals(2, rig.hand().shapes().size());
        assertEquals(
                new Hand.Irregularities(0.05, 0.1, 0.4, 0.05, 3), rig.hand().irregularities());
        assertTrue(rig.hand().finishesLastStroke());
        assertEquals(12e-6 / 60, rig.leaks().component().flow(120e5), 1e-18);
        assertEquals(0, rig.leaks().component().flow(95e5));
        LeakLaw.Thickening line = (LeakLaw.Thickening) rig.leaks().line();
        assertEquals(1.77e-8, line.perPa(), 1e-13); // VI-08
        assertEquals(0.02e-6 / 60, line.flow(100e5), 1e-20);
        assertEquals(0.75 * 0.02e-6 / 60, line.b() * Math.sqrt(100e5), 1e-20);
        assertEquals(100, rig.sensor().rateHz());
        assertEquals(0.01e5 / 60, rig.sensor().errors().driftPaPerS(), 1e-9);
        assertEquals(new Sensor.Noise(5000, 2000, 0.5, 100), rig.sensor().noise());
        assertEquals(12, rig.sensor().faults().gapSamples());
        assertTrue(rig.sensor().oilChannel());
        assertEquals(4095, rig.sensor().scale().highestCount());
        assertEquals(6, rig.tests().get(0).stallStrokes());
        assertEquals(0, rig.tests().get(1).bleedS());
    }

    @Test
    void everyProblemIsNamedWithItsLineAndWhatWasExpected() {
        String message = refusal("""
                {
                  "trappedVolume": "48 bar",
                  "pump": { "stroke": 0.45, "scater": "2 %" },
                  "leak": { "law": "lamina", "flow": "1 cm3/min", "at": "100 bar" },
                  "transducer": { "upTo": "250 bar", "whiteNoise": "0.05 ± 0.01 bar" },
                  "tests": [ { "hold": "20 s" } ]
                }
                """);
        assertTrue(message.contains("some.rig.json, line 2, field trappedVolume"), message);
        assertTrue(message.contains("line 3, field pump.stroke: the bare value 0.45; expected text such as"), message);
        assertTrue(message.contains("unknown field \"scater\"; expected \"scatter\"?"), message);
        assertTrue(message.contains("line 4, field leak.law: \"lamina\"; expected \"laminar\"?"), message);
        assertTrue(message.contains("has an uncertainty"), message);
        assertTrue(message.contains("line 6, field tests[1]: no field \"target\""), message);
    }

    @Test
    void whatCannotExistIsRefused() {
        assertTrue(refusal(SMALLEST.replace("\"48 cm3\"", "\"-48 cm3\"")).contains("trapped volume"));
        assertTrue(refusal(FULL.replace("\"share\": \"70 %\"", "\"share\": \"80 %\""))
                .contains("must sum to 1"));
        assertTrue(refusal(FULL.replace("\"95 bar\"", "\"125 bar\"")).contains("opens at or above"));
        assertTrue(refusal(FULL.replace("\"swing\": \"0.1 K\"", "\"swing\": \"20 degC\""))
                .contains("difference"));
        assertTrue(refusal(FULL.replace("\"expansion\": \"none\"", "\"expansion\": \"wood\""))
                .contains("walls.expansion: \"wood\"; expected \"steel\" or \"none\""));
        assertTrue(refusal(FULL.replace("\"shutWithin\": \"2 s\",", "")).contains("that takes a time"));
        assertTrue(refusal(FULL.replace("shutWithin", "shutwithin")).contains("expected \"shutWithin\"?"));
        assertTrue(refusal(FULL.replace("\"opensAt\"", "\"thickeningAt100Bar\": \"20 %\", \"opensAt\""))
                .contains("unknown field \"thickeningAt100Bar\""));
        assertTrue(refusal("[1]").contains("no JSON object"));
        assertTrue(refusal("{ \"seed\": ").contains("not valid JSON"));
        assertTrue(refusal(SMALLEST + "{}").contains("more text"));
    }
}
