package org.holdtrace.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.holdtrace.rig.Hand;
import org.holdtrace.rig.StrokeShape;

/** Draws how a pump is worked: a push and a pause of 0.2 to 1 s each (common practice, no source). */
record HandDraw(Hand hand, double periodS) {
    static HandDraw draw(Draws draws, Roughness roughness) {
        double strokeS = draws.even(0.25, 0.9);
        double pauseS = draws.even(0.2, 1.1);
        List<StrokeShape> shapes = new ArrayList<>();
        StrokeShape[] all = StrokeShape.values();
        shapes.add(all[(int) draws.even(0, all.length)]);
        if (draws.chance(0.3)) {
            shapes.add(all[(int) draws.even(0, all.length)]);
        }
        double odd = roughness.oddStrokes();
        Hand.Irregularities irregularities = new Hand.Irregularities(
                draws.chance(roughness.oddHands()) ? odd : 0,
                draws.chance(roughness.oddHands()) ? odd : 0,
                draws.even(0.15, 0.9),
                draws.chance(roughness.oddHands()) ? odd : 0,
                draws.even(1.5, 7));
        double slowing = draws.chance(0.5) ? 0 : draws.even(0, 0.6);
        Hand hand = new Hand(
                strokeS,
                pauseS,
                draws.even(roughness.tempoLeast(), roughness.tempoMost()),
                slowing,
                shapes,
                irregularities,
                draws.even(0, 0.12),
                draws.chance(0.12));
        return new HandDraw(hand, (strokeS + pauseS) * (1 + slowing));
    }
}
