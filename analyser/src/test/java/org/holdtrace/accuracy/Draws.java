package org.holdtrace.accuracy;

import java.util.random.RandomGenerator;

/** Draws for a corpus. A corpus of one seed is the same on every machine but for the last digits of Math.log. */
final class Draws {
    private final RandomGenerator random;

    Draws(RandomGenerator random) {
        this.random = random;
    }

    RandomGenerator random() {
        return random;
    }

    /** Evenly spread between two bounds. */
    double even(double from, double to) {
        return from + (to - from) * random.nextDouble();
    }

    /** Evenly spread on a logarithmic scale. */
    double spread(double from, double to) {
        return from * Math.exp(Math.log(to / from) * random.nextDouble());
    }

    /** Standard normal. Polar method: nextGaussian has changed between Java versions. */
    double normal() {
        while (true) {
            double x = 2 * random.nextDouble() - 1;
            double y = 2 * random.nextDouble() - 1;
            double s = x * x + y * y;
            if (s > 0 && s < 1) {
                return x * Math.sqrt(-2 * Math.log(s) / s);
            }
        }
    }

    /** Standard normal within {@code most} standard deviations. */
    double normal(double most) {
        double draw = normal();
        while (Math.abs(draw) > most) {
            draw = normal();
        }
        return draw;
    }

    boolean chance(double probability) {
        return random.nextDouble() < probability;
    }

    double pick(double... values) {
        return values[(int) (random.nextDouble() * values.length)];
    }
}
