package org.holdtrace.rig;

import java.util.List;
import org.holdtrace.quantity.Require;

/**
 * How the heat of compression leaves the oil, and what the surroundings do. The warming of the oil is the weighted sum of
 * parts that each relax towards the surroundings at their own pace. The surroundings are, above the start,
 * {@code drift t + swing sin(2 pi t / period)}.
 *
 * @param modes time constants with weights that sum to 1; empty: the oil always has the temperature around it
 * @param driftKPerS steady warming of the surroundings, K/s
 * @param swingK amplitude of their swing, K
 * @param swingPeriodS its period, s
 */
public record Heat(List<Mode> modes, double driftKPerS, double swingK, double swingPeriodS) {
    public Heat {
        modes = List.copyOf(modes);
        Require.finite(driftKPerS, "drift of the surroundings", "K/s");
        Require.finite(swingK, "swing of the surroundings", "K");
        Require.positive(swingPeriodS, "period of the swing", "s");
        if (modes.size() > 3) {
            throw new IllegalArgumentException("at most 3 thermal time constants, were " + modes.size());
        }
        double sum = modes.stream().mapToDouble(Mode::weight).sum();
        if (!modes.isEmpty() && !(Math.abs(sum - 1) < 1e-6)) {
            throw new IllegalArgumentException("weights of thermal time constants must sum to 1, sum to " + sum);
        }
    }

    /** A part of the oil: time constant, s, and weight. */
    public record Mode(double tauS, double weight) {
        public Mode {
            Require.positive(tauS, "thermal time constant", "s");
            Require.within(weight, 0, 1, "weight of a thermal time constant", "");
        }
    }

    /** Oil that is always as warm as its surroundings, and those do not change. */
    public static Heat none() {
        return new Heat(List.of(), 0, 0, 1);
    }

    /** One time constant, surroundings that do not change. */
    public static Heat single(double tauS) {
        return new Heat(List.of(new Mode(tauS, 1)), 0, 0, 1);
    }

    /** Surroundings above the start, K. */
    double surroundingsK(double timeS) {
        double swing = swingK == 0 ? 0 : swingK * StrictMath.sin(2 * Math.PI * timeS / swingPeriodS);
        return driftKPerS * timeS + swing;
    }
}
