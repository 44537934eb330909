package org.holdtrace.accuracy;

import static org.holdtrace.accuracy.Units.BAR;
import static org.holdtrace.accuracy.Units.CM3_PER_MIN;

import java.util.Locale;
import java.util.Optional;
import org.holdtrace.quantity.Quantity;
import org.holdtrace.rig.Rig;
import org.holdtrace.rig.Truth;
import org.holdtrace.rig.Walls;
import org.holdtrace.session.TestSetup;

/**
 * Draws what is known of a test: the truth with a normal error of the standard uncertainty that is stated. Air is the
 * exception: what is stated comes first and the truth lies about it.
 */
final class SetupDraw {
    private SetupDraw() {}

    static TestSetup draw(
            Draws draws, Family family, KnownInputs inputs, RigDraw.Drawn drawn, Truth truth, int judged) {
        Rig rig = truth.rig();
        Truth.Test test = truth.tests().get(judged);
        boolean well = draws.chance(0.5);
        Optional<Quantity> volume = inputs.volume
                ? Optional.of(
                        stated(draws, rig.fill().volumeM3(), well ? draws.even(0.02, 0.03) : draws.even(0.03, 0.1)))
                : Optional.empty();
        Optional<Quantity> modulus = inputs.modulus
                ? Optional.of(stated(draws, rig.fill().modulusPa(), draws.even(0.02, 0.04)))
                : Optional.empty();
        Optional<Quantity> line = inputs.line
                ? Optional.of(stated(draws, lineCompliance(rig.walls(), test.peakPa()), draws.even(0.03, 0.08)))
                : Optional.empty();
        Optional<Quantity> stroke = inputs.strokes
                ? Optional.of(stated(draws, rig.pump().strokeM3(), draws.even(0.01, 0.03)))
                : Optional.empty();
        Optional<Quantity> bled = inputs.bled
                ? Optional.of(stated(draws, test.bledVolumeM3(), draws.even(0.015, 0.04)))
                : Optional.empty();
        Optional<String> grade = draws.chance(0.9) ? Optional.of("ISO VG " + drawn.grade()) : Optional.empty();
        Optional<Quantity> temperature = draws.chance(0.9)
                ? Optional.of(new Quantity(rig.fill().temperatureK() + 1.5 * draws.normal(), 1.5))
                : Optional.empty();
        boolean ranged = draws.chance(0.8);
        Optional<Quantity> reference = draws.chance(0.3)
                ? Optional.of(Quantity.exactly(Math.rint(draws.even(0.6, 1) * drawn.targetBar() / 5) * 5 * BAR))
                : Optional.empty();
        return new TestSetup(
                Optional.of(String.format(Locale.ROOT, "Invented machine %d", (int) draws.even(1, 20))),
                Optional.empty(),
                draws.chance(0.75) ? Optional.of(family.kind()) : Optional.empty(),
                Optional.empty(),
                grade,
                temperature,
                modulus,
                drawn.statedAir(),
                volume,
                line,
                stroke,
                bled,
                ranged ? Optional.of(rig.sensor().scale().minPa()) : Optional.empty(),
                ranged ? Optional.of(rig.sensor().scale().maxPa()) : Optional.empty(),
                ranged ? Optional.of(drawn.accuracy()) : Optional.empty(),
                reference,
                relief(draws, rig),
                limit(draws, truth, test));
    }

    private static Quantity stated(Draws draws, double truth, double relative) {
        double u = relative * truth;
        return new Quantity(truth + u * draws.normal(), u);
    }

    /** What would be measured on the blanked line: swelling per pressure, the first ten seconds of creep included. */
    private static double lineCompliance(Walls walls, double pa) {
        double elastic = Units.swellingM3(walls, pa);
        double decades = Math.max(0, Math.log10(10 / walls.creepFromS()));
        double hose = elastic - walls.rigidM3PerPa() * pa;
        return (elastic + walls.creepPerDecade() * decades * hose) / pa;
    }

    private static Optional<Quantity> relief(Draws draws, Rig rig) {
        double own = rig.pump().reliefPa();
        if (Double.isInfinite(own) || draws.chance(0.4)) {
            return Optional.empty();
        }
        return Optional.of(new Quantity(own * (1 + 0.01 * draws.normal()), 0.01 * own));
    }

    /** Limits lie anywhere about the leak, as makers' limits do about parts that are sent in. */
    private static Optional<Quantity> limit(Draws draws, Truth truth, Truth.Test test) {
        if (draws.chance(0.15)) {
            return Optional.empty();
        }
        double leak = truth.leakM3PerS(test.peakPa());
        double limit = leak > 0 ? leak * draws.spread(0.25, 4) : draws.spread(0.05, 10) * CM3_PER_MIN;
        return Optional.of(Quantity.exactly(limit));
    }
}
