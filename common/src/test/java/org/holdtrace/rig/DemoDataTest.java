package org.holdtrace.rig;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.session.SetupReader;
import org.holdtrace.session.TestSetup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo workshop keeps its word: what its setups state is what its rigs are, within what they admit. */
class DemoDataTest {
    /** Tests run in the folder of their module. */
    private static final Path DEMO = Path.of("..", "demo-data");

    private static List<Path> recipes() throws IOException {
        try (Stream<Path> files = Files.walk(DEMO.resolve("rigs"))) {
            return files.filter(file -> file.toString().endsWith(".rig.json"))
                    .sorted()
                    .toList();
        }
    }

    private static String name(Path recipe) {
        return DEMO.resolve("rigs").relativize(recipe).toString().replace(".rig.json", "");
    }

    private static void agrees(String what, Optional<Quantity> stated, double truth) {
        if (stated.isPresent()) {
            double off = Math.abs(stated.get().value() - truth);
            assertTrue(
                    off <= 2 * stated.get().standardUncertainty(), what + ": stated " + stated.get() + ", is " + truth);
        }
    }

    @Test
    void thereAreAtLeastEightStoriesEachWithASetup() throws IOException {
        assertTrue(recipes().size() >= 8);
        for (Path recipe : recipes()) {
            assertTrue(Files.exists(DEMO.resolve(name(recipe) + ".setup.json")), name(recipe));
            assertTrue(RigFile.read(recipe).note().startsWith("Invented."), name(recipe));
        }
    }

    @Test
    void setupsAreOffByNoMoreThanTheyAdmit() throws IOException {
        for (Path recipe : recipes()) {
            RigFile file = RigFile.read(recipe);
            TestSetup setup = SetupReader.read(DEMO.resolve(name(recipe) + ".setup.json"));
            Rig rig = file.rig();
            String name = name(recipe) + " ";
            agrees(name + "volume", setup.trappedVolumeM3(), rig.fill().volumeM3());
            agrees(name + "modulus", setup.bulkModulusPa(), rig.fill().modulusPa());
            agrees(name + "air", setup.airFraction(), rig.fill().air().fraction());
            agrees(name + "temperature", setup.oilTemperatureK(), rig.fill().temperatureK());
            agrees(name + "stroke", setup.pumpStrokeM3(), rig.pump().strokeM3());
            double reference = setup.referencePressurePa().orElseThrow().value();
            agrees(name + "line", setup.lineComplianceM3PerPa(), rig.walls().complianceM3PerPa(reference));
            if (setup.bledVolumeM3().isPresent()) {
                agrees(
                        name + "bled volume",
                        setup.bledVolumeM3(),
                        file.simulate().truth().tests().get(0).bledVolumeM3());
            }
            double accuracy = setup.transducerAccuracy().orElseThrow();
            assertTrue(Math.abs(rig.sensor().errors().gain()) <= accuracy, name + "gain");
        }
    }

    @Test
    void theFilesAreWhatTheirRecipesMake(@TempDir Path folder) throws IOException {
        long bytes = 0;
        for (Path recipe : recipes()) {
            Path session = DEMO.resolve(name(recipe) + ".hold");
            Path committed = Files.exists(session) ? session : DEMO.resolve(name(recipe) + ".csv");
            Path made = folder.resolve(committed.getFileName());
            RigFile.simulate(recipe, made);
            assertEquals(-1, Files.mismatch(committed, made), committed + ": make.sh gives another file");
            bytes += Files.size(made);
        }
        assertTrue(bytes < 5_000_000, "small enough to clone");
    }

    @Test
    void theStoriesEndAsTheyAreTold() throws IOException {
        for (Path recipe : recipes()) {
            SimulatedRun run = RigFile.read(recipe).simulate();
            Truth.Test test = run.truth().tests().get(0);
            switch (name(recipe)) {
                case "04-bramble-lift-cylinder" -> {
                    assertEquals(0, run.truth().componentLeakM3PerS(120e5));
                    assertTrue(test.peakPa() - test.holdEndPa() > 8e5, "it looks leaky");
                }
                case "06-heron-port-relief" -> assertTrue(test.holdEndPa() > 100e5, "it stays at its opening");
                case "09-thistle-index-port" ->
                    assertTrue(!test.reachedTarget() && test.plateauMeanPa().isPresent(), "it stalls");
                case "10-bramble-bucket-after-rebuild" ->
                    assertEquals(2, run.truth().tests().size());
                default -> assertTrue(test.reachedTarget(), name(recipe));
            }
        }
    }
}
