package org.holdtrace.rig;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.holdtrace.session.InputException;
import org.holdtrace.session.JsonFields;
import org.holdtrace.session.TestSetup;

/**
 * A recipe for a simulated session, as {@code NAME.rig.json} holds it ({@code docs/simulator.md}).
 *
 * @param rig what is simulated
 * @param seed seed of all that is random
 * @param note what the recipe is for, empty where it does not say
 */
public record RigFile(Rig rig, long seed, String note) {
    /** What a simulated trace says of itself, in the comment it begins with. */
    public static final String SIMULATED = "simulated by Holdtrace: nothing here was measured";

    /**
     * Reads a recipe.
     *
     * @throws InputException where it is none; the message names every problem with its line and what was expected
     * @throws IOException where the file cannot be read
     */
    public static RigFile read(Path file) throws IOException {
        return parse(Files.readAllBytes(file), file.toString());
    }

    /** Carries the recipe out; the same recipe gives the same run everywhere. */
    public SimulatedRun simulate() {
        return RigSimulator.simulate(rig, new SplittableRandom(seed));
    }

    /**
     * Carries the recipe in {@code recipe} out and writes what came of it, replacing what is there.
     *
     * @param recipe a recipe, {@code NAME.rig.json}
     * @param out a session where its name ends in {@code .hold}, a trace where it ends in {@code .csv}; the truth is in
     *     either, in a trace as comments
     * @throws InputException where the recipe is none
     * @throws IOException where a file cannot be read or written
     */
    public static void simulate(Path recipe, Path out) throws IOException {
        RigFile file = read(recipe);
        SimulatedRun run;
        try {
            run = file.simulate();
        } catch (IllegalStateException e) {
            throw new InputException(recipe.toString(), "", e.getMessage(), "a rig that can exist");
        }
        String name = out.getFileName().toString();
        if (name.endsWith(".csv")) {
            SimulatedCsv.write(run, out);
        } else if (name.endsWith(".hold")) {
            String rig = recipe.getFileName().toString().replaceFirst("\\.rig\\.json$", "");
            Files.write(out, SimulatedSession.bytes(run, rig, file.note(), TestSetup.unknown()));
        } else {
            throw new IllegalArgumentException(name + " is neither a session (.hold) nor a trace (.csv)");
        }
    }

    /** Whether a file begins as the traces do that {@link #simulate(Path, Path)} writes. */
    public static boolean isSimulatedTrace(Path file) throws IOException {
        byte[] first = SimulatedCsv.FIRST_LINE.getBytes(StandardCharsets.UTF_8);
        try (InputStream in = Files.newInputStream(file)) {
            return Arrays.equals(in.readNBytes(first.length), first);
        }
    }

    /** Reads a recipe from UTF-8 JSON; {@code name} stands for the file in messages. */
    static RigFile parse(byte[] utf8, String name) throws InputException {
        return JsonFields.read(utf8, name, "a recipe as in docs/simulator.md", RigParser::parse);
    }
}
