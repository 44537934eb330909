package org.holdtrace.accuracy;

import java.util.List;
import java.util.SplittableRandom;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.RigSimulator;
import org.holdtrace.rig.SimulatedRun;
import org.holdtrace.rig.Truth;
import org.holdtrace.session.TestSetup;

/**
 * Simulated hold tests of every family with every mix of known inputs, in turn. Test {@code i} depends on seed, roughness
 * and {@code i} alone.
 */
public final class Corpus {
    private static final List<Family> FAMILIES = List.of(Family.values());
    private static final List<KnownInputs> MIXES = List.of(KnownInputs.values());

    /** Tells the streams of {@link EffectDraw} from those of everything else. */
    private static final long EFFECTS = 0x5deece66dL;

    private final long seed;
    private final Roughness roughness;

    public Corpus(long seed, Roughness roughness) {
        this.seed = seed;
        this.roughness = roughness;
    }

    /** The family of test {@code index}. */
    static Family family(int index) {
        return FAMILIES.get(index % FAMILIES.size());
    }

    /** Families and mixes are both 11: shifted by one each round so that every pair comes up. */
    private static KnownInputs inputs(int index) {
        return MIXES.get((index + index / FAMILIES.size()) % MIXES.size());
    }

    /** Draws and simulates test {@code index}. */
    SimulatedCase.Recorded simulate(int index) {
        Family family = family(index);
        KnownInputs inputs = inputs(index);
        SplittableRandom random = new SplittableRandom(
                seed * 1_000_003L + index * 7919L + roughness.label().hashCode());
        SplittableRandom effects = new SplittableRandom(
                EFFECTS ^ (seed * 1_000_003L + index * 7919L + roughness.label().hashCode()));
        for (int attempt = 0; attempt < 100; attempt++) {
            Draws draws = new Draws(random.split());
            RigDraw.Drawn drawn = RigDraw.draw(draws, family, roughness, inputs.bled);
            Rig rig = EffectDraw.add(effects.split(), drawn.rig(), roughness);
            SimulatedRun run = RigSimulator.simulate(rig, random.split());
            int judged = run.truth().tests().size()
                    - 1
                    - (draws.chance(0.5) ? 0 : run.truth().tests().size() - 1);
            if (isUsable(family, rig, run.truth().tests().get(judged))) {
                TestSetup setup = SetupDraw.draw(draws, family, inputs, drawn, run.truth(), judged);
                SimulatedCase test = new SimulatedCase(
                        index,
                        family,
                        inputs,
                        run.truth(),
                        setup,
                        judged,
                        run.trace().size());
                return new SimulatedCase.Recorded(test, run.trace());
            }
        }
        throw new IllegalStateException("no usable test of family " + family + " at index " + index);
    }

    /** What a technician would throw away is not judged: fewer than 5 strokes, or next to no pressure. */
    private static boolean isUsable(Family family, Rig rig, Truth.Test test) {
        boolean plateauAsMeant = family != Family.SPOOL_PLATEAU
                || (!test.reachedTarget() && test.plateauMeanPa().isPresent());
        return plateauAsMeant
                && test.peakPa() > 4e5
                && test.strokes().size() >= 5
                && test.strokes().size() <= 300
                && test.peakPa() < 0.99 * rig.sensor().scale().maxPa();
    }
}
