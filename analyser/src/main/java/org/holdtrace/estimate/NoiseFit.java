package org.holdtrace.estimate;

/**
 * Finds how the residuals of a hold are coloured, by maximum likelihood over a coarse grid: white noise as the samples
 * show it, a lasting part (Ornstein–Uhlenbeck) and a random walk. A grid and not an optimiser, since what matters is
 * the order of each and the likelihood is flat.
 */
final class NoiseFit {
    private static final double[] COLOUR_S = {0.1, 0.4, 1.6, 6.4, 25};
    private static final double[] SHARE = {0, 0.25, 0.5, 0.75, 1, 1.4};

    private NoiseFit() {}

    /**
     * @param timeS middles of the rows, rising
     * @param lengthS their lengths
     * @param samples samples in each
     * @param residualBar residuals, bar
     * @param base white noise, quantum and scatter to keep; its walk is the least that is allowed
     * @param fitted how many parameters the residuals have paid for
     */
    static Noise estimate(
            double[] timeS, double[] lengthS, int[] samples, double[] residualBar, Noise base, int fitted) {
        int n = residualBar.length;
        if (n < 12) {
            return base;
        }
        double mean = 0;
        for (double r : residualBar) {
            mean += r / n;
        }
        double square = 0;
        for (double r : residualBar) {
            square += (r - mean) * (r - mean);
        }
        double scale = Math.sqrt(square / Math.max(1, n - fitted));
        double[] walks = {base.walkBar(), 2 * base.walkBar(), 0.2 * scale, 0.6 * scale};
        Noise best = base;
        double bestLog = Double.NEGATIVE_INFINITY;
        double inflate = (double) n / Math.max(1, n - fitted);
        Memory[] memory = new Memory[COLOUR_S.length];
        for (int c = 0; c < memory.length; c++) {
            memory[c] = Memory.of(timeS, lengthS, COLOUR_S[c]);
        }
        for (double share : SHARE) {
            for (Memory colour : memory) {
                for (double walk : walks) {
                    if (walk < base.walkBar()) {
                        continue;
                    }
                    Noise trial = new Noise(
                            base.whiteBar(),
                            share * scale,
                            colour.colourS,
                            walk,
                            base.quantumBar(),
                            base.scatter(),
                            base.tailBar());
                    double log = likelihood(timeS, colour, samples, residualBar, trial, inflate);
                    if (log > bestLog + 1e-9) {
                        bestLog = log;
                        best = trial;
                    }
                }
                if (share == 0) {
                    break;
                }
            }
        }
        return best;
    }

    /**
     * How long a colour is remembered.
     *
     * @param colourS its correlation time, s
     * @param kept what is left of it from each row to the next, as a fraction
     * @param seen what the mean over each row sees of it: less than a point would
     */
    record Memory(double colourS, double[] kept, double[] seen) {
        static Memory of(double[] timeS, double[] lengthS, double colourS) {
            Noise unit = new Noise(0, 1, colourS, 0, 0, 0, 0);
            double[] kept = new double[timeS.length];
            double[] seen = new double[timeS.length];
            for (int i = 0; i < timeS.length; i++) {
                kept[i] = i == 0 ? 0 : Math.exp(-Math.max(0, timeS[i] - timeS[i - 1]) / colourS);
                seen[i] = Math.sqrt(unit.colourVariance(lengthS[i]));
            }
            return new Memory(colourS, kept, seen);
        }
    }

    /** Log likelihood of all but the first value, less ½ ln 2π for each, by a Kalman filter of two states: level (walk, begun anywhere) and colour. */
    static double likelihood(double[] t, Memory memory, int[] samples, double[] r, Noise noise, double inflate) {
        double level = 0;
        double colour = 0;
        double c2 = noise.colourBar() * noise.colourBar();
        double pLevel = 1e6 * (c2 + noise.whiteBar() * noise.whiteBar() + 1);
        double pColour = c2;
        double pBoth = 0;
        double log = 0;
        for (int i = 0; i < r.length; i++) {
            if (i > 0) {
                double dt = Math.max(0, t[i] - t[i - 1]);
                double phi = memory.kept[i];
                pLevel += noise.walkBar() * noise.walkBar() * dt;
                pColour = phi * phi * pColour + c2 * (1 - phi * phi);
                pBoth *= phi;
                colour *= phi;
            }
            double seen = c2 > 0 ? memory.seen[i] : 0;
            double white = noise.whiteBar() * noise.whiteBar() / samples[i]
                    + noise.quantumBar() * noise.quantumBar() / 12
                    + 1e-14;
            double s = pLevel + 2 * seen * pBoth + seen * seen * pColour + white;
            double innovation = r[i] - level - seen * colour;
            if (i > 0) {
                log -= 0.5 * (Math.log(s) + inflate * innovation * innovation / s);
            }
            double kLevel = (pLevel + seen * pBoth) / s;
            double kColour = (pBoth + seen * pColour) / s;
            level += kLevel * innovation;
            colour += kColour * innovation;
            double newLevel = pLevel - kLevel * kLevel * s;
            double newBoth = pBoth - kLevel * kColour * s;
            pColour = Math.max(0, pColour - kColour * kColour * s);
            pLevel = Math.max(0, newLevel);
            pBoth = newBoth;
        }
        return log;
    }
}
