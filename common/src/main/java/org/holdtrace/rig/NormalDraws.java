package org.holdtrace.rig;

import java.util.random.RandomGenerator;

/**
 * Normal draws by the polar method. Not {@code nextGaussian}: what that returns for a given generator has changed between
 * Java versions, and the demo data must come out the same everywhere. For the same reason the simulator uses
 * {@link StrictMath}.
 */
final class NormalDraws {
    private final RandomGenerator random;
    private double spare = Double.NaN;

    NormalDraws(RandomGenerator random) {
        this.random = random;
    }

    /** A draw from the standard normal distribution. */
    double next() {
        if (!Double.isNaN(spare)) {
            double value = spare;
            spare = Double.NaN;
            return value;
        }
        while (true) {
            double x = 2 * random.nextDouble() - 1;
            double y = 2 * random.nextDouble() - 1;
            double s = x * x + y * y;
            if (s > 0 && s < 1) {
                double factor = Math.sqrt(-2 * StrictMath.log(s) / s);
                spare = y * factor;
                return x * factor;
            }
        }
    }

    /** A factor about 1 with this relative scatter, kept to within three standard deviations and above a fifth. */
    double factor(double scatter) {
        if (scatter == 0) {
            return 1;
        }
        return Math.max(0.2, 1 + scatter * Math.max(-3, Math.min(3, next())));
    }

    /** Uniform in 0 to 1. */
    double uniform() {
        return random.nextDouble();
    }

    /** Uniform in 0 to {@code bound} - 1. */
    int below(int bound) {
        return (int) (random.nextDouble() * bound);
    }
}
