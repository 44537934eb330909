package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.holdtrace.session.CsvTraceReader;
import org.holdtrace.session.HoldFileReader;
import org.holdtrace.session.Session;
import org.holdtrace.trace.Trace;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SimulatedFilesTest {
    private static final String RECIPE = """
            {
              "note": "two short tests", "seed": "5",
              "trappedVolume": "48 cm3",
              "pump": { "stroke": "0.1 cm3" },
              "leak": { "law": "laminar", "flow": "1 cm3/min", "at": "120 bar" },
              "transducer": { "upTo": "250 bar", "whiteNoise": "0.03 bar", "zeroError": "-0.4 bar", "jitter": "0.3 ms",
                              "gapsPerMinute": "6", "oilTemperature": "yes", "ambientTemperature": "yes" },
              "tests": [ { "target": "120 bar", "hold": "8 s", "bleedOff": "2 s" },
                         { "target": "60 bar", "hold": "5 s", "bleedOff": "2 s" } ]
            }
            """;

    @TempDir
    Path folder;

    private Path recipe;

    @BeforeEach
    void writeRecipe() throws IOException {
        recipe = folder.resolve("two.rig.json");
        Files.writeString(recipe, RECIPE, StandardCharsets.UTF_8);
    }

    @Test
    void aSessionHoldsEverySampleAndTheTruth() throws IOException {
        Path out = folder.resolve("two.hold");
        RigFile.simulate(recipe, out);
        SimulatedRun run = RigFile.read(recipe).simulate();
        Session session = HoldFileReader.read(out);
        assertTrue(session.header().simulated());
        assertTrue(session.losses().isEmpty() && session.end().isPresent());
        assertArrayEquals(run.counts(), session.counts(0));
        Trace trace = session.trace();
        assertEquals(run.trace().size(), trace.size());
        for (int i = 0; i < trace.size(); i += 97) {
            assertEquals(run.trace().timeS(i), trace.timeS(i), 5.1e-6);
            assertEquals(run.trace().pressurePa(i), trace.pressurePa(i), 1);
        }
        assertEquals(3, session.truth().size());
        org.holdtrace.session.Truth first = session.truth().stream()
                .filter(truth -> truth.holdTest() == 1)
                .findFirst()
                .orElseThrow();
        assertEquals("laminar", first.words().get("law"));
        double at = first.numbers().get("atPa");
        assertEquals(1e-6 / 60 * at / 120e5, first.numbers().get("leakM3PerS"), 1e-16);
        assertEquals(run.truth().complianceM3PerPa(0, at), first.numbers().get("complianceM3PerPa"));
        assertEquals(
                run.truth().tests().get(0).strokes().size(), first.strokes().size());
        assertEquals(293.15, session.trace().oilTemperatureK(0), 0.3);
    }

    @Test
    void theTruthOfASessionFollowsThickenedOil() throws IOException {
        String thick =
                RECIPE.replace("\"at\": \"120 bar\" }", "\"at\": \"120 bar\", \"thickeningAt100Bar\": \"19.363 %\" }");
        Files.writeString(recipe, thick, StandardCharsets.UTF_8);
        Path out = folder.resolve("thick.hold");
        RigFile.simulate(recipe, out);
        for (org.holdtrace.session.Truth truth : HoldFileReader.read(out).truth()) {
            assertEquals("laminar", truth.words().get("law"));
            if (truth.holdTest() == 0) {
                assertEquals(1.77e-8, truth.numbers().get("componentThickeningPerPa"), 1e-13);
            } else {
                double at = truth.numbers().get("atPa");
                double expected = 1e-6 / 60 * (1 - Math.exp(-1.77e-8 * at)) / (1 - Math.exp(-1.77e-8 * 120e5));
                assertEquals(expected, truth.numbers().get("leakM3PerS"), 1e-5 * expected);
            }
        }
    }

    @Test
    void aTraceHoldsTheSamplesAsALoggerWouldPrintThem() throws IOException {
        Path out = folder.resolve("two.csv");
        RigFile.simulate(recipe, out);
        List<String> lines = Files.readAllLines(out);
        assertEquals("# simulated by Holdtrace: nothing here was measured", lines.get(0));
        SimulatedRun run = RigFile.read(recipe).simulate();
        Trace trace = CsvTraceReader.read(out);
        assertEquals(run.trace().size(), trace.size());
        for (int i = 0; i < trace.size(); i += 97) {
            assertEquals(run.trace().timeS(i), trace.timeS(i), 5.1e-5);
            assertEquals(run.trace().pressurePa(i), trace.pressurePa(i), 51);
            assertEquals(run.trace().oilTemperatureK(i), trace.oilTemperatureK(i), 0.0051);
        }
    }

    @Test
    void theSameRecipeGivesTheSameBytes() throws IOException {
        for (String ending : List.of("hold", "csv")) {
            Path one = folder.resolve("one." + ending);
            Path other = folder.resolve("other." + ending);
            RigFile.simulate(recipe, one);
            RigFile.simulate(recipe, other);
            assertArrayEquals(Files.readAllBytes(one), Files.readAllBytes(other));
        }
    }

    @Test
    void whatIsNeitherSessionNorTraceIsNotWritten() {
        Path out = folder.resolve("two.txt");
        assertThrows(IllegalArgumentException.class, () -> RigFile.simulate(recipe, out));
        assertTrue(Files.notExists(out));
    }
}
